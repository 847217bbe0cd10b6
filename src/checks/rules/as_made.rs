//! `as-made`: the cut and the finished hose against the calculated lengths.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::as_made;
use crate::model::tolerance::{CUT_LENGTH, cut_length_tolerance_mm};
use crate::units::EPS_MM;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "as-made",
    severity: Severity::Warn,
    title: "Made length out of tolerance",
    what: "The length to which the hose was cut, against the calculated cut length; and the \
           overall length of the finished hose, against that cut and the set-backs used. The \
           value is the difference, the limit the tolerance of a hose of that length.",
    source: CUT_LENGTH,
};

/// At most one finding for the cut, and one for the finished assembly.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    [cut(run), finished(run)].into_iter().flatten().collect()
}

fn cut(run: &RunContext<'_>) -> Option<Finding> {
    let cut_mm = run.run.bench.cut_mm?;
    let computed_mm = run.solved.cut_length_mm;
    let (cut, calculated) = run.figures().lengths(cut_mm, computed_mm);
    let message = format!("Hose cut to {cut}, calculated cut length {calculated}");
    let hint = "Check that the hose still fits its route, or make another";
    differ(run, (cut_mm, computed_mm), &message, hint)
}

fn finished(run: &RunContext<'_>) -> Option<Finding> {
    let made = as_made(run.run, run.solved)?;
    let (finished, calculated) = run.figures().lengths(made.final_mm, made.calculated_mm);
    let message = format!(
        "Overall length of the finished hose {finished}, calculated from cut and set-backs {calculated}"
    );
    let hint = "Measure the set-back of both ends again, or take the finished length over into the \
                set-backs (bench record)";
    differ(run, (made.final_mm, made.calculated_mm), &message, hint)
}

/// A finding where two lengths are farther apart than the tolerance of the second.
fn differ(
    run: &RunContext<'_>,
    (is_mm, should_mm): (f64, f64),
    message: &str,
    hint: &str,
) -> Option<Finding> {
    let apart_mm = (is_mm - should_mm).abs();
    let tolerance_mm = cut_length_tolerance_mm(should_mm);
    let (apart, tolerance) = run.figures().lengths(apart_mm, tolerance_mm);
    let word = if is_mm > should_mm { "longer" } else { "shorter" };
    (apart_mm > tolerance_mm + EPS_MM).then(|| Finding {
        value: Some(apart_mm),
        limit: Some(tolerance_mm),
        unit: Unit::Mm,
        message: format!("{message}: {apart} {word}, tolerance {tolerance}"),
        hint: hint.to_owned(),
        ..run.finding(&RULE)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    fn found(cut_off: f64, final_off: f64) -> Vec<Finding> {
        let plain = Fixture::z();
        let computed = plain.solved.cut_length_mm;
        let set_backs = plain.solved.from.set_back_mm + plain.solved.to.set_back_mm;
        let fixture = Fixture::edited(|bay| {
            let bench = &mut run(bay).bench;
            bench.cut_mm = Some(computed + cut_off);
            bench.final_mm = Some(computed + cut_off + set_backs + final_off);
        });
        check(&fixture.context())
    }

    #[test]
    fn within_the_tolerance_nothing_is_said_and_beyond_it_both_are() {
        // 643.1 mm: to 36 in, ± 0.250 in, 6.35 mm.
        assert_eq!(found(6.3, -6.3), []);
        let cut = found(-6.4, 0.0);
        assert_eq!(cut.len(), 1);
        assert!(
            cut[0].message.starts_with("Hose cut to 636.7 mm, calculated cut length 643.1 mm"),
            "{}",
            cut[0].message
        );
        assert!((cut[0].value.unwrap() - 6.4).abs() < 1e-9);
        let finished = found(0.0, 6.4);
        assert_eq!(finished.len(), 1);
        assert!(
            finished[0].message.ends_with(": 6.4 mm longer, tolerance 6.3 mm"),
            "{}",
            finished[0].message
        );
        assert_eq!(found(30.0, 30.0).len(), 2);
    }

    #[test]
    fn without_a_record_nothing_is_said() {
        assert_eq!(check(&Fixture::z().context()), []);
    }
}
