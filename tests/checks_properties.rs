//! What holds for the findings on every bay: finite, complete, of a listed rule, in order, the same
//! each time.

#[path = "common/bays.rs"]
mod bays;
mod common;

use bays::any_bay;
use glam::DVec3;
use hosewright::checks::{Checker, Finding, check, rule};
use hosewright::engine::solve_whole;
use hosewright::model::{Bay, Fluid};
use hosewright::units::LengthUnit;
use proptest::prelude::*;

fn is_sound(finding: &Finding) -> Result<(), TestCaseError> {
    let rule = rule(finding.rule);
    prop_assert!(rule.is_some_and(|rule| finding.severity >= rule.severity), "{finding:?}");
    for figure in [finding.at_mm, finding.value, finding.limit].into_iter().flatten() {
        prop_assert!(figure.is_finite(), "{finding:?}");
    }
    prop_assert!(finding.point.is_none_or(glam::DVec3::is_finite), "{finding:?}");
    for text in [&finding.message, &finding.hint, &finding.source] {
        prop_assert!(!text.is_empty(), "{finding:?}");
    }
    Ok(())
}

/// One change somewhere in a bay, of every kind that findings depend on.
fn change(bay: &mut Bay, what: u8, which: usize) {
    fn pick<T>(all: &mut [T], which: usize) -> Option<&mut T> {
        let count = all.len().max(1);
        all.get_mut(which % count)
    }
    let by = DVec3::new(3.0, -7.0, 5.0);
    if what < 5 {
        match what {
            0 => drop(pick(&mut bay.ports, which).map(|port| port.at += by)),
            1 => drop(pick(&mut bay.ports, which).map(|port| port.dash = Some(12))),
            2 => drop(
                pick(&mut bay.obstacles, which)
                    .map(|obstacle| obstacle.min_clearance_mm = Some(300.0)),
            ),
            3 => drop(pick(&mut bay.obstacles, which).map(|obstacle| obstacle.name.push('!'))),
            _ => bay.show_units = LengthUnit::Inch,
        }
        return;
    }
    let Some(runs) = bay.routings.first_mut().map(|routing| &mut routing.runs) else { return };
    let count = runs.len();
    match what {
        5 if count > 1 => runs.swap(0, which % count),
        6 if count > 1 => drop(runs.remove(which % count)),
        7 => drop(pick(runs, which).map(|run| run.slack_pct = Some(2.0))),
        8 => drop(pick(runs, which).map(|run| run.service.fluid = Some(Fluid::Petrol))),
        9 => drop(pick(runs, which).map(|run| run.service.pressure_bar = Some(900.0))),
        10 => drop(pick(runs, which).map(|run| run.dry_fit_mm = Some(77.0))),
        11 => drop(pick(runs, which).map(|run| run.from.straight_mm = Some(120.0))),
        _ => drop(bay.stock.hoses.pop()),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    /// What is kept of the answer before never shows in the next.
    #[test]
    fn findings_after_changes_are_those_of_the_bay_by_itself(
        mut bay in any_bay(),
        changes in proptest::collection::vec((0_u8..13, 0_usize..8), 1..8),
    ) {
        let mut checker = Checker::default();
        for (what, which) in changes {
            let Some(routing) = bay.routings.first() else { break };
            let solution = solve_whole(&bay, routing);
            let found = checker.check(&bay, routing, &solution);
            let plain: Vec<_> = found.iter().map(|finding| Finding::clone(finding)).collect();
            prop_assert_eq!(plain, check(&bay, routing, &solution));
            // And once more with nothing changed.
            prop_assert_eq!(&found, &checker.check(&bay, routing, &solution));
            change(&mut bay, what, which);
        }
    }

    #[test]
    fn findings_are_sound_and_the_same_each_time(bay in any_bay()) {
        for routing in &bay.routings {
            let solution = solve_whole(&bay, routing);
            let found = check(&bay, routing, &solution);
            for finding in &found {
                is_sound(finding)?;
            }
            prop_assert!(found.is_sorted_by_key(|finding| finding.severity));
            prop_assert_eq!(&found, &check(&bay, routing, &solution));
        }
    }
}
