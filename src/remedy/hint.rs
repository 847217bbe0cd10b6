//! What was tried, told in the hints of the findings.

use super::{Sought, seek};
use crate::checks::{Finding, Severity};
use crate::engine::RoutingSolution;
use crate::model::{Bay, Routing};
use crate::units::Length;

/// Rules about where a hose is routed, how long it is, and how its ends are turned.
const OF_ROUTE: [&str; 18] = [
    "bend-radius",
    "end-straight",
    "clamp-straight",
    "taut",
    "slack-range",
    "support-span",
    "clearance",
    "near-own-port",
    "hose-clearance",
    "fittings-clash",
    "spanner-room",
    "installed-radius",
    "installed-clearance",
    "installed-not-found",
    "motion-radius",
    "motion-reach",
    "motion-clearance",
    "drain-falls",
];

/// Faults and warnings that a route or a length can clear. What a hose carries and what it is made of no
/// change of its route does.
pub fn is_sought(finding: &Finding) -> bool {
    finding.severity < Severity::Note && OF_ROUTE.contains(&finding.rule)
}

/// The findings with hints that were tried: what clears a fault, or that nothing tried does. Findings that no
/// route can clear keep the hint of their rule.
pub fn tell(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    findings: Vec<Finding>,
) -> (Vec<Finding>, Vec<Sought>) {
    let sought = seek(bay, routing, solution, &findings);
    let told = findings.into_iter().map(|finding| {
        let hint = sought.iter().find_map(|one| hint(bay, routing, solution, one, &finding));
        Finding { hint: hint.unwrap_or_else(|| finding.hint.clone()), ..finding }
    });
    (told.collect(), sought)
}

/// The hint for a finding from what was tried on its hose; none where it is another hose's, or one that no
/// route can clear.
pub fn hint(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    sought: &Sought,
    finding: &Finding,
) -> Option<String> {
    let is_of_run = finding.run.as_deref() == Some(sought.run.as_str());
    if !is_of_run || !is_sought(finding) {
        return None;
    }
    let place = routing.runs.iter().position(|run| run.id == sought.run);
    let words = sought.remedy.as_ref().and_then(|remedy| {
        let (run, solved) = (routing.runs.get(place?)?, solution.run(place?)?);
        let words = first_upper(&remedy.change.words(run, solved, bay.show_units));
        let cut = Length::from_mm(remedy.cut_mm).bench(bay.show_units);
        Some((words, cut, remedy.clears.contains(finding.rule)))
    });
    Some(match words {
        Some((words, cut, true)) => format!("{words}: tried, it clears this (cut {cut})"),
        Some((words, cut, false)) => format!(
            "{words} first (cut {cut}): tried, it leaves fewer faults on this hose, but not this one. {}",
            finding.hint
        ),
        None if finding.severity == Severity::Fail => format!(
            "None of the {} changes tried clears this (other lengths, slack elsewhere, corners and clamps moved, added or removed, ends turned): route it another way",
            sought.tried
        ),
        None => format!(
            "{}. None of the {} changes tried clears it without another fault or warning",
            finding.hint, sought.tried
        ),
    })
}

fn first_upper(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
