//! `no-bend`: a hose that runs straight from end to end.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "no-bend",
    severity: Severity::Note,
    title: "Straight from end to end",
    what: "Hoses without a bend: only the slack takes up movement and the change of length under \
           pressure.",
    source: Source::fixed(Mark::Practice, "a bend takes up movement and change of length"),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    if !run.solved.bends().is_empty() {
        return Vec::new();
    }
    vec![Finding {
        message:
            "No bend: only the slack takes up movement and the change of length under pressure"
                .to_owned(),
        hint: "If its ends can move, route it round a bend".to_owned(),
        ..run.finding_at(&RULE, run.solved.centreline_mm / 2.0)
    }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::Fixture;

    #[test]
    fn straight_and_bent() {
        assert_eq!(check(&Fixture::straight(500.0, |_| {}).context()).len(), 1);
        assert_eq!(check(&Fixture::z().context()), []);
    }
}
