//! `check`: the report holds what the contract lists, and the figures are the engine's.

use std::collections::BTreeSet;

use std::sync::Arc;

use hosewright::checks::{Finding, Unit, check};
use hosewright::document::file::load;
use hosewright::engine::{RunSolution, solve_whole};
use hosewright::model::{Bay, Routing};
use hosewright::remedy;
use hosewright::units::{Length, is_plain};
use serde_json::{Value, json};

use crate::bench::{Bench, all_bays};

fn keys(value: &Value) -> BTreeSet<&str> {
    value.as_object().unwrap().keys().map(String::as_str).collect()
}

fn set(words: &str) -> BTreeSet<&str> {
    words.split_whitespace().collect()
}

/// Each routing of each bay with its report.
fn reports(mut each: impl FnMut(&Bay, &Routing, &Value)) {
    let bench = Bench::new();
    for path in all_bays() {
        let bay = load(&path).unwrap();
        for routing in &bay.routings {
            let file = path.to_str().unwrap();
            let ended = bench.run(&["check", file, "--routing", &routing.id, "--json"]);
            // `from_str` refuses anything after the document.
            let report = serde_json::from_str(&ended.out).unwrap();
            each(&bay, routing, &report);
        }
    }
}

#[test]
fn the_report_has_the_keys_of_the_contract_and_none_that_is_not_built() {
    let (mut bends, mut findings, mut clearances, mut flows) = (0, 0, 0, 0);
    reports(|bay, _, report| {
        assert_eq!(keys(report), set("report version title routing runs findings"));
        for run in report["runs"].as_array().unwrap() {
            let figures = "id name centreline_mm slack_mm cut_length_mm bench_mm bench_inch \
                           overall_mm min_radius_mm radius_limit_mm clock_between_deg bends \
                           clearance installed positions leak_test";
            let mut wanted = set(figures);
            let told = ["flow", "flow_not_known"].map(|key| (key, run.get(key)));
            wanted.extend(told.iter().filter_map(|(key, told)| told.map(|_| *key)));
            assert_eq!(keys(run), wanted);
            if let [(_, Some(flow)), (_, not_known)] = told {
                assert_eq!(not_known, None, "known or not, never both");
                // The contract's three; the others are ours.
                for key in ["velocity_m_s", "reynolds", "pressure_drop_bar"] {
                    assert!(flow[key].as_f64().is_some_and(|figure| figure > 0.0), "{key}");
                }
                flows += 1;
            }
            let installed = &run["installed"];
            let parts = "min_radius_mm clearance bulge_mm bending_energy_1_per_mm points";
            assert_eq!(keys(installed), set(parts));
            assert!(installed["points"].as_array().unwrap().len() > 2);
            for position in run["positions"].as_array().unwrap() {
                // `reach_spare_mm` and `clearance` are ours.
                let parts = "position installed_min_radius_mm reach_spare_mm clearance";
                assert_eq!(keys(position), set(parts));
            }
            assert_eq!(run["positions"][0]["position"], "as drawn");
            for bend in run["bends"].as_array().unwrap() {
                assert_eq!(keys(bend), set("at_mm angle_deg radius_mm wanted_mm"));
                bends += 1;
            }
            let near = &run["clearance"];
            assert_eq!(near.is_null(), bay.obstacles.is_empty());
            if !near.is_null() {
                // `point` and `point_on_obstacle` are ours: the places on the hose's axis and the obstacle.
                let parts = "obstacle gap_mm min_clearance_mm at_mm point point_on_obstacle";
                assert_eq!(keys(near), set(parts));
                assert!(bay.obstacle(near["obstacle"].as_str().unwrap()).is_some());
                clearances += 1;
            }
        }
        for finding in report["findings"].as_array().unwrap() {
            // `hint` is ours: what to do about it.
            let parts = "rule severity run other at_mm point value limit unit message hint source";
            assert_eq!(keys(finding), set(parts));
            findings += 1;
        }
    });
    assert!(bends > 0 && findings > 0 && clearances > 0 && flows > 0);
}

#[test]
fn the_figures_of_the_report_are_the_engines() {
    reports(|bay, routing, report| {
        let solution = solve_whole(bay, routing);
        assert_eq!(report["report"], "hosewright-check");
        assert_eq!(report["version"], 1);
        assert_eq!(report["title"], bay.title.as_str());
        assert_eq!(report["routing"], routing.id.as_str());
        let runs = report["runs"].as_array().unwrap();
        assert_eq!(runs.len(), routing.runs.len());
        for (i, (told, run)) in runs.iter().zip(&routing.runs).enumerate() {
            assert_eq!(told["id"], run.id.as_str());
            assert_eq!(told["name"], run.name.as_str());
            same_figures(told, solution.run(i).unwrap());
        }
    });
}

fn same_figures(told: &Value, solved: &RunSolution) {
    let cut = Length::from_mm(solved.cut_length_mm);
    for (key, value) in [
        ("centreline_mm", json!(solved.centreline_mm)),
        ("slack_mm", json!(solved.slack_mm)),
        ("cut_length_mm", json!(solved.cut_length_mm)),
        ("bench_mm", json!(cut.bench_mm())),
        ("bench_inch", json!(cut.bench_inch())),
        ("overall_mm", json!(solved.overall_mm)),
        ("min_radius_mm", json!(solved.min_radius_mm)),
        ("radius_limit_mm", json!(solved.radius_limit_mm)),
        ("clock_between_deg", json!(solved.clock_between_deg)),
    ] {
        assert_eq!(told[key], value, "{key} of {}", told["id"]);
    }
    // The contract's own sums, from what is printed alone.
    let number = |key: &str| told[key].as_f64().unwrap();
    assert!((number("centreline_mm") + number("slack_mm") - number("cut_length_mm")).abs() < 1e-9);
    let over = number("bench_mm") - number("cut_length_mm");
    assert!((-1e-6..1.0).contains(&over), "{over}");
    let bends: Vec<Value> = solved
        .bends()
        .iter()
        .map(|bend| {
            json!({ "at_mm": bend.at_mm, "angle_deg": bend.angle_deg,
                    "radius_mm": bend.radius_mm, "wanted_mm": bend.wanted_mm })
        })
        .collect();
    assert_eq!(told["bends"], Value::from(bends));
}

fn as_told(finding: &Finding) -> Value {
    json!({
        "rule": finding.rule, "severity": finding.severity.word(),
        "run": finding.run, "other": finding.other, "at_mm": finding.at_mm,
        "point": finding.point.map(|point| [point.x, point.y, point.z]),
        "value": finding.value, "limit": finding.limit,
        "unit": if finding.unit == Unit::None { None } else { Some(finding.unit.word()) },
        "message": finding.message, "hint": finding.hint, "source": finding.source,
    })
}

#[test]
fn the_findings_of_the_report_are_those_of_the_checks_worst_first() {
    reports(|bay, routing, report| {
        let solution = solve_whole(bay, routing);
        let found = check(bay, routing, &solution).into_iter().map(Arc::new).collect();
        let (mut found, _) = remedy::with_tried_hints(bay, routing, &solution, found);
        found.sort_by_key(|finding| finding.severity);
        let expected: Vec<Value> = found.iter().map(|finding| as_told(finding)).collect();
        assert_eq!(report["findings"], Value::from(expected));
    });
}

#[test]
fn the_text_names_every_hose_and_every_finding() {
    let bench = Bench::new();
    for path in all_bays() {
        let bay = load(&path).unwrap();
        for routing in &bay.routings {
            let asked = ["check", path.to_str().unwrap(), "--routing", &routing.id, "--notes"];
            let ended = bench.run(&asked);
            let (table, told) = ended.out.split_once("In ").unwrap();
            for (i, run) in routing.runs.iter().enumerate() {
                let solution = solve_whole(&bay, routing);
                let cut = Length::from_mm(solution.run(i).unwrap().cut_length_mm);
                let bench = match bay.show_units {
                    hosewright::units::LengthUnit::Inch => cut.bench_inch(),
                    hosewright::units::LengthUnit::Mm => cut.bench_mm().to_string(),
                };
                // The table shortens long names.
                let start: String = run.name.chars().take(20).collect();
                let line = table.lines().find(|line| line.starts_with(&start)).expect(&run.name);
                assert!(line.contains(&format!(" {bench} ")), "{bench}: {line}");
            }
            let in_one_line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
            let told = in_one_line(told);
            for finding in check(&bay, routing, &solve_whole(&bay, routing)) {
                let (message, rule) =
                    (in_one_line(&finding.message), format!("[{}]", finding.rule));
                assert!(told.contains(&message) && told.contains(&rule), "{rule} {message}");
            }
            let sources = bench.run(&["check", path.to_str().unwrap(), "--sources"]);
            assert!(sources.out.contains("\nSources\n") && !ended.out.contains("\nSources\n"));
        }
    }
}

#[test]
fn names_from_outside_cannot_steer_the_terminal() {
    let bench = Bench::with_changed_bay(|bay| {
        // Told in a finding; names with such characters are refused (tests/cli/hostile.rs).
        bay["ports"][0]["odd\u{1b}[5m\u{202e}key\nhosewright: wrote"] = 1.into();
    });
    let ended = bench.run(&["check", "my.bay.json"]);
    let odd = |c: char| !is_plain(c) && c != '\n';
    assert!(!ended.is_quiet(1).contains(odd), "{:?}", ended.out);
    let shown = "odd\\u{1b}[5m\\u{202e}key\\u{a}hosewright:";
    assert!(ended.out.contains(shown), "{:?}", ended.out);
    assert!(!ended.out.lines().any(|line| line.starts_with("hosewright:")), "{:?}", ended.out);
    let json = bench.run(&["check", "my.bay.json", "--json"]);
    assert!(!json.is_quiet(1).contains(odd), "{:?}", json.out);
    let asked = ["check", "my.bay.json", "--routing", "no\u{1b}[31m\u{2066}\nhosewright: fine"];
    let refused = bench.run(&asked);
    assert!(!refused.is_refused().contains(odd), "{:?}", refused.err);
    let call = bench.run(&["check", "my.bay.json", "--rou\u{1b}[31m\n"]);
    assert!(!call.is_refused().contains(odd), "{:?}", call.err);
    let gone = bench.run(&["check", "no\u{1b}[31m\u{202e}\nhosewright: fine.bay.json"]);
    assert!(!gone.is_refused().contains(odd), "{:?}", gone.err);
    assert_eq!(gone.err.lines().count(), 1, "{:?}", gone.err);
}

#[test]
fn a_routing_goes_by_its_letter_and_an_id_spelled_exactly_wins() {
    let bench = Bench::with_test_bay();
    let of = |asked: &str| bench.run(&["check", "my.bay.json", "--routing", asked, "--json"]).out;
    for (id, letters) in [("over", ["A", "a"]), ("under", ["B", "b"])] {
        assert!(of(id).contains(&format!("\"routing\": \"{id}\"")), "{}", of(id));
        assert!(letters.iter().all(|letter| of(letter) == of(id)), "{id}");
    }
    let gone = bench.run(&["check", "my.bay.json", "--routing", "C"]);
    assert!(gone.is_refused().contains("  B  under  "), "{gone:?}");

    let bench = Bench::with_changed_bay(|bay| bay["routings"][0]["id"] = "B".into());
    let first = bench.run(&["check", "my.bay.json", "--json"]).out;
    assert_eq!(bench.run(&["check", "my.bay.json", "--routing", "B", "--json"]).out, first);
    let second = bench.run(&["check", "my.bay.json", "--routing", "b", "--json"]).out;
    assert!(second.contains("\"routing\": \"under\""), "{second}");
}
