//! `outside-not-known`: without an outside diameter there is no centre-line radius.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "outside-not-known",
    severity: Severity::Fail,
    title: "Hose OD unknown",
    what: "Whether the hose's outside diameter (OD) is given by the hose of the bay, the stock \
           or the catalogue. Where it is not, its bore stands in: minimum bend radius, straight \
           beside ends and grip of clamps come out too small, clearances too large.",
    source: Source::fixed(
        Mark::Calculated,
        "minimum bend radius to the centre line = inside radius + OD/2",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    if run.solved.hose.outside_is_known {
        return Vec::new();
    }
    vec![Finding {
        other: Some(run.hose.id.clone()),
        message: format!(
            "OD of this \u{2212}{} hose unknown: with its bore ({}) instead, minimum radius comes out too \
             small, clearance too large",
            run.run.dash,
            run.figures().length(run.solved.hose.outside_mm),
        ),
        hint: "Measure the OD over the braid, and enter it".to_owned(),
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
