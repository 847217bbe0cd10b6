//! The demo bays show what `docs/demo-bays.md` promises: each fault on purpose is found by the rule
//! named beside it, as bad as it says, and nothing else fails or warns.
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

/// What fails or warns, with the worst severity.
fn found(file: &str) -> BTreeMap<Fault, Severity> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let bay = load(&root.join("demo_projects").join(file)).unwrap();
    let mut faults = BTreeMap::new();
    for routing in &bay.routings {
        // Worst first.
        for finding in check(&bay, routing, &solve_whole(&bay, routing)) {
            if finding.severity != Severity::Note {
                let run = finding.run.unwrap_or_default();
                let fault = (routing.id.clone(), run, finding.rule.to_owned());
                faults.entry(fault).or_insert(finding.severity);
            }
        }
    }
    faults
}

#[test]
fn the_demo_bays_show_what_their_guide_promises() {
    let guide = include_str!("../docs/demo-bays.md");
    for (file, least) in [("trials-car.bay.json", 9), ("diesel-launch.bay.json", 7)] {
        let promised = promised(guide, file);
        assert!(promised.len() >= least, "{file}: {promised:?}");
        let found = found(file);
        assert_eq!(found.keys().cloned().collect::<BTreeSet<Fault>>(), promised, "{file}");
        let other: Vec<_> = found
            .iter()
            .filter(|(fault, severity)| !is_promised_as(guide, file, fault, **severity))
            .collect();
        assert!(other.is_empty(), "{file}, not as bad as promised: {other:#?}");
    }
}
