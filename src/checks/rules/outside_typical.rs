//! `outside-typical`: a typical outside diameter.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "outside-typical",
    severity: Severity::Note,
    title: "Hose OD only typical",
    what: "Whether the outside diameter (OD) in force is a typical figure, neither published nor \
           measured.",
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
        message: format!("OD {} only typical, not measured", run.figures().length(hose.outside_mm)),
        hint:
            "Measure the OD over the braid, and enter it. Take bend radius and pressure from the \
               manufacturer too"
                .to_owned(),
        source: format!("OD: {}; {}", hose.outside_source, RULE.source),
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
        let found_typical = found(None);
        assert_eq!(found_typical[0].message, "OD 12 mm only typical, not measured");
        assert!(found_typical[0].source.starts_with("OD: bore + 4 mm (typical, measure yours)"));
        assert_eq!(found(Some(12.5)), []);
        assert_eq!(check(&Fixture::z().context()), []);
    }
}
