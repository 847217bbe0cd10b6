//! `taut`: a hose is never stretched tight between its ends.

use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::model::{Mark, Source};

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "taut",
    severity: Severity::Fail,
    title: "Hose pulled tight",
    what: "The cut length less the hose's worst shortening under pressure (4 % where its table \
           gives none) against the straight line between the socket mouths and both sockets.",
    source: Source::fixed(
        Mark::Published,
        "NAVEDTRA 14105 p. 5-11: never stretched tight between two fittings; shortening to 4 %: \
         FAA AC 43.13-1B fig. 9-9",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let solved = run.solved;
    if !solved.is_taut() {
        return Vec::new();
    }
    let figures = run.figures();
    let (shortened, limit) = figures.lengths(solved.shortened_mm, solved.taut_limit_mm);
    vec![Finding {
        value: Some(solved.shortened_mm),
        limit: Some(solved.taut_limit_mm),
        unit: Unit::Mm,
        message: format!(
            "Shortened by {} under pressure this hose is {shortened}, and from end to end it needs \
             {limit}: it is pulled tight",
            Figures::percent(solved.hose.shortening_pct),
        ),
        hint: "Give more slack, or lead the hose round a bend that can take the shortening up"
            .to_owned(),
        ..run.finding_at(&RULE, solved.centreline_mm / 2.0)
    }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::units::EPS_MM;

    #[test]
    fn a_straight_hose_without_slack_is_taut() {
        let fixture = Fixture::straight(600.0, |bay| run(bay).slack_pct = Some(0.0));
        let found = check(&fixture.context());
        // 558 mm of hose, 4 % shorter.
        assert!((found[0].value.unwrap() - 558.0 * 0.96).abs() < 1e-9);
        assert!((found[0].limit.unwrap() - 558.0).abs() < 1e-9);
        assert!(found[0].message.contains("4 %"), "{}", found[0].message);
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
}
