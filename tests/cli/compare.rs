//! `compare`: routings side by side, as text, JSON, CSV and a page.

use hosewright::units::{Length, LengthUnit};
use serde_json::{Value, json};

use crate::bench::{Bench, all_bays};
use crate::csv::records;

fn compared(bench: &Bench, more: &[&str]) -> Value {
    let args = [&["compare", "my.bay.json", "--json"][..], more].concat();
    // `from_str` refuses anything after the document.
    serde_json::from_str(bench.run(&args).is_quiet(0)).unwrap()
}

#[test]
fn every_bay_compares_all_its_routings() {
    let bench = Bench::new();
    for path in all_bays() {
        let bay = hosewright::document::file::load(&path).unwrap();
        let file = path.to_str().unwrap();
        let text = bench.run(&["compare", file]);
        let json: Value =
            serde_json::from_str(bench.run(&["compare", file, "--json"]).is_quiet(0)).unwrap();
        let text = text.is_quiet(0).to_owned();
        assert_eq!(json["routings"].as_array().unwrap().len(), bay.routings.len());
        let plain = |words: &str| words.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(plain(&text).contains(&plain(json["sentence"].as_str().unwrap())), "{text}");
        for routing in &bay.routings {
            assert!(text.contains(&routing.id), "{text}");
        }
        for run in bay.routings.iter().flat_map(|routing| &routing.runs) {
            assert!(json["runs"].as_array().unwrap().iter().any(|one| one["run"] == run.id));
        }
        assert!(text.lines().all(|line| line.chars().count() <= 110), "{text}");
    }
    assert!(bench.names().is_empty(), "comparing writes nothing of itself");
}

#[test]
fn the_order_of_the_routings_is_that_of_the_call() {
    let bench = Bench::with_test_bay();
    let there = compared(&bench, &["--routings", "over,under"]);
    let back = compared(&bench, &["--routings", "under,over"]);
    assert_eq!(there["routings"][0]["id"], "over");
    assert_eq!(back["routings"][0]["id"], "under");
    assert_eq!(there["routings"][0]["letter"], "A");
    assert_eq!(back["routings"][0]["letter"], "B", "the letter is that of the bay");
    assert_eq!(there["report"], "hosewright-compare");
    assert_eq!(there["version"], 1);
}

#[test]
fn the_figures_agree_with_check() {
    let bench = Bench::with_test_bay();
    let compared = compared(&bench, &[]);
    for (place, routing) in ["over", "under"].into_iter().enumerate() {
        let ended = bench.run(&["check", "my.bay.json", "--json", "--routing", routing]);
        let check: Value = serde_json::from_str(&ended.out).unwrap();
        let figure = |id: &str| {
            let rows = compared["figures"].as_array().unwrap();
            rows.iter().find(|row| row["figure"] == id).unwrap()["values"][place].clone()
        };
        let findings = check["findings"].as_array().unwrap();
        let fails = findings.iter().filter(|finding| finding["severity"] == "fail").count();
        // What comes of a fault counts with its cause.
        let told = figure("fails")["value"].as_f64().unwrap() as usize;
        assert!(told <= fails && (told > 0) == (fails > 0), "{routing}: {told} of {fails}");
        let runs = check["runs"].as_array().unwrap();
        // Together what is cut, rounded up each.
        let hose: f64 = runs
            .iter()
            .map(|run| Length::from_mm(run["cut_length_mm"].as_f64().unwrap()))
            .map(|cut| cut.up_to_bench_mm(LengthUnit::Inch))
            .sum();
        assert!((figure("hose")["value"].as_f64().unwrap() - hose).abs() < 1e-6, "{routing}");
        // The worst of all runs, by what is left of the minimum clearance.
        let spare =
            |near: &Value| Some(near["gap_mm"].as_f64()? - near["min_clearance_mm"].as_f64()?);
        let worst = runs.iter().filter_map(|run| spare(&run["clearance"]));
        let worst = worst.fold(f64::INFINITY, f64::min);
        let gap = figure("gap_drawn");
        let told = gap["value"].as_f64().unwrap() - gap["limit"].as_f64().unwrap();
        assert!((told - worst).abs() < 1e-6, "{routing}: {told} {worst}");
    }
}

#[test]
fn a_page_and_a_table_are_written_besides() {
    let bench = Bench::with_test_bay();
    for name in ["both.html", "both.csv", "both.json"] {
        let args = ["compare", "my.bay.json", "--out", name, "--date", "2026-01-31"];
        bench.run(&args).is_quiet(0);
        let first = bench.bytes(name);
        bench.run(&args).is_quiet(0);
        assert!(first == bench.bytes(name), "the same bay gives the same bytes");
    }
    let html = String::from_utf8(bench.bytes("both.html")).unwrap();
    assert!(html.contains("2026-01-31") && html.contains("Routings side by side"));
    assert!(!html.contains("<script") && !html.contains("http://") && !html.contains("https://"));
    assert!(html.contains("Test bay &lt;left&gt;"), "words stay words");
    let csv = String::from_utf8(bench.bytes("both.csv")).unwrap();
    let rows = records(&csv);
    assert!(rows.len() > 20 && rows.iter().all(|row| row.len() == rows[0].len()));
}

#[test]
fn pages_for_paper_are_written_besides() {
    let bench = Bench::with_test_bay();
    let args = ["compare", "my.bay.json", "--out", "both.pdf", "--date", "2026-01-31"];
    let text = bench.run(&args).is_quiet(0).to_owned();
    assert!(text.contains("over") && text.contains("under"), "the text is printed all the same");
    let first = bench.bytes("both.pdf");
    assert!(first.starts_with(b"%PDF-"));
    bench.run(&args).is_quiet(0);
    assert!(first == bench.bytes("both.pdf"), "the same bay and day give the same bytes");
    bench.run(&[&args[..], &["--paper", "a4"]].concat()).is_quiet(0);
    assert!(first != bench.bytes("both.pdf"), "a bay in inches is on letter where not given");
}

#[test]
fn routings_go_by_their_letters_too() {
    let bench = Bench::with_test_bay();
    let by_id = compared(&bench, &["--routings", "under,over"]);
    assert_eq!(by_id, compared(&bench, &["--routings", "B,A"]));
    assert_eq!(by_id, compared(&bench, &["--routings", "b,over"]));
    let twice = bench.run(&["compare", "my.bay.json", "--routings", "A,over"]);
    assert!(twice.is_refused().contains("twice"), "{twice:?}");
}

#[test]
fn wrong_calls_are_refused_with_what_there_is() {
    let bench = Bench::with_test_bay();
    let refused = |args: &[&str]| {
        let args = [&["compare", "my.bay.json"][..], args].concat();
        bench.run(&args).is_refused().to_owned()
    };
    let gone = refused(&["--routings", "over,round"]);
    assert!(gone.contains("no routing \"round\"") && gone.contains("  under  "), "{gone}");
    assert!(refused(&["--routings", "over"]).contains("two routings or more"));
    assert!(refused(&["--routings", "over,over"]).contains("named twice"));
    assert!(refused(&["--out", "both.txt"]).contains(".pdf, .html, .csv or .json"));
    assert!(refused(&["--out", "both.txt"]).contains(".html"));
    assert!(refused(&["--out", "my.bay.json"]).contains("the bay itself"));
    assert_eq!(bench.names(), ["my.bay.json"]);
}

#[test]
fn a_bay_of_one_routing_says_what_to_do() {
    let bench = Bench::with_changed_bay(|bay| {
        let only = bay["routings"][0].clone();
        bay["routings"] = json!([only]);
    });
    let told = bench.run(&["compare", "my.bay.json"]).is_refused().to_owned();
    assert!(told.contains("one routing only") && told.contains("Duplicate routing"), "{told}");
}
