//! `bend-radius`: no drawn bend below the minimum bend radius.

use crate::checks::context::RunContext;
use crate::checks::limit::with_limit_severity;
use crate::checks::words::first_lower;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::Bend;
use crate::model::{Mark, Source};
use crate::units::EPS_MM;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "bend-radius",
    severity: Severity::Fail,
    title: "Bend radius below minimum",
    what: "The radius that fits at each bend, against the minimum bend radius of the hose, both \
           to the centre line (a table's inside radius plus half the OD). A bend without room \
           for any radius is a kink; where a hose turns straight back no radius fits. A radius \
           that meets the minimum but is smaller than asked for is a note. A limit from memory \
           of the standard, or one that rests on a typical OD, missed by less than 5 % is a \
           warning.",
    source: Source::fixed(
        Mark::Published,
        "minimum bend radius: the hose's own table, as marked there; SAE J343 adds half the OD \
         for the centre line",
    ),
};

/// From this turning angle on, degrees, no radius rounds the corner.
pub(super) const STRAIGHT_BACK_DEG: f64 = 180.0 - 1e-6;

/// Accuracy of a straight that the engine finds, mm.
const SEARCHED_MM: f64 = 1e-3;

/// One finding a bend.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    run.solved.bends().iter().filter_map(|bend| judge(run, bend)).collect()
}

fn judge(run: &RunContext<'_>, bend: &Bend) -> Option<Finding> {
    let limit_mm = run.solved.radius_limit_mm;
    // The radius that fits is found by a search; a thousandth of a millimetre is none.
    let near_mm = if bend.wanted_mm >= limit_mm && bend.radius_mm < bend.wanted_mm {
        SEARCHED_MM
    } else {
        EPS_MM
    };
    let (severity, message, hint) = if bend.radius_mm < limit_mm - near_mm {
        let (message, hint) = below_minimum(run, bend);
        (Severity::Fail, message, hint)
    } else if bend.radius_mm < bend.wanted_mm - EPS_MM {
        let (message, hint) = below_asked(run, bend);
        (Severity::Note, message, hint)
    } else {
        return None;
    };
    let measured_to = if run.hose.bend_to_centre.unwrap_or(false) {
        ""
    } else {
        ", to the inside of the bend; half the OD added for the centre line as in SAE J343 (published)"
    };
    let finding = Finding {
        severity,
        value: Some(bend.radius_mm),
        limit: Some(limit_mm),
        unit: Unit::Mm,
        at_mm: Some(bend.at_mm),
        point: Some(bend.point),
        message,
        hint,
        source: format!("minimum bend radius: {}{measured_to}", run.hose.sources.bend_radius),
        ..run.finding(&RULE)
    };
    Some(match severity {
        Severity::Fail => with_limit_severity(finding, &run.solved.hose.radius_limit_source),
        _ => finding,
    })
}

fn below_minimum(run: &RunContext<'_>, bend: &Bend) -> (String, String) {
    let figures = run.figures();
    let limit_mm = run.solved.radius_limit_mm;
    let (fits, needed) = figures.lengths(bend.radius_mm, limit_mm);
    let name = run.bend_name(bend.place);
    let asked_too_tight = bend.wanted_mm < limit_mm - EPS_MM;
    if bend.angle_deg >= STRAIGHT_BACK_DEG {
        return (
            format!(
                "{name}: turns straight back on itself, no radius fits; minimum {needed}, centre line"
            ),
            "Turn in two corners with room between them, or fit an elbow".to_owned(),
        );
    }
    if bend.radius_mm <= EPS_MM && !asked_too_tight {
        return (
            format!("{name}: kink, no room for a bend; minimum bend radius {needed}, centre line"),
            room_hint(run, bend, limit_mm),
        );
    }
    if asked_too_tight && bend.radius_mm >= bend.wanted_mm - EPS_MM {
        return (
            format!("{name}: bend radius asked for {fits}, minimum {needed}, centre line"),
            format!(
                "Set a bend radius of {needed} or more here, or select a hose with a smaller minimum"
            ),
        );
    }
    (
        format!("{name}: bend radius {fits}, minimum {needed}, centre line"),
        room_hint(run, bend, limit_mm),
    )
}

fn below_asked(run: &RunContext<'_>, bend: &Bend) -> (String, String) {
    let figures = run.figures();
    let (fits, asked) = figures.lengths(bend.radius_mm, bend.wanted_mm);
    let needed = figures.length(run.solved.radius_limit_mm);
    (
        format!(
            "{}: bend radius {fits}, asked for {asked}, minimum {needed}, centre line",
            run.bend_name(bend.place),
        ),
        format!("Leave it, or: {}", first_lower(&room_hint(run, bend, bend.wanted_mm))),
    )
}

/// The room that a bend of this radius takes, to be made at its present angle.
fn room_hint(run: &RunContext<'_>, bend: &Bend, radius_mm: f64) -> String {
    let tangent_mm = radius_mm * (bend.angle_deg.to_radians() / 2.0).tan();
    format!(
        "Make {} of room on either side of {}, clear of other bends, clamps and the straight at the ends",
        run.figures().length_up(tangent_mm),
        run.corner_name(bend.place),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run, straight_a};

    #[test]
    fn on_the_limit_holds() {
        let asked = |radius_mm: f64| Fixture::edited(|bay| run(bay).radius_mm = Some(radius_mm));
        let fixture = asked(102.0);
        assert_eq!(fixture.solved.bends().len(), 2);
        assert_eq!(check(&fixture.context()), []);
        assert_eq!(check(&asked(102.0 - EPS_MM / 2.0).context()), []);
        assert_eq!(check(&asked(102.0 - 2.0 * EPS_MM).context()).len(), 2);
    }

    #[test]
    fn too_little_room_names_both_radii_and_the_place() {
        // 48 of the 119 mm stretch stay straight: 71 mm for a tangent of a square bend.
        let fixture = Fixture::edited(|bay| straight_a(bay, 119.0));
        let found = check(&fixture.context());
        assert_eq!(found[0].severity, Severity::Fail);
        assert!((found[0].value.unwrap() - 71.0).abs() < 1e-9);
        assert!((found[0].limit.unwrap() - 102.0).abs() < 1e-9);
        assert!(
            found[0].message.contains("bend radius 71 mm, minimum 102 mm, centre line"),
            "{found:?}"
        );
        // 48 mm straight, then half an arc of 71 mm.
        let middle = 48.0 + 71.0 * std::f64::consts::FRAC_PI_4;
        assert!((found[0].at_mm.unwrap() - middle).abs() < 1e-9);
        assert!(found[0].point.is_some());
        let hint = "Make 102 mm of room on either side of the corner after end A";
        assert!(found[0].hint.starts_with(hint), "{}", found[0].hint);
    }

    #[test]
    fn no_room_is_a_kink() {
        let fixture = Fixture::edited(|bay| straight_a(bay, 40.0));
        let found = check(&fixture.context());
        assert_eq!(found[0].value, Some(0.0));
        assert!(found[0].message.contains(": kink, no room"), "{}", found[0].message);
    }

    #[test]
    fn a_turn_straight_back_has_its_own_message() {
        // The hose runs past end B and back to it.
        let fixture = Fixture::straight(600.0, |bay| {
            run(bay).from.straight_mm = Some(700.0);
        });
        let found = check(&fixture.context());
        assert!(found[0].message.contains("turns straight back"), "{}", found[0].message);
        assert!(!found[0].hint.contains("mm"), "no room would help: {}", found[0].hint);
    }

    #[test]
    fn a_radius_asked_for_below_the_minimum_is_not_a_lack_of_room() {
        let fixture = Fixture::edited(|bay| run(bay).radius_mm = Some(80.0));
        let found = check(&fixture.context());
        assert_eq!(found.len(), 2);
        assert!(
            found[0].message.contains("bend radius asked for 80 mm, minimum 102 mm"),
            "{}",
            found[0].message
        );
        assert!(
            found[0].hint.starts_with("Set a bend radius of 102 mm or more"),
            "{}",
            found[0].hint
        );
    }

    #[test]
    fn tighter_than_asked_but_holding_is_a_note() {
        // 130 of the 178 mm stretch are left for the tangent.
        let fixture = Fixture::edited(|bay| {
            straight_a(bay, 178.0);
            run(bay).radius_mm = Some(150.0);
        });
        let found = check(&fixture.context());
        assert_eq!((found.len(), found[0].severity), (1, Severity::Note));
        assert!(found[0].message.contains("bend radius 130 mm, asked for 150 mm, minimum 102 mm"));
    }
}
