//! `end-straight`: two diameters of straight hose beside a socket.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::{Bend, EndSolution, STRAIGHT_DIAMETERS};
use crate::model::{Mark, Side, Source};
use crate::units::EPS_MM;

use super::bend_radius::STRAIGHT_BACK_DEG;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "end-straight",
    severity: Severity::Warn,
    title: "Bend too near an end",
    what: "The straight hose left between the socket and the first bend at the bend radius asked \
           for, against two outside diameters. The route keeps that straight and takes it off \
           the bend, so this rule names the cause of a bend smaller than asked for: a straight \
           length that is too short, or a radius that is too large beside the end. Below zero \
           the bend would begin inside the socket.",
    source: Source::fixed(
        Mark::Published,
        "FAA AMT Handbook – General p. 7-19: at least two hose diameters",
    ),
};

/// One finding for each first bend that lost radius to the straight beside its end.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let bends = &run.solved.bends();
    [(Side::A, bends.first()), (Side::B, bends.last())]
        .into_iter()
        .filter_map(|(side, bend)| judge(run, bend?, side, end(run, side).straight_at_wanted_mm?))
        .collect()
}

fn judge(run: &RunContext<'_>, bend: &Bend, side: Side, straight_mm: f64) -> Option<Finding> {
    let limit_mm = STRAIGHT_DIAMETERS * run.solved.hose.outside_mm;
    let lost_radius = bend.radius_mm < bend.wanted_mm - EPS_MM;
    if straight_mm >= limit_mm - EPS_MM || !lost_radius || bend.angle_deg >= STRAIGHT_BACK_DEG {
        return None;
    }
    let figures = run.figures();
    let (straight, minimum) = figures.lengths(straight_mm.max(0.0), limit_mm);
    let wanted = figures.length(bend.wanted_mm);
    let left = if straight_mm < 0.0 {
        format!("a bend of {wanted} begins inside the socket")
    } else {
        format!("{straight} of straight beside the socket at a bend of {wanted}")
    };
    let (cause, hint) = cause_and_hint(run, bend, side, straight_mm);
    Some(Finding {
        value: Some(straight_mm),
        limit: Some(limit_mm),
        unit: Unit::Mm,
        at_mm: Some(bend.at_mm),
        point: Some(bend.point),
        message: format!(
            "End {}: {left}, minimum straight {minimum} (two diameters); {cause}",
            side.letter(),
        ),
        hint,
        ..run.finding(&RULE)
    })
}

fn cause_and_hint(
    run: &RunContext<'_>,
    bend: &Bend,
    side: Side,
    straight_mm: f64,
) -> (String, String) {
    let figures = run.figures();
    let end = end(run, side);
    let straight_needed = STRAIGHT_DIAMETERS * run.solved.hose.outside_mm;
    let half_turn = (bend.angle_deg.to_radians() / 2.0).tan();
    let least_mm = run.solved.radius_limit_mm;
    let straight_at_least = straight_mm + (bend.wanted_mm - least_mm) * half_turn;
    let straight = |radius_mm: f64| {
        figures.length_up(end.end.socket_mm + straight_needed + radius_mm * half_turn)
    };
    if bend.wanted_mm > least_mm + EPS_MM && straight_at_least >= straight_needed - EPS_MM {
        return (
            "radius asked for too large beside this end".to_owned(),
            format!(
                "Set a straight of {} at end {} (at this turning angle), or a smaller radius (minimum {})",
                straight(bend.wanted_mm),
                side.letter(),
                figures.length(least_mm),
            ),
        );
    }
    if end.straight_is_found {
        return (
            "next corner, clamp or end too near".to_owned(),
            format!(
                "Move the next corner, clamp or end farther away: at this turning angle the bend takes a \
                 straight of {}",
                straight(bend.wanted_mm),
            ),
        );
    }
    (
        format!("straight of {} too short", figures.length(end.straight_mm)),
        format!(
            "Set a straight of {} at end {} (at this turning angle)",
            straight(bend.wanted_mm),
            side.letter(),
        ),
    )
}

fn end<'a>(run: &RunContext<'a>, side: Side) -> &'a EndSolution {
    match side {
        Side::A => &run.solved.from,
        Side::B => &run.solved.to,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run, straight_a};

    #[test]
    fn two_diameters_exactly_are_enough() {
        // Socket 24, two diameters 24, tangent 102: a straight of 150 just does.
        let fixture = Fixture::edited(|bay| straight_a(bay, 150.0));
        assert_eq!(check(&fixture.context()), []);
        let fixture = Fixture::edited(|bay| straight_a(bay, 149.9));
        assert_eq!(check(&fixture.context()).len(), 1);
    }

    #[test]
    fn a_short_straight_is_named_with_one_that_is_long_enough() {
        let fixture = Fixture::edited(|bay| straight_a(bay, 140.0));
        let found = check(&fixture.context());
        assert!((found[0].value.unwrap() - 14.0).abs() < 1e-9);
        assert!((found[0].limit.unwrap() - 24.0).abs() < 1e-9);
        assert!(found[0].message.starts_with("End A"), "{}", found[0].message);
        assert!(found[0].message.contains("straight of 140 mm too short"));
        assert!(found[0].hint.contains("150 mm"), "{}", found[0].hint);
    }

    #[test]
    fn the_far_end_is_named_too() {
        let fixture = Fixture::edited(|bay| straight_a(bay, 260.0));
        let found = check(&fixture.context());
        assert!(found.len() == 1 && found[0].message.starts_with("End B"), "{found:?}");
    }

    #[test]
    fn a_big_radius_is_named_as_the_cause() {
        let fixture = Fixture::edited(|bay| {
            straight_a(bay, 160.0);
            run(bay).radius_mm = Some(150.0);
        });
        let found = check(&fixture.context());
        assert!(found[0].message.contains("too large beside this end"), "{}", found[0].message);
        assert!(found[0].hint.contains("102 mm") && found[0].hint.contains("198 mm"));
    }

    #[test]
    fn a_bend_inside_the_socket() {
        let fixture = Fixture::edited(|bay| straight_a(bay, 110.0));
        let found = check(&fixture.context());
        assert!((found[0].value.unwrap() + 16.0).abs() < 1e-9);
        assert!(found[0].message.contains("begins inside the socket"));
    }

    #[test]
    fn the_only_bend_is_named_by_its_own_end() {
        // An L: ahead from end A past the middle of its length, then 120 mm to the left to end B.
        let fixture = Fixture::edited(|bay| {
            bay.ports[1].at = glam::DVec3::new(200.0, 141.0, 0.0);
            bay.ports[1].toward = glam::DVec3::NEG_Y;
            run(bay).from.straight_mm = Some(50.0);
            run(bay).to.straight_mm = Some(120.0);
        });
        assert_eq!(fixture.solved.bends().len(), 1);
        let found = check(&fixture.context());
        assert!(found.len() == 1 && found[0].message.starts_with("End B"), "{found:?}");
        // And turned round: it is end A's.
        let fixture = Fixture::edited(|bay| {
            bay.ports[1].at = glam::DVec3::new(141.0, 200.0, 0.0);
            bay.ports[1].toward = glam::DVec3::NEG_Y;
            run(bay).from.straight_mm = Some(120.0);
            run(bay).to.straight_mm = Some(50.0);
        });
        let found = check(&fixture.context());
        assert!(found.len() == 1 && found[0].message.starts_with("End A"), "{found:?}");
    }
}
