//! Faults, warnings and notes: one rule a file, each from a bay and its solution to [`Finding`]s.
//!
//! A finding is derived, never stored. Its message is for the builder, in the bay's units; its
//! value and limit are in the contract's units.

mod context;
mod figures;
mod finding;
#[cfg(test)]
mod fixture;
mod limit;
mod memo;
mod rule;
mod rules;
mod words;

pub use finding::{Finding, Severity, Unit};
pub use limit::severity_past_limit;
use memo::FindingsMemo;
pub use rule::RuleInfo;
pub use rules::leak_test::{why_no_pass, why_no_pressure};

use std::sync::Arc;

use context::RunContext;
use rules::{
    as_made, attachment_pressure, bench_length, bend_radius, boils, both_at_limit, brake_line,
    clamp_straight, clearance, coincident_corner, construction_mismatch, corner_on_line,
    dash_mismatch, drain_falls, dry_fit, either_way, end_not_measured, end_straight,
    fittings_clash, fluid, hose_clearance, installed_clearance, installed_departure,
    installed_not_found, installed_radius, leak_test, maker_mix, motion_clearance, motion_radius,
    motion_reach, near_own_port, no_bend, not_checked, open_mesh, outside_not_known,
    outside_typical, positions_chosen, pressure, refrigerant, same_seat, service_not_given,
    slack_range, spanner_room, static_charge, support_span, taut, temperature, unknown_key,
    unresolved,
};

use crate::engine::clearance::TubeClearance;
use crate::engine::lay::RunLay;
use crate::engine::lengths::BenchStop;
use crate::engine::motion::{Positions, RunMotion};
use crate::engine::{RoutingSolution, RunSolution, hose_of};
use crate::model::{Bay, Routing, Run};

/// Every rule, in the order to list them: geometry, parts, service, the file.
pub const RULES: &[RuleInfo] = &[
    bend_radius::RULE,
    end_straight::RULE,
    clamp_straight::RULE,
    taut::RULE,
    slack_range::RULE,
    support_span::RULE,
    drain_falls::RULE,
    no_bend::RULE,
    same_seat::RULE,
    coincident_corner::RULE,
    corner_on_line::RULE,
    clearance::RULE,
    near_own_port::RULE,
    hose_clearance::RULE,
    fittings_clash::RULE,
    spanner_room::RULE,
    installed_radius::RULE,
    installed_departure::RULE,
    bench_length::RULE,
    installed_clearance::RULE,
    either_way::RULE,
    installed_not_found::RULE,
    motion_radius::RULE,
    motion_reach::RULE,
    motion_clearance::RULE,
    positions_chosen::RULE,
    open_mesh::RULE,
    dash_mismatch::RULE,
    construction_mismatch::RULE,
    maker_mix::RULE,
    end_not_measured::RULE,
    outside_not_known::RULE,
    outside_typical::RULE,
    service_not_given::RULE,
    pressure::RULE,
    attachment_pressure::RULE,
    temperature::RULE,
    boils::RULE,
    both_at_limit::RULE,
    not_checked::RULE,
    static_charge::RULE,
    fluid::RULE,
    brake_line::RULE,
    refrigerant::RULE,
    dry_fit::RULE,
    as_made::RULE,
    leak_test::RULE,
    unresolved::RULE,
    unknown_key::RULE,
];

type RunRule = fn(&RunContext<'_>) -> Vec<Finding>;

/// The rules of one run, in the order of [`RULES`].
const RUN_RULES: &[RunRule] = &[
    bend_radius::check,
    end_straight::check,
    clamp_straight::check,
    taut::check,
    slack_range::check,
    support_span::check,
    drain_falls::check,
    no_bend::check,
    same_seat::check,
    coincident_corner::check,
    corner_on_line::check,
    clearance::check,
    near_own_port::check,
    installed_radius::check,
    installed_departure::check,
    bench_length::check,
    installed_clearance::check,
    either_way::check,
    installed_not_found::check,
    motion_radius::check,
    motion_reach::check,
    motion_clearance::check,
    dash_mismatch::check,
    construction_mismatch::check,
    maker_mix::check,
    end_not_measured::check,
    outside_not_known::check,
    outside_typical::check,
    service_not_given::check,
    pressure::check,
    attachment_pressure::check,
    temperature::check,
    boils::check,
    both_at_limit::check,
    not_checked::check,
    static_charge::check,
    fluid::check,
    brake_line::check,
    refrigerant::check,
    dry_fit::check,
    as_made::check,
    leak_test::check,
];

/// The rule of this id.
pub fn rule(id: &str) -> Option<&'static RuleInfo> {
    RULES.iter().find(|rule| rule.id == id)
}

/// All findings in one routing of a bay, worst first; among equals in the order of the runs, then
/// along the hose, then in the order of [`RULES`]. Findings on a run as a whole come before those
/// with a place; those on the bay after those on its runs.
///
/// `solution` is that of `routing`, run by run. The same input gives the same findings in the same
/// order.
pub fn check(bay: &Bay, routing: &Routing, solution: &RoutingSolution) -> Vec<Finding> {
    let found = Checker::default().check(bay, routing, solution);
    found.into_iter().map(Arc::unwrap_or_clone).collect()
}

/// Checks one routing again and again; only what has changed is checked again.
#[derive(Debug, Clone, Default)]
pub struct Checker {
    memo: FindingsMemo,
}

impl Checker {
    /// As [`check`]; the answer does not depend on earlier calls. A finding that was not checked again shares
    /// its memory with the earlier one.
    pub fn check(
        &mut self,
        bay: &Bay,
        routing: &Routing,
        solution: &RoutingSolution,
    ) -> Vec<Arc<Finding>> {
        let mut found = self.memo.of_runs(bay, routing, solution);
        let between = between_runs(bay, routing, solution);
        found.extend(between.into_iter().map(|(place, finding)| (place, Arc::new(finding))));
        // Stable: among equals the order of the rules stays.
        found.sort_by(|(place_a, a), (place_b, b)| {
            let along = |finding: &Finding| finding.at_mm.unwrap_or(f64::NEG_INFINITY);
            (a.severity, *place_a).cmp(&(b.severity, *place_b)).then(along(a).total_cmp(&along(b)))
        });
        found.into_iter().map(|(_, finding)| finding).collect()
    }
}

/// Findings between runs, each with the place of its run, and on the bay as a whole.
fn between_runs(bay: &Bay, routing: &Routing, solution: &RoutingSolution) -> Vec<(usize, Finding)> {
    let gap_mm = solution.clearance.hose_clearance_mm;
    let mut found = hose_clearance::check(bay, routing, &solution.clearance);
    found.extend(fittings_clash::check(bay, routing, solution));
    found.extend(spanner_room::check(bay, routing, solution));
    let mut of_bay = Vec::new();
    if let Some(lay) = &solution.lay {
        found.extend(installed_clearance::check_hoses(bay, routing, lay, gap_mm));
        if let Some(motion) = &lay.motion {
            found.extend(motion_clearance::check_hoses(bay, routing, motion, gap_mm));
            of_bay.extend(positions_chosen::check(&motion.positions));
        }
    }
    of_bay.extend(open_mesh::check(bay, &solution.clearance));
    of_bay.extend(unknown_key::check(bay));
    found.extend(of_bay.into_iter().map(|finding| (usize::MAX, finding)));
    found
}

/// The engine's answers on one run.
struct Answers<'a> {
    solved: &'a RunSolution,
    clearance: &'a TubeClearance,
    lay: Option<&'a RunLay>,
    motion: Option<(&'a RunMotion, &'a Positions)>,
    bench_stop: Option<BenchStop>,
}

/// All findings on one solved run, in the order of the rules.
fn check_run(bay: &Bay, run: &Run, answers: &Answers<'_>) -> Vec<Finding> {
    let Answers { solved, clearance, lay, motion, bench_stop } = *answers;
    match hose_of(bay, run) {
        Ok((hose, _)) => {
            let context = RunContext { bay, run, solved, clearance, lay, motion, bench_stop, hose };
            RUN_RULES.iter().flat_map(|rule| rule(&context)).collect()
        }
        // The solution is that of another bay: say what is missing in this one.
        Err(missing) => vec![unresolved::check(bay, run, &missing)],
    }
}

#[cfg(test)]
mod tests {
    use super::fixture::{Fixture, run};
    use super::*;
    use crate::engine::solve_routing;
    use crate::model::Fluid;
    use std::collections::BTreeSet;

    fn findings(bay: &Bay) -> Vec<Finding> {
        let routing = &bay.routings[0];
        check(bay, routing, &solve_routing(bay, routing))
    }

    /// The Z with much wrong on it, and a second run that is worse.
    fn faulty() -> Bay {
        let mut bay = Fixture::z().bay;
        let first = run(&mut bay);
        first.from.straight_mm = Some(110.0);
        first.to.angle_deg = 90.0;
        first.slack_pct = Some(3.0);
        first.dry_fit_mm = Some(2000.0);
        first.service.fluid = Some(Fluid::Petrol);
        first.service.pressure_bar = Some(500.0);
        first.extra.push(("colour".to_owned(), serde_json::Value::Null));
        let mut second = first.clone();
        second.id = "s".to_owned();
        second.radius_mm = Some(50.0);
        second.extra.clear();
        let mut third = second.clone();
        third.id = "t".to_owned();
        third.hose = "gone".to_owned();
        bay.routings[0].runs.extend([second, third]);
        bay.stock.hoses[0].conductive_liner = None;
        bay
    }

    #[test]
    fn nothing_is_wrong_with_the_z_but_that_its_service_is_not_given() {
        let found = findings(&Fixture::z().bay);
        assert_eq!(found.iter().map(|f| f.rule).collect::<Vec<_>>(), ["service-not-given"]);
    }

    #[test]
    fn ids_are_unique_and_each_run_rule_is_listed() {
        let ids: BTreeSet<_> = RULES.iter().map(|rule| rule.id).collect();
        assert_eq!(ids.len(), RULES.len());
        // All but `unresolved`, `unknown-key`, `open-mesh`, `hose-clearance`, `fittings-clash`, `spanner-room` and
        // `positions-chosen` look at one solved run.
        assert_eq!(RUN_RULES.len() + 7, RULES.len());
        assert!(RULES.iter().all(|rule| !rule.what.is_empty() && !rule.title.is_empty()));
    }

    #[test]
    fn every_finding_is_of_a_listed_rule_and_complete() {
        let found = findings(&faulty());
        assert!(found.len() > 10, "{found:#?}");
        for finding in &found {
            let rule = rule(finding.rule).unwrap();
            assert!(finding.severity >= rule.severity, "{finding:?}");
            assert!(!finding.message.is_empty() && !finding.hint.is_empty(), "{finding:?}");
            assert!(!finding.source.is_empty(), "{finding:?}");
            assert!(!finding.message.ends_with('.') && !finding.hint.ends_with('.'));
            assert!(!finding.message.contains("NaN") && !finding.message.contains("inf "));
        }
    }

    #[test]
    fn worst_first_then_by_run_then_along_the_hose() {
        let bay = faulty();
        let found = findings(&bay);
        let runs = &bay.routings[0].runs;
        let place = |finding: &Finding| {
            let of_run = |id: &String| runs.iter().position(|run| run.id == *id).unwrap();
            finding.run.as_ref().map_or(usize::MAX, of_run)
        };
        for pair in found.windows(2) {
            let (a, b) = (&pair[0], &pair[1]);
            let first = (a.severity, place(a)).cmp(&(b.severity, place(b)));
            assert!(first.is_le(), "{a:?} {b:?}");
            if first.is_eq() {
                assert!(a.at_mm.unwrap_or(-1.0) <= b.at_mm.unwrap_or(-1.0), "{a:?} {b:?}");
            }
        }
        assert_eq!(found, findings(&bay));
    }

    #[test]
    fn a_solution_of_another_bay_does_not_break_anything() {
        let good = Fixture::z();
        let mut other = good.bay.clone();
        other.stock.hoses.clear();
        let answers = Answers {
            solved: &good.solved,
            clearance: &good.clearance,
            lay: None,
            motion: None,
            bench_stop: None,
        };
        let found = check_run(&other, &other.routings[0].runs[0], &answers);
        assert_eq!(found[0].rule, "unresolved");
    }
}
