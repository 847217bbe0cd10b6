//! `corner-on-line`: a corner at which nothing bends.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::BendPlace;
use crate::model::{Mark, Source, Via};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "corner-on-line",
    severity: Severity::Note,
    title: "Corner without a bend",
    what: "Corners on the straight line between their neighbours: the hose has no bend there.",
    source: Source::fixed(Mark::Calculated, "geometry of the drawn route"),
};

/// One finding for each corner that does not turn.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let solved = run.solved;
    let bends = solved.bends();
    let turns = |via: u32| bends.iter().any(|bend| bend.place == BendPlace::Corner(via));
    run.run
        .via
        .iter()
        .zip(0_u32..)
        .filter(|(step, via)| {
            matches!(step, Via::Corner(_)) && !turns(*via) && !solved.coincident.contains(via)
        })
        .map(|(step, via)| Finding {
            point: Some(step.at()),
            message: format!(
                "{} is on the line between its neighbours: no bend there",
                run.bend_name(BendPlace::Corner(via)),
            ),
            hint: "Delete it, or move it to where the hose is to bend".to_owned(),
            ..run.finding(&RULE)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::Corner;
    use glam::DVec3;

    #[test]
    fn a_corner_on_the_line_is_named_and_one_off_it_is_not() {
        for (x, count) in [(221.0, 1), (221.1, 0)] {
            let fixture = Fixture::edited(|bay| {
                let at = DVec3::new(x, 150.0, 0.0);
                run(bay).via = vec![Via::Corner(Corner { at, radius_mm: None, extra: Vec::new() })];
            });
            assert_eq!(check(&fixture.context()).len(), count, "{x}");
        }
    }
}
