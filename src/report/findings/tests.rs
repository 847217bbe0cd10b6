#![allow(clippy::unwrap_used, reason = "a test may stop where it stands")]

use std::path::Path;

use super::*;
use crate::checks::Unit;
use crate::document::file;
use crate::engine::solve_whole;
use crate::model::Bay;

fn finding(rule: &'static str, severity: Severity, run: &str, at_mm: f64) -> Finding {
    Finding {
        rule,
        severity,
        run: Some(run.to_owned()),
        other: None,
        at_mm: Some(at_mm),
        point: None,
        value: None,
        limit: None,
        unit: Unit::Mm,
        message: rule.to_owned(),
        hint: String::new(),
        source: String::new(),
    }
}

/// A bay with a hose of several free lengths, and the middles of its first two.
fn bay() -> (Bay, RoutingSolution, usize, [f64; 2]) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo_projects");
    let bay = file::load(&folder.join("faults-on-purpose.bay.json")).unwrap();
    let solution = solve_whole(&bay, &bay.routings[0]);
    let place = (0..bay.routings[0].runs.len())
        .find(|place| solution.run(*place).is_some_and(|run| run.spans.len() > 1))
        .unwrap();
    let spans = &solution.run(place).unwrap().spans;
    let middle = |i: usize| f64::midpoint(spans[i].from_mm, spans[i].to_mm);
    let at = [middle(0), middle(1)];
    (bay, solution, place, at)
}

#[test]
fn what_comes_of_a_fault_on_one_stretch_stands_under_it() {
    use Severity::{Fail, Warn};
    let (bay, solution, place, [here, there]) = bay();
    let id = bay.routings[0].runs[place].id.clone();
    let mut fouled = finding("installed-clearance", Fail, &id, here);
    fouled.other = Some("rail".to_owned());
    let all = vec![
        finding("installed-radius", Fail, &id, here),
        finding("bend-radius", Fail, &id, here),
        fouled,
        finding("end-straight", Warn, &id, here),
        finding("installed-radius", Fail, &id, there),
        finding("static", Warn, &id, here),
    ];
    let told = Findings::of(&all, &bay.routings[0], &solution);
    let causes: Vec<(usize, Vec<usize>)> =
        told.on(place).iter().map(|cause| (cause.finding, cause.follows.clone())).collect();
    assert_eq!(causes, [(1, vec![0, 2, 3]), (4, vec![]), (5, vec![])]);
    assert_eq!(told.verdict, Verdict { faults: 2, warnings: 1, notes: 0 });
}

#[test]
fn a_gap_as_drawn_leads_to_the_same_gap_only() {
    use Severity::Fail;
    let (bay, solution, place, [here, _]) = bay();
    let id = bay.routings[0].runs[place].id.clone();
    let near = |rule, thing: &str| Finding {
        other: Some(thing.to_owned()),
        ..finding(rule, Fail, &id, here)
    };
    let all = vec![
        near("clearance", "rail"),
        near("motion-clearance", "rail"),
        near("installed-clearance", "pump"),
        finding("bend-radius", Fail, &id, here),
    ];
    let told = Findings::of(&all, &bay.routings[0], &solution);
    let leads: Vec<usize> = told.on(place).iter().map(|cause| cause.finding).collect();
    assert_eq!(leads, [3, 0], "the gap as drawn is a fault of its own");
    let follows: Vec<&[usize]> = told.on(place).iter().map(|c| c.follows.as_slice()).collect();
    assert_eq!(follows, [[2], [1]]);
}

#[test]
fn notes_of_one_kind_are_one_and_every_finding_is_told_once() {
    let (bay, solution, place, [here, there]) = bay();
    let runs = &bay.routings[0].runs;
    let other = usize::from(place == 0);
    let mut of_bay = finding("unknown-key", Severity::Note, "", 0.0);
    of_bay.run = None;
    let all = vec![
        finding("end-not-measured", Severity::Note, &runs[place].id, here),
        finding("end-not-measured", Severity::Note, &runs[other].id, 0.0),
        finding("taut", Severity::Note, &runs[place].id, there),
        finding("taut", Severity::Fail, &runs[place].id, there),
        of_bay,
    ];
    let told = Findings::of(&all, &bay.routings[0], &solution);
    let rules: Vec<(&str, usize)> =
        told.notes.iter().map(|notes| (notes.rule, notes.findings.len())).collect();
    assert_eq!(rules, [("end-not-measured", 2), ("unknown-key", 1)]);
    assert_eq!(told.on(place), [Cause { finding: 3, follows: vec![2] }]);
    let verdict = told.verdict_on(place, &all, &runs[place].id);
    assert_eq!(verdict, Verdict { faults: 1, warnings: 0, notes: 1 });
    let causes = told.hoses.iter().flat_map(|hose| &hose.causes).chain(&told.bay);
    let mut once: Vec<usize> = causes
        .flat_map(|cause| cause.follows.iter().copied().chain([cause.finding]))
        .chain(told.notes.iter().flat_map(|notes| notes.findings.iter().copied()))
        .collect();
    once.sort_unstable();
    assert_eq!(once, [0, 1, 2, 3, 4]);
}
