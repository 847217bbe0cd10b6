//! `outside-typical`: an outside diameter that is only typical.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Mark, Source};

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "outside-typical",
    severity: Severity::Note,
    title: "Outside diameter only typical",
    what: "Whether the outside diameter in force is a typical figure rather than a published or \
           measured one.",
    source: Source::fixed(
        Mark::Practice,
        "hose sold under one name differs by a factor of two: take your own hose's figures",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let hose = &run.solved.hose;
    if !hose.outside_is_known || hose.outside_source.mark != Mark::Typical {
        return Vec::new();
    }
    vec![Finding {
        other: Some(run.hose.id.clone()),
        message: format!(
            "The outside diameter of {} is a typical figure, {}",
            run.figures().length(hose.outside_mm),
            hose.outside_source,
        ),
        hint: "Measure the hose over its braid and give the run its outside diameter; take the \
               bend radius and the pressure from its maker too"
            .to_owned(),
        ..run.finding(&RULE)
    }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn typical_until_measured() {
        let found = |measured: Option<f64>| {
            let fixture = Fixture::edited(|bay| {
                bay.stock.hoses[0].sources.outside = Source::fixed(Mark::Typical, "bore + 4 mm");
                run(bay).outside_mm = measured;
            });
            check(&fixture.context())
        };
        assert!(found(None)[0].message.contains("12 mm is a typical figure, bore + 4 mm"));
        assert_eq!(found(Some(12.5)), []);
        assert_eq!(check(&Fixture::z().context()), []);
    }
}
