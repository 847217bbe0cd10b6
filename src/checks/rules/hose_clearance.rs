//! `hose-clearance`: hoses keep off each other.

use crate::checks::context::blank;
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::clearance::{HosePair, RoutingClearance};
use crate::model::{Bay, Mark, Routing, Run, Source};
use crate::units::EPS_MM;

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "hose-clearance",
    severity: Severity::Fail,
    title: "Hoses too near each other",
    what: "The gap between two hoses as drawn, surface to surface, against the routing's hose clearance (6 mm \
           where it gives none), at its worst place: a warning where it is not kept, a failure where \
           they touch or cut into each other. Where both end on one port or on neighbouring ports, the \
           last stretch of each, until it has once got the gap away from the other, is not held \
           against the other's. The finding stands with the first of the two in the routing.",
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
    let (gap, limit) = figures.lengths(pair.gap_mm, limit_mm);
    let other = two.shown_name();
    let there = figures.length(pair.at_mm[1]);
    let message = if pair.gap_mm < -EPS_MM {
        let depth = figures.length(-pair.gap_mm);
        format!("The hose as drawn cuts {depth} into hose {other}, {there} along that one")
    } else if they_touch(pair) {
        format!("The hose as drawn touches hose {other}, {there} along that one")
    } else {
        format!(
            "The hose as drawn passes {gap} from hose {other}, {there} along that one; {limit} is \
             to be kept"
        )
    };
    let hint =
        "Move a corner of one of the two, or clamp them side by side with the gap between them";
    Finding { message, hint: hint.to_owned(), ..of_pair(&RULE, [one, two], pair, limit_mm) }
}

fn they_touch(pair: &HosePair) -> bool {
    pair.gap_mm <= EPS_MM
}

/// How near two hoses that are held somewhere lie, as `against` or `5 mm from`, and the gap to keep.
pub(super) fn how_near(figures: Figures, pair: &HosePair, limit_mm: f64) -> (String, String) {
    let (gap, limit) = figures.lengths(pair.gap_mm, limit_mm);
    (if they_touch(pair) { "against".to_owned() } else { format!("{gap} from") }, limit)
}

/// A finding of `rule` on two hoses too near each other, yet without words.
pub(super) fn of_pair(
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
        hint: "Clamp the two side by side with the gap between them, or move one".to_owned(),
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
    fn the_gap_is_kept_or_warned_of_and_touching_fails() {
        assert_eq!(found(18.0, None), []);
        let near = found(17.0, None);
        assert_eq!((near.len(), near[0].0, near[0].1.severity), (1, 0, Severity::Warn));
        assert!((near[0].1.value.unwrap() - 5.0).abs() < 1e-9);
        assert_eq!((near[0].1.limit, near[0].1.other.as_deref()), (Some(6.0), Some("t")));
        assert!(near[0].1.message.contains("5 mm from hose Return"), "{}", near[0].1.message);
        assert_eq!(found(12.0, None)[0].1.severity, Severity::Fail);
        assert!(found(10.0, None)[0].1.message.contains("cuts 2 mm into"));
    }

    #[test]
    fn the_routing_may_ask_for_another_gap() {
        assert_eq!(found(17.0, Some(4.0)), []);
        assert_eq!(found(40.0, Some(30.0))[0].1.limit, Some(30.0));
    }
}
