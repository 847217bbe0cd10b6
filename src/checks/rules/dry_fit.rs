//! `dry-fit`: the length measured with the real hose against the calculated cut length.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::model::tolerance::{CUT_LENGTH, cut_length_tolerance_mm};
use crate::units::EPS_MM;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "dry-fit",
    severity: Severity::Fail,
    title: "Dry fit and calculated length differ",
    what: "The length measured on the bench with the real hose, against the calculated cut \
           length, slack included. The value is the difference, the limit the tolerance of a \
           hose of the calculated length: to 12 in ± .125 in, to 24 .188, to 36 .250, to 48 \
           .375, to 72 .500, beyond 1 %.",
    source: CUT_LENGTH,
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    judge(run).into_iter().collect()
}

fn judge(run: &RunContext<'_>) -> Option<Finding> {
    let measured_mm = run.run.dry_fit_mm?;
    let computed_mm = run.solved.cut_length_mm;
    let apart_mm = (measured_mm - computed_mm).abs();
    let tolerance_mm = cut_length_tolerance_mm(computed_mm);
    if apart_mm <= tolerance_mm + EPS_MM {
        return None;
    }
    let figures = run.figures();
    let (measured, computed) = figures.lengths(measured_mm, computed_mm);
    let (apart, tolerance) = figures.lengths(apart_mm, tolerance_mm);
    let word = if measured_mm > computed_mm { "longer" } else { "shorter" };
    Some(Finding {
        value: Some(apart_mm),
        limit: Some(tolerance_mm),
        unit: Unit::Mm,
        message: format!(
            "Dry fit {measured}, calculated cut length {computed}: {apart} {word}, tolerance {tolerance}"
        ),
        hint: "Do not cut yet. Measure ports, ends and corners again until the two agree"
            .to_owned(),
        ..run.finding(&RULE)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn within_the_tolerance_and_just_beyond() {
        // 643.1 mm: to 36 in, ± 0.250 in.
        let computed = Fixture::z().solved.cut_length_mm;
        let tolerance = 0.250 * 25.4;
        let at = |difference: f64| {
            let dry_fit = Some(computed + difference);
            check(&Fixture::edited(|bay| run(bay).dry_fit_mm = dry_fit).context())
        };
        assert_eq!(at(tolerance), []);
        assert_eq!(at(-tolerance), []);
        let longer = at(tolerance + 0.01);
        assert!((longer[0].value.unwrap() - tolerance - 0.01).abs() < 1e-9);
        assert!((longer[0].limit.unwrap() - tolerance).abs() < 1e-9);
        assert!(longer[0].message.contains("longer"));
        assert!(at(-30.0)[0].message.contains("30 mm shorter"));
    }

    #[test]
    fn without_a_dry_fit_nothing_is_said() {
        assert_eq!(check(&Fixture::z().context()), []);
    }
}
