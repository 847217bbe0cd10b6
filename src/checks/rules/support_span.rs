//! `support-span`: no free length longer than 610 mm.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::model::{Mark, Source};
use crate::units::EPS_MM;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "support-span",
    severity: Severity::Warn,
    title: "Too far between supports",
    what: "The drawn length of each free length (between socket mouths and clamps), against 24 \
           in (610 mm). The place is its middle.",
    source: Source::fixed(Mark::Published, "NAVEDTRA 14105; AL0907 p. 59: 24 in apart at most"),
};

/// 24 in, rounded as the handbooks print it ([`RULE`]).
const LIMIT_MM: f64 = 610.0;

/// One finding for each span that is too long.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let too_long = |length: f64| length > LIMIT_MM + EPS_MM;
    let figures = run.figures();
    run.solved
        .spans
        .iter()
        .filter(|span| too_long(span.length_mm()))
        .map(|span| {
            let length_mm = span.length_mm();
            let (length, limit) = figures.lengths(length_mm, LIMIT_MM);
            // Each clamp more makes one span more.
            let clamps = (length_mm / LIMIT_MM).ceil() - 1.0;
            let plural = if clamps > 1.0 { "s" } else { "" };
            Finding {
                value: Some(length_mm),
                limit: Some(LIMIT_MM),
                unit: Unit::Mm,
                message: format!("Free length {length}, maximum between supports {limit}"),
                hint: format!(
                    "Set {clamps:.0} more clamp{plural} on a straight of this free length"
                ),
                ..run.finding_at(&RULE, f64::midpoint(span.from_mm, span.to_mm))
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::Fixture;

    /// Two set-backs of 21 and two sockets of 24 beside the span.
    fn straight(span: f64) -> Fixture {
        Fixture::straight(span + 90.0, |_| {})
    }

    #[test]
    fn on_the_limit_and_over_it() {
        assert_eq!(check(&straight(610.0).context()), []);
        let fixture = straight(620.0);
        let found = check(&fixture.context());
        assert!((found[0].value.unwrap() - 620.0).abs() < 1e-9);
        assert!((found[0].at_mm.unwrap() - (24.0 + 310.0)).abs() < 1e-9);
        assert!(found[0].hint.contains("1 more clamp on"), "{}", found[0].hint);
    }

    #[test]
    fn a_very_long_free_length_takes_more_clamps() {
        let found = check(&straight(1900.0).context());
        assert!(found[0].hint.contains("3 more clamps on"), "{}", found[0].hint);
    }
}
