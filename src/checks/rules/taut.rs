//! `taut`: no hose pulled tight between held points.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::FreeSpan;
use crate::model::{Mark, Source};
use crate::units::{EPS_MM, LengthUnit};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "taut",
    severity: Severity::Fail,
    title: "Pulled tight",
    what: "The hose between two held points (socket mouths, clamps), less its worst shortening \
           under pressure, against the straight distance between them; and the same for the \
           whole hose from end to end. Shortening: the hose's figure (4 % where its table gives \
           none) is that at its rated pressure and is scaled to the service pressure; in full \
           where one of the two is not given, none without pressure. A note where it is short by \
           1/16 in or less, which nobody can cut or mark.",
    source: Source::fixed(
        Mark::Published,
        "NAVEDTRA 14105 p. 5-11: never stretched tight between two fittings; shortening to 4 %: \
         FAA AC 43.13-1B fig. 9-9",
    ),
};

/// Shorter by less than the bench can cut and mark, mm: 1/16 in.
const BENCH_STEP_MM: f64 = LengthUnit::Inch.bench_step_mm();

/// One finding for each free length that is pulled tight; else at most one for the whole hose.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let solved = run.solved;
    let spare_mm = |span: &FreeSpan| span.spare_mm(solved.hose.shortening_pct);
    let tight = solved.spans.iter().filter(|span| spare_mm(span) < -EPS_MM);
    let found: Vec<Finding> = tight.map(|span| of_span(run, span, spare_mm(span))).collect();
    if found.is_empty() && solved.is_taut() { vec![of_whole(run)] } else { found }
}

fn of_span(run: &RunContext<'_>, span: &FreeSpan, spare_mm: f64) -> Finding {
    let figures = run.figures();
    let hose_mm = spare_mm + span.chord_mm;
    let (hose, chord) = figures.lengths(hose_mm, span.chord_mm);
    let is_little = spare_mm >= -BENCH_STEP_MM;
    Finding {
        severity: if is_little { Severity::Note } else { Severity::Fail },
        value: Some(hose_mm),
        limit: Some(span.chord_mm),
        unit: Unit::Mm,
        message: format!(
            "Pulled tight {}: {hose} {}, {chord} apart ({})",
            run.span_name(span),
            run.of_hose(),
            run.shortening_words(),
        ),
        hint: format!("Give {} more slack here", figures.length_up(needed_mm(run, span))),
        ..run.finding_at(&RULE, f64::midpoint(span.from_mm, span.to_mm))
    }
}

/// The hose that a free length lacks, mm.
fn needed_mm(run: &RunContext<'_>, span: &FreeSpan) -> f64 {
    span.chord_mm / share_left(run) - span.hose_mm(0.0)
}

/// What shortening leaves of a length, as a share.
fn share_left(run: &RunContext<'_>) -> f64 {
    (1.0 - run.solved.hose.shortening_pct / 100.0).max(EPS_MM)
}

fn of_whole(run: &RunContext<'_>) -> Finding {
    let (solved, figures) = (run.solved, run.figures());
    let (shortened, limit) = figures.lengths(solved.shortened_mm, solved.taut_limit_mm);
    let lacks_mm = solved.taut_limit_mm - solved.shortened_mm;
    Finding {
        value: Some(solved.shortened_mm),
        limit: Some(solved.taut_limit_mm),
        unit: Unit::Mm,
        message: format!(
            "Pulled tight from end to end: {shortened} {}, minimum {limit} ({})",
            run.of_hose(),
            run.shortening_words(),
        ),
        hint: format!("Give {} more slack", figures.length_up(lacks_mm / share_left(run))),
        ..run.finding_at(&RULE, solved.centreline_mm / 2.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::{Clamp, Via};
    use glam::DVec3;

    #[test]
    fn a_straight_hose_without_slack_is_taut() {
        let fixture = Fixture::straight(600.0, |bay| run(bay).slack_pct = Some(0.0));
        let found = check(&fixture.context());
        // 558 mm of hose, of which 510 mm are free and get 4 % shorter.
        assert_eq!((found.len(), found[0].severity), (1, Severity::Fail));
        assert!((found[0].value.unwrap() - 510.0 * 0.96).abs() < 1e-9);
        assert!((found[0].limit.unwrap() - 510.0).abs() < 1e-9);
        assert!(
            found[0].message.contains("(shortens 4 %, in full: service or rated pressure unknown)"),
            "{}",
            found[0].message
        );
        // What the sockets grip stays as long as it is.
        assert!((fixture.solved.shortened_mm - (558.0 - 0.04 * 510.0)).abs() < 1e-9);
    }

    #[test]
    fn enough_and_just_enough() {
        let mut fixture = Fixture::straight(600.0, |_| {});
        assert_eq!(check(&fixture.context()), []);
        fixture.solved.shortened_mm = fixture.solved.taut_limit_mm - EPS_MM / 2.0;
        assert_eq!(check(&fixture.context()), []);
        fixture.solved.shortened_mm = fixture.solved.taut_limit_mm - 2.0 * EPS_MM;
        assert_eq!(check(&fixture.context()).len(), 1);
    }

    #[test]
    fn shortening_is_scaled_to_the_service_pressure_and_there_is_none_without_pressure() {
        // The fixture's hose is rated to 100 bar; its table gives no change of length: 4 %.
        let at = |bar: Option<f64>| {
            let fixture = Fixture::straight(600.0, |bay| {
                run(bay).slack_pct = Some(0.0);
                run(bay).service.pressure_bar = bar;
            });
            let found = check(&fixture.context());
            let shortened = (558.0 - fixture.solved.shortened_mm) / 510.0;
            (100.0 * shortened, found.first().map(|one| (one.severity, one.message.clone())))
        };
        assert!((at(None).0 - 4.0).abs() < 1e-9);
        assert!((at(Some(25.0)).0 - 1.0).abs() < 1e-9);
        for without in [0.0, -0.5] {
            assert_eq!(at(Some(without)), (0.0, None));
        }
        let (_, found) = at(Some(25.0));
        let (severity, message) = found.unwrap();
        assert_eq!(severity, Severity::Fail);
        assert!(message.ends_with("(shortens 1 % at 25 bar)"), "{message}");
        // 0.51 mm are less than the bench can mark.
        assert_eq!(at(Some(2.5)).1.unwrap().0, Severity::Note);
    }

    /// Two ports, a clamp 9 in out, little slack: too short on the sheet, and found so.
    #[test]
    fn every_held_span_is_judged_also_where_nothing_moves() {
        for slack in [0.5, 1.0, 2.0] {
            let fixture = Fixture::straight(600.0, |bay| {
                run(bay).slack_pct = Some(slack);
                run(bay).via = vec![Via::Clamp(Clamp {
                    at: DVec3::new(228.6, 0.0, 0.0),
                    along: DVec3::X,
                    grip_mm: Some(20.0),
                    ..Clamp::default()
                })];
            });
            let found = check(&fixture.context());
            assert_eq!(found.len(), 2, "{slack}: {found:?}");
            assert!(found.iter().all(|one| one.severity == Severity::Fail), "{found:?}");
            assert!(
                found[0].message.starts_with("Pulled tight between end A and clamp 1: "),
                "{found:?}"
            );
            assert!(
                found[1].message.starts_with("Pulled tight between clamp 1 and end B: "),
                "{found:?}"
            );
        }
    }
}
