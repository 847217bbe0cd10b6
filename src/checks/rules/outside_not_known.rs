//! `outside-not-known`: without an outside diameter there is no centre-line radius.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Mark, Source};

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "outside-not-known",
    severity: Severity::Fail,
    title: "Outside diameter not known",
    what: "Whether the hose's outside diameter is given by the run, the bay's stock or the \
           catalogue. Where it is not, its bore stands in, and bends, straights beside ends, gaps \
           and clamps come out too small.",
    source: Source::fixed(Mark::Calculated, "least radius to the centre line = table + outside/2"),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    if run.solved.hose.outside_is_known {
        return Vec::new();
    }
    vec![Finding {
        other: Some(run.hose.id.clone()),
        message: format!(
            "The outside diameter of this \u{2212}{} hose is not known; the figures stand on its \
             bore ({}) and are too small",
            run.run.dash,
            run.figures().length(run.solved.hose.outside_mm),
        ),
        hint: "Measure the hose over its braid and give the run its outside diameter".to_owned(),
        ..run.finding(&RULE)
    }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn unknown_until_measured() {
        let found = |measured: Option<f64>| {
            let fixture = Fixture::edited(|bay| {
                bay.stock.hoses[0].sizes[0].outside_mm = None;
                run(bay).outside_mm = measured;
            });
            check(&fixture.context())
        };
        assert_eq!(found(None).len(), 1);
        assert!(found(None)[0].message.contains("8 mm"));
        assert_eq!(found(Some(12.0)), []);
        assert_eq!(check(&Fixture::z().context()), []);
    }
}
