//! `clamp-straight`: no bend reaches into a clamp.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::{Bend, BendPlace, ClampMark};
use crate::model::{Mark, Source};
use crate::units::EPS_MM;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "clamp-straight",
    severity: Severity::Warn,
    title: "Bend inside a clamp",
    what: "The straight hose between a clamp's middle and the bend beside it, as drawn, against \
           half the clamp's grip.",
    source: Source::fixed(Mark::Published, "Army TM 1-1500-204-23-2: a clamp is not set on a bend"),
};

/// One finding for each bend that reaches into its clamp.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    run.solved.bends().iter().filter_map(|bend| judge(run, bend)).collect()
}

fn judge(run: &RunContext<'_>, bend: &Bend) -> Option<Finding> {
    let (clamp, straight_mm) = beside(run, bend)?;
    if straight_mm >= clamp.half_grip_mm - EPS_MM {
        return None;
    }
    let figures = run.figures();
    let (straight, grip) = figures.lengths(straight_mm.max(0.0), clamp.half_grip_mm);
    Some(Finding {
        value: Some(straight_mm),
        limit: Some(clamp.half_grip_mm),
        unit: Unit::Mm,
        at_mm: Some(bend.at_mm),
        point: Some(bend.point),
        message: format!(
            "{}: straight from the clamp's middle {straight}, minimum {grip} (half its grip)",
            run.bend_name(bend.place),
        ),
        hint: format!(
            "Set a straight of more than {grip} at this clamp, with room for the bend beyond it"
        ),
        ..run.finding(&RULE)
    })
}

/// The clamp beside a bend, and the straight between the two.
fn beside<'a>(run: &RunContext<'a>, bend: &Bend) -> Option<(&'a ClampMark, f64)> {
    let (BendPlace::BeforeClamp(via) | BendPlace::AfterClamp(via)) = bend.place else {
        return None;
    };
    let clamp = run.solved.clamps.iter().find(|clamp| clamp.via == via as usize)?;
    let before = matches!(bend.place, BendPlace::BeforeClamp(_));
    let straight_mm = if before { clamp.straight_before_mm } else { clamp.straight_after_mm };
    Some((clamp, straight_mm?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::{Clamp, Via};
    use glam::DVec3;

    fn clamped(straight_mm: f64) -> Fixture {
        Fixture::straight(900.0, |bay| {
            run(bay).via = vec![Via::Clamp(Clamp {
                at: DVec3::new(450.0, 60.0, 0.0),
                along: DVec3::X,
                grip_mm: Some(20.0),
                straight_mm: Some(straight_mm),
                extra: Vec::new(),
            })];
        })
    }

    #[test]
    fn a_straight_shorter_than_half_the_clamp_is_found_on_both_sides() {
        let fixture = clamped(6.0);
        let found = check(&fixture.context());
        assert_eq!(found.len(), 2);
        assert_eq!((found[0].value, found[0].limit), (Some(6.0), Some(10.0)));
        assert!(found[0].message.contains("The bend before clamp 1"), "{}", found[0].message);
        assert!(found[1].message.contains("The bend after clamp 1"), "{}", found[1].message);
    }

    #[test]
    fn half_the_clamp_exactly_is_enough() {
        assert_eq!(check(&clamped(10.0).context()), []);
        assert_eq!(check(&clamped(60.0).context()), []);
    }
}
