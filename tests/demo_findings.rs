//! The demo bays show what `docs/demo-bays.md` promises: two have nothing that fails or warns, and in
//! the third each fault on purpose is found by the rule named beside it, as bad as it says, and nothing
//! else.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a helper that fails fails its test")]

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use hosewright::checks::{Severity, check};
use hosewright::document::file::load;
use hosewright::engine::solve_whole;

/// Routing, run, rule.
type Fault = (String, String, String);

/// What stands between the backquotes of a table's cell.
fn quoted(cell: &str) -> Vec<String> {
    cell.split('`').skip(1).step_by(2).map(str::to_owned).collect()
}

/// The same, of those that the guide says a severity of.
fn is_promised_as(guide: &str, file: &str, fault: &Fault, severity: Severity) -> bool {
    let (routing, run, rule) = fault;
    let mut here = String::new();
    let section = guide.split("\n## ").find(|section| section.starts_with(&format!("`{file}`")));
    let rows = section.expect("a section").lines().filter(|line| line.starts_with("| "));
    let said: Vec<&str> = rows
        .filter(|row| {
            let cells: Vec<&str> = row.trim_matches('|').split('|').collect();
            if let Some(id) = cells.first().and_then(|cell| quoted(cell).into_iter().next()) {
                here = id;
            }
            here == *routing && cells.get(2).is_some_and(|cell| quoted(cell).contains(run))
        })
        .filter_map(|row| row.split(&format!("`{rule}` (")).nth(1)?.split(')').next())
        .collect();
    said.is_empty() || said.contains(&severity.noun())
}

/// The rows of the table below the heading that names `file`. An empty first or third cell is that
/// of the row above.
fn promised(guide: &str, file: &str) -> BTreeSet<Fault> {
    let section = guide
        .split("\n## ")
        .find(|section| section.starts_with(&format!("`{file}`")))
        .expect("the guide has a section for each bay");
    let (mut routing, mut faults) = (String::new(), BTreeSet::new());
    for row in section.lines().filter(|line| line.starts_with("| ")) {
        let cells: Vec<&str> = row.trim_matches('|').split('|').collect();
        let [first, _, run, _, rules] = cells[..] else { continue };
        if let Some(id) = quoted(first).into_iter().next() {
            routing = id;
        }
        for run in quoted(run) {
            faults
                .extend(quoted(rules).into_iter().map(|rule| (routing.clone(), run.clone(), rule)));
        }
    }
    faults
}

/// What fails or warns in any routing, with the worst severity.
fn found(file: &str) -> BTreeMap<Fault, Severity> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let bay = load(&root.join("demo_projects").join(file)).unwrap();
    assert_eq!(bay.routings.len(), 2, "{file}: two routings to choose from");
    let mut faults = BTreeMap::new();
    for routing in &bay.routings {
        let solution = solve_whole(&bay, routing);
        for place in 0..routing.runs.len() {
            assert!(solution.run(place).is_some(), "{file}: a hose without a length");
        }
        // Worst first.
        for finding in check(&bay, routing, &solution) {
            if finding.severity != Severity::Note {
                let run = finding.run.unwrap_or_default();
                let fault = (routing.id.clone(), run, finding.rule.to_owned());
                faults.entry(fault).or_insert(finding.severity);
            }
        }
    }
    faults
}

const GUIDE: &str = include_str!("../docs/demo-bays.md");
const CLEAN: [&str; 2] = ["trials-car.bay.json", "diesel-launch.bay.json"];
const FAULTY: &str = "faults-on-purpose.bay.json";

#[test]
fn the_first_two_demo_bays_have_no_fault_and_no_warning() {
    for file in CLEAN {
        assert_eq!(promised(GUIDE, file), BTreeSet::new(), "{file}: the guide lists no fault");
        assert_eq!(found(file), BTreeMap::new(), "{file}");
    }
}

#[test]
fn the_third_shows_every_fault_that_its_guide_lists_and_no_other() {
    let promised = promised(GUIDE, FAULTY);
    assert!(promised.len() >= 28, "{promised:?}");
    let found = found(FAULTY);
    assert_eq!(found.keys().cloned().collect::<BTreeSet<Fault>>(), promised);
    let other: Vec<_> = found
        .iter()
        .filter(|(fault, severity)| !is_promised_as(GUIDE, FAULTY, fault, **severity))
        .collect();
    assert!(other.is_empty(), "not as bad as promised: {other:#?}");
}

#[test]
fn every_demo_bay_is_one_of_these() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo_projects");
    let names: BTreeSet<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .filter(|name| name.ends_with(".bay.json"))
        .collect();
    let known = CLEAN.into_iter().chain([FAULTY]).map(str::to_owned);
    assert_eq!(names, known.collect::<BTreeSet<String>>());
}
