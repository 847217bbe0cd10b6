//! `bend-radius`: no bend tighter than the hose stands.

use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::limit::by_limit;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::Bend;
use crate::model::{Mark, Source};
use crate::units::EPS_MM;

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "bend-radius",
    severity: Severity::Fail,
    title: "Bend tighter than the hose stands",
    what: "Each bend's radius that fits, to the centre line, against the hose's least radius, to \
           the centre line too (its table's radius to the inside of the bend and half the outside \
           diameter). A bend with no room for any radius is a kink; a hose that turns straight \
           back has none. A bend that holds but is tighter than was asked for is a note. A limit from \
           memory of the standard, or one that rests on a typical outside diameter, missed by less \
           than 5 % is a warning.",
    source: Source::fixed(
        Mark::Published,
        "least radius: the hose's own table, as marked there; SAE J343 takes r + d/2 for the axis",
    ),
};

/// From this turning angle on, degrees, no radius rounds the corner.
pub(super) const STRAIGHT_BACK_DEG: f64 = 180.0 - 1e-6;

/// To which a straight that the program chooses is found, mm.
const SEARCHED_MM: f64 = 1e-3;

/// One finding a bend.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    run.solved.bends().iter().filter_map(|bend| judge(run, bend)).collect()
}

fn judge(run: &RunContext<'_>, bend: &Bend) -> Option<Finding> {
    let limit_mm = run.solved.radius_limit_mm;
    // What room leaves is found by a search; a thousandth of a millimetre is none.
    let near_mm = if bend.wanted_mm >= limit_mm && bend.radius_mm < bend.wanted_mm {
        SEARCHED_MM
    } else {
        EPS_MM
    };
    let (severity, message, hint) = if bend.radius_mm < limit_mm - near_mm {
        let (message, hint) = too_tight(run, bend);
        (Severity::Fail, message, hint)
    } else if bend.radius_mm < bend.wanted_mm - EPS_MM {
        let (message, hint) = tighter_than_asked(run, bend);
        (Severity::Note, message, hint)
    } else {
        return None;
    };
    let measured_to = if run.hose.bend_to_centre.unwrap_or(false) {
        ""
    } else {
        ", to the inside of the bend; half the outside diameter added for the centre line as in \
         SAE J343 (published)"
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
        source: format!("least radius: {}{measured_to}", run.hose.sources.bend_radius),
        ..run.finding(&RULE)
    };
    Some(match severity {
        Severity::Fail => by_limit(finding, &run.solved.hose.radius_limit_source),
        _ => finding,
    })
}

fn too_tight(run: &RunContext<'_>, bend: &Bend) -> (String, String) {
    let figures = run.figures();
    let limit_mm = run.solved.radius_limit_mm;
    let (fits, needed) = figures.lengths(bend.radius_mm, limit_mm);
    let name = run.bend_name(bend.place);
    let asked_too_tight = bend.wanted_mm < limit_mm - EPS_MM;
    if bend.angle_deg >= STRAIGHT_BACK_DEG {
        return (
            format!(
                "{name} turns straight back on itself: no radius rounds that, and this \
                 hose needs {needed} (to the centre line)"
            ),
            "Make the turn out of two corners with room between them, or use an elbow end"
                .to_owned(),
        );
    }
    if bend.radius_mm <= EPS_MM && !asked_too_tight {
        return (
            format!(
                "{name} is a kink: there is no room at all for a bend, and this hose \
                 needs {needed} (to the centre line)"
            ),
            room_hint(figures, bend, limit_mm),
        );
    }
    if asked_too_tight && bend.radius_mm >= bend.wanted_mm - EPS_MM {
        return (
            format!(
                "{name} is asked to bend to {fits}; this hose needs {needed} (to the \
                 centre line)"
            ),
            format!("Ask for {needed} or more here, or choose a hose that bends tighter"),
        );
    }
    (
        format!("{name} bends to {fits}; this hose needs {needed} (to the centre line)"),
        room_hint(figures, bend, limit_mm),
    )
}

fn tighter_than_asked(run: &RunContext<'_>, bend: &Bend) -> (String, String) {
    let figures = run.figures();
    let (fits, asked) = figures.lengths(bend.radius_mm, bend.wanted_mm);
    let needed = figures.length(run.solved.radius_limit_mm);
    (
        format!(
            "{}, {} from end A: asked for {asked}, {fits} fits, the hose needs {needed} (to the \
             centre line): it holds",
            run.bend_name(bend.place),
            figures.length(bend.at_mm),
        ),
        room_hint(figures, bend, bend.wanted_mm),
    )
}

/// The room that a bend of this radius takes.
fn room_hint(figures: Figures, bend: &Bend, radius_mm: f64) -> String {
    let tangent = radius_mm * (bend.angle_deg.to_radians() / 2.0).tan();
    format!(
        "A bend of {} through {} takes {} of hose on either side of its corner, clear of other \
         bends, of clamps, and of the straight beside an end: move the corner or its neighbours, \
         or choose a hose that bends tighter",
        figures.length(radius_mm),
        Figures::degrees(bend.angle_deg),
        figures.length(tangent),
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
        assert!(found[0].message.contains("bends to 71 mm; this hose needs 102 mm"), "{found:?}");
        // 48 mm straight, then half an arc of 71 mm.
        let middle = 48.0 + 71.0 * std::f64::consts::FRAC_PI_4;
        assert!((found[0].at_mm.unwrap() - middle).abs() < 1e-9);
        assert!(found[0].point.is_some());
    }

    #[test]
    fn no_room_is_a_kink() {
        let fixture = Fixture::edited(|bay| straight_a(bay, 40.0));
        let found = check(&fixture.context());
        assert_eq!(found[0].value, Some(0.0));
        assert!(found[0].message.contains("is a kink"), "{}", found[0].message);
    }

    #[test]
    fn straight_back_is_said_in_its_own_words() {
        // The hose runs past end B and back to it.
        let fixture = Fixture::straight(600.0, |bay| {
            run(bay).from.straight_mm = Some(700.0);
        });
        let found = check(&fixture.context());
        assert!(found[0].message.contains("turns straight back"), "{}", found[0].message);
        assert!(!found[0].hint.contains("mm"), "no room would help: {}", found[0].hint);
    }

    #[test]
    fn asked_too_tight_is_told_from_no_room() {
        let fixture = Fixture::edited(|bay| run(bay).radius_mm = Some(80.0));
        let found = check(&fixture.context());
        assert_eq!(found.len(), 2);
        assert!(found[0].message.contains("asked to bend to 80 mm"), "{}", found[0].message);
        assert!(found[0].hint.contains("Ask for 102 mm"), "{}", found[0].hint);
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
        assert!(found[0].message.contains("asked for 150 mm, 130 mm fits, the hose needs 102 mm"));
    }
}
