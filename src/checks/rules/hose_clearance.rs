//! `hose-clearance`: hoses stay clear of each other.

use crate::checks::context::blank;
use crate::checks::figures::Figures;
use crate::checks::words::{self, Shape};
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::clearance::{HosePair, RoutingClearance};
use crate::model::{Bay, Mark, Nature, Routing, Run, Source};
use crate::units::EPS_MM;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "hose-clearance",
    severity: Severity::Fail,
    title: "Hoses too close to each other, as drawn",
    what: "The gap between two hoses as drawn, surface to surface, against the routing's hose \
           clearance (6 mm where it gives none), at its worst place: a warning below it, a fault \
           where they touch or foul each other. Where both end on one port or on neighbouring \
           ports, the last stretch of each is not checked against the other's until it has once \
           had that gap. The finding is on the first of the two in the routing.",
    source: Source::fixed(Mark::Practice, "hoses do not touch among themselves"),
};

/// One finding for each pair, with the place of the first hose in the routing.
pub(in crate::checks) fn check(
    bay: &Bay,
    routing: &Routing,
    clearance: &RoutingClearance,
) -> Vec<(usize, Finding)> {
    let figures = Figures { unit: bay.show_units };
    clearance
        .pairs
        .iter()
        .filter_map(|pair| {
            let [one, two] = pair.hoses.map(|place| routing.runs.get(place));
            Some((pair.hoses[0], finding(figures, one?, two?, pair, clearance.hose_clearance_mm)))
        })
        .collect()
}

fn finding(figures: Figures, one: &Run, two: &Run, pair: &HosePair, limit_mm: f64) -> Finding {
    let message = format!(
        "{}; {} along that hose",
        sentence(figures, Shape::Drawn, two, pair, limit_mm),
        figures.length(pair.at_mm[1]),
    );
    Finding { message, ..of_pair(figures, &RULE, [one, two], pair, limit_mm) }
}

fn they_touch(pair: &HosePair) -> bool {
    pair.gap_mm <= EPS_MM
}

/// The clearance of a hose to another, in words.
pub(super) fn sentence(
    figures: Figures,
    shape: Shape<'_>,
    other: &Run,
    pair: &HosePair,
    limit_mm: f64,
) -> String {
    let other = format!("hose {}", other.shown_name());
    if they_touch(pair) && pair.gap_mm >= -EPS_MM {
        let (_, limit) = figures.lengths(0.0, limit_mm);
        return shape
            .sentence(&format!("Touches {other}"), &format!(", minimum clearance {limit}"));
    }
    words::clearance(figures, shape, &other, (pair.gap_mm, limit_mm), Nature::Plain)
}

/// A finding of `rule` on two hoses too close to each other, without its message.
pub(super) fn of_pair(
    figures: Figures,
    rule: &RuleInfo,
    [one, two]: [&Run; 2],
    pair: &HosePair,
    limit_mm: f64,
) -> Finding {
    Finding {
        severity: if they_touch(pair) { Severity::Fail } else { Severity::Warn },
        other: Some(two.id.clone()),
        at_mm: Some(pair.at_mm[0]),
        point: Some(pair.on_axes[0]),
        value: Some(pair.gap_mm),
        limit: Some(limit_mm),
        unit: Unit::Mm,
        hint: format!(
            "Clamp the two side by side with {} between them, or move one",
            figures.length_up(limit_mm)
        ),
        ..blank(rule, Some(one.id.clone()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::Fixture;
    use crate::engine::solve_routing;
    use glam::DVec3;

    /// Two straight hoses of 12 mm along X, their axes `apart`.
    fn found(apart: f64, gap_mm: Option<f64>) -> Vec<(usize, Finding)> {
        let mut bay = Fixture::straight(600.0, |_| {}).bay;
        let mut second = bay.routings[0].runs[0].clone();
        second.id = "t".into();
        second.name = "Return".into();
        second.from.port = "c".into();
        second.to.port = "d".into();
        bay.routings[0].runs.push(second);
        bay.routings[0].hose_clearance_mm = gap_mm;
        for (of, id) in [(0, "c"), (1, "d")] {
            let mut port = bay.ports[of].clone();
            port.id = id.into();
            port.at += DVec3::new(if of == 0 { -50.0 } else { 50.0 }, apart, 0.0);
            bay.ports.push(port);
        }
        let routing = &bay.routings[0];
        check(&bay, routing, &solve_routing(&bay, routing).clearance)
    }

    #[test]
    fn a_gap_below_the_minimum_is_a_warning_and_touching_a_fault() {
        assert_eq!(found(18.0, None), []);
        let near = found(17.0, None);
        assert_eq!((near.len(), near[0].0, near[0].1.severity), (1, 0, Severity::Warn));
        assert!((near[0].1.value.unwrap() - 5.0).abs() < 1e-9);
        assert_eq!((near[0].1.limit, near[0].1.other.as_deref()), (Some(6.0), Some("t")));
        assert!(
            near[0].1.message.starts_with("Clearance to hose Return 5 mm as drawn, minimum 6 mm; "),
            "{}",
            near[0].1.message
        );
        let touching = &found(12.0, None)[0].1;
        assert_eq!(touching.severity, Severity::Fail);
        assert!(touching.message.starts_with("Touches hose Return as drawn"), "{touching:?}");
        assert!(found(10.0, None)[0].1.message.starts_with("Fouls hose Return by 2 mm as drawn"));
    }

    #[test]
    fn the_routing_may_ask_for_another_gap() {
        assert_eq!(found(17.0, Some(4.0)), []);
        assert_eq!(found(40.0, Some(30.0))[0].1.limit, Some(30.0));
    }
}
