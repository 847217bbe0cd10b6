//! `coincident-corner`: a corner at the same place as the point beside it.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::BendPlace;
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "coincident-corner",
    severity: Severity::Note,
    title: "Two corners in one place",
    what: "Corners within 1e-6 mm of the point before or after them: the two count as one, with \
           the smaller of their radii.",
    source: Source::fixed(Mark::Calculated, "geometry of the drawn route"),
};

/// One finding for each corner left out.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    run.solved.coincident.iter().filter_map(|via| note(run, *via)).collect()
}

fn note(run: &RunContext<'_>, via: u32) -> Option<Finding> {
    let at = run.run.via.get(via as usize)?.at();
    Some(Finding {
        point: Some(at),
        message: format!(
            "{} is at the same place as the point beside it: the two count as one",
            run.bend_name(BendPlace::Corner(via)),
        ),
        hint: "Delete it, or move it".to_owned(),
        ..run.finding(&RULE)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::{Corner, Via};
    use glam::DVec3;

    fn corner(x: f64, y: f64) -> Via {
        Via::Corner(Corner { at: DVec3::new(x, y, 0.0), radius_mm: None, extra: Vec::new() })
    }

    #[test]
    fn the_second_of_two_is_named() {
        let fixture = Fixture::edited(|bay| {
            run(bay).via = vec![corner(300.0, 200.0), corner(300.0, 200.0)];
        });
        let found = check(&fixture.context());
        assert_eq!(found.len(), 1);
        assert!(found[0].message.starts_with("Corner 2"), "{}", found[0].message);
        assert_eq!(found[0].point, Some(DVec3::new(300.0, 200.0, 0.0)));
    }

    #[test]
    fn corners_apart_are_not_named() {
        let fixture = Fixture::edited(|bay| {
            run(bay).via = vec![corner(300.0, 200.0), corner(300.0, 200.001)];
        });
        assert_eq!(check(&fixture.context()), []);
    }
}
