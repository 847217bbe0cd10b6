//! The hints of findings, with the changes that were tried.

use super::{Change, Remedy, RemedySearch, search_routing};
use std::sync::Arc;

use crate::checks::{Finding, Severity};
use crate::engine::{RoutingSolution, RunSolution};
use crate::model::{Bay, Routing, Run};
use crate::units::{Length, LengthUnit, first_upper};

/// Rules about where a hose is routed, how long it is, and how its ends are turned.
const OF_ROUTE: [&str; 20] = [
    "bend-radius",
    "bench-length",
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
    "installed-departure",
    "installed-not-found",
    "motion-radius",
    "motion-reach",
    "motion-clearance",
    "drain-falls",
];

/// Whether a change of route or length may clear the finding. What a hose carries and what it is made of no
/// change of its route does.
pub fn is_clearable(finding: &Finding) -> bool {
    finding.severity < Severity::Note && OF_ROUTE.contains(&finding.rule)
}

/// The findings with hints that were tried: a change that clears the fault, or that no change tried does.
/// Findings that no route can clear keep the hint of their rule.
pub fn with_tried_hints(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    findings: Vec<Arc<Finding>>,
) -> (Vec<Arc<Finding>>, Vec<RemedySearch>) {
    let searches = search_routing(bay, routing, solution, &findings);
    let hinted = findings.into_iter().map(|finding| {
        let hint = searches.iter().find_map(|one| hint(bay, routing, solution, one, &finding));
        match hint {
            Some(hint) => Arc::new(Finding { hint, ..Finding::clone(&finding) }),
            None => finding,
        }
    });
    (hinted.collect(), searches)
}

/// The hint for a finding from the changes tried on its hose; none where it is another hose's, or one that no
/// route can clear.
pub fn hint(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    search: &RemedySearch,
    finding: &Finding,
) -> Option<String> {
    let is_of_run = finding.run.as_deref() == Some(search.run.as_str());
    if !is_of_run || !is_clearable(finding) {
        return None;
    }
    let place = routing.runs.iter().position(|run| run.id == search.run);
    let step = search.remedy.as_ref().and_then(|remedy| {
        let (run, solved) = (routing.runs.get(place?)?, solution.run(place?)?);
        Some((remedy, step(remedy, run, solved, bay.show_units)))
    });
    let tried = search.tried;
    Some(match step {
        Some((remedy, step)) if remedy.clears.contains(finding.rule) => {
            format!("{}. Tried: this clears it", first_upper(&step))
        }
        Some((remedy, step)) => {
            let fewer = if remedy.has_fewer_faults { "faults" } else { "warnings" };
            format!("{}. As a first step {step}. Tried: fewer {fewer} remain", finding.hint)
        }
        None if finding.severity == Severity::Fail => format!(
            "No single change clears this ({tried} tried: lengths, slack, corners, clamps, ends): route it another \
             way"
        ),
        None => format!(
            "{}. No single change clears it without another fault or warning ({tried} tried)",
            finding.hint
        ),
    })
}

/// The change and the cut length with it: `set a clamp 1 in from cut end A; cut 10 in then`
fn step(remedy: &Remedy, run: &Run, solved: &RunSolution, unit: LengthUnit) -> String {
    let words = remedy.change.words(run, solved, unit);
    if matches!(remedy.change, Change::Cut { .. }) {
        return words;
    }
    format!("{words}; cut {} then", Length::from_mm(remedy.cut_mm).bench(unit))
}
