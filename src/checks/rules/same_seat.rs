//! `same-seat`: both ends on one seat.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::model::{Mark, Side, Source};
use crate::units::EPS_MM;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "same-seat",
    severity: Severity::Fail,
    title: "Both ends on one seat",
    what: "The distance between the seats of the two ends: two nuts do not go on one seat.",
    source: Source::fixed(Mark::Calculated, "geometry of the drawn route"),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let apart_mm = run.solved.from.frame.seat.distance(run.solved.to.frame.seat);
    if apart_mm > EPS_MM {
        return Vec::new();
    }
    vec![Finding {
        other: Some(run.run.to.port.clone()),
        value: Some(apart_mm),
        unit: Unit::Mm,
        message: "Ends A and B are on the same seat".to_owned(),
        hint: "Connect one end to another port, or move one of the two ports".to_owned(),
        ..run.finding_at_end(&RULE, Side::A)
    }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn one_port_twice_or_two_in_one_place() {
        let twice = Fixture::edited(|bay| run(bay).to.port = "a".to_owned());
        let together = Fixture::edited(|bay| bay.ports[1].at = bay.ports[0].at);
        for fixture in [twice, together] {
            assert_eq!(check(&fixture.context()).len(), 1);
        }
        assert_eq!(check(&Fixture::z().context()), []);
    }
}
