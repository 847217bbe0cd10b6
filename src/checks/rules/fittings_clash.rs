//! `fittings-clash`: end fittings that foul each other or obstacles.

use crate::checks::context::blank;
use crate::checks::figures::Figures;
use crate::checks::words::first_upper;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::RoutingSolution;
use crate::engine::fittings::{Against, Clash, EndAt, Part};
use crate::model::catalogue::nut_hex;
use crate::model::{Bay, Routing, Side};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "fittings-clash",
    severity: Severity::Fail,
    title: "End fittings foul something",
    what: "Each end fitting as drawn, as cylinders: the nut across corners (by its size's table, \
           or nut_hex of its stock) and as long as it is wide across flats (typical); the tube \
           from the seat along the port and on to the cut end, as thick as its dash size; the \
           socket as thick as the hose, or as the nut across flats (typical) where that is more. \
           It fouls another end, of this hose or another, or an obstacle; what its own port is \
           on does not count for nut and tube. A fault where it fouls with figures that are not \
           typical too, else a warning. The finding is on the first of two hoses. Moving groups \
           are where they are drawn. The value is the depth, as a negative gap.",
    source: nut_hex::AN818,
};

/// Each with the place of its run.
pub(in crate::checks) fn check(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
) -> Vec<(usize, Finding)> {
    let to_finding = |clash: &Clash| Some((clash.end.run, finding(bay, routing, solution, clash)?));
    solution.fittings.clashes.iter().filter_map(to_finding).collect()
}

fn finding(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    clash: &Clash,
) -> Option<Finding> {
    let figures = Figures { unit: bay.show_units };
    let depth = figures.depth(clash.depth_mm);
    let away = figures.length_up(clash.depth_mm);
    let (what, other) = in_the_way(bay, routing, clash.end, clash.against)?;
    let doubt = if clash.is_sure { "" } else { " (typical sizes)" };
    let hint = match clash.against {
        Against::Fitting(..) => format!(
            "Turn one of the two ends to another clock angle, or move the ports {away} apart. Measure your fittings"
        ),
        Against::Obstacle(_) => format!(
            "Turn the end to another clock angle, or move the port {away} away. Measure your fitting"
        ),
    };
    Some(Finding {
        severity: if clash.is_sure { Severity::Fail } else { Severity::Warn },
        other: Some(other),
        value: Some(-clash.depth_mm),
        limit: Some(0.0),
        unit: Unit::Mm,
        message: format!(
            "{} of end {} fouls {what} by {depth}{doubt}",
            first_upper(part_word(clash.part)),
            clash.end.side.letter(),
        ),
        hint,
        ..at_end(&RULE, routing, solution, clash.end, clash.point)?
    })
}

/// A finding of `rule` at an end, without words.
pub(super) fn at_end(
    rule: &RuleInfo,
    routing: &Routing,
    solution: &RoutingSolution,
    end: EndAt,
    point: glam::DVec3,
) -> Option<Finding> {
    let run = routing.runs.get(end.run)?;
    let at_mm = match end.side {
        Side::A => 0.0,
        Side::B => solution.run(end.run)?.centreline_mm,
    };
    Some(Finding { at_mm: Some(at_mm), point: Some(point), ..blank(rule, Some(run.id.clone())) })
}

/// What is in the way of an end, in words, and its id.
pub(super) fn in_the_way(
    bay: &Bay,
    routing: &Routing,
    end: EndAt,
    against: Against,
) -> Option<(String, String)> {
    match against {
        Against::Obstacle(place) => {
            let obstacle = bay.obstacles.get(place)?;
            Some((obstacle.shown_name().to_owned(), obstacle.id.clone()))
        }
        Against::Fitting(other, part) => {
            let run = routing.runs.get(other.run)?;
            let (part, letter) = (part_word(part), other.side.letter());
            let words = if other.run == end.run {
                format!("the {part} of its own end {letter}")
            } else {
                format!("the {part} of end {letter} of hose {}", run.shown_name())
            };
            Some((words, run.id.clone()))
        }
    }
}

fn part_word(part: Part) -> &'static str {
    match part {
        Part::Nut => "nut",
        Part::Tube => "tube",
        Part::Socket => "socket",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, wall};
    use crate::engine::solve_routing;
    use crate::model::Shape;
    use glam::DVec3;

    /// Two straight runs along X of ports with these ends beside each other at Y 0 and `apart`, both ends A
    /// elbows of 90° of these clock angles.
    fn elbows(apart: f64, clocks: [f64; 2]) -> Vec<(usize, Finding)> {
        let bay = two_elbows(apart, clocks);
        let routing = &bay.routings[0];
        check(&bay, routing, &solve_routing(&bay, routing))
    }

    fn two_elbows(apart: f64, clocks: [f64; 2]) -> Bay {
        let mut bay = Fixture::straight(900.0, |_| {}).bay;
        let mut second = bay.routings[0].runs[0].clone();
        second.id = "t".into();
        second.name = "Return".into();
        second.from.port = "c".into();
        second.to.port = "d".into();
        bay.routings[0].runs.push(second);
        for (of, id) in [(0, "c"), (1, "d")] {
            let mut port = bay.ports[of].clone();
            port.id = id.into();
            port.at += DVec3::Y * apart;
            bay.ports.push(port);
        }
        for (run, clock) in bay.routings[0].runs.iter_mut().zip(clocks) {
            run.from.angle_deg = 90.0;
            run.from.clock_deg = clock;
        }
        bay
    }

    /// Of a port along +X, u is Z and t × u is
    /// −Y: clock 270° turns to +Y, 90° to −Y. Each cut end is 25 across, its socket reaches to 49.
    #[test]
    fn two_elbows_60_mm_apart_that_face_each_other_clash() {
        let found = elbows(60.0, [270.0, 90.0]);
        assert_eq!(found.len(), 1, "{found:?}");
        let (place, finding) = &found[0];
        assert_eq!(
            (*place, finding.severity, finding.other.as_deref()),
            (0, Severity::Fail, Some("t"))
        );
        let words = "Socket of end A fouls the socket of end A of hose Return by 10 mm";
        assert_eq!(finding.message, words);
        // 25 to 49 and 35 to 11: 10 of them is common.
        assert!((finding.value.unwrap() + 10.0).abs() < 1e-3 && finding.limit == Some(0.0));
        // Turned the same way they pass, and far enough apart they meet no more.
        assert_eq!(elbows(60.0, [0.0, 0.0]), []);
        assert_eq!(elbows(100.0, [270.0, 90.0]), []);
    }

    /// Nuts of −6 are 20.15 mm across corners, 17.45 across flats.
    #[test]
    fn nuts_too_near_for_their_corners_clash() {
        assert_eq!(elbows(20.3, [0.0, 0.0]), []);
        let near = elbows(19.0, [0.0, 0.0]);
        assert!(near.iter().any(|(_, f)| f.severity == Severity::Warn), "corners only: {near:?}");
        let deep = elbows(16.0, [0.0, 0.0]);
        assert!(deep.iter().any(|(_, f)| f.severity == Severity::Fail), "{deep:?}");
    }

    #[test]
    fn a_nut_of_the_stock_has_its_own_size() {
        let found = |hex: Option<f64>| {
            let mut bay = two_elbows(25.0, [0.0, 0.0]);
            for size in &mut bay.stock.ends[0].sizes {
                size.nut_hex_mm = hex;
            }
            let routing = &bay.routings[0];
            check(&bay, routing, &solve_routing(&bay, routing)).len()
        };
        assert_eq!(found(None), 0);
        assert!(found(Some(27.0)) > 0);
    }

    #[test]
    fn a_fitting_in_an_obstacle_clashes_and_one_on_its_base_does_not() {
        let found = |min: DVec3, max: DVec3| {
            let mut bay = two_elbows(300.0, [270.0, 270.0]);
            bay.obstacles.push(wall(Shape::Box { min, max }));
            let routing = &bay.routings[0];
            check(&bay, routing, &solve_routing(&bay, routing))
        };
        // The face of the box that the port at the origin stands on.
        let base = found(DVec3::new(-50.0, -50.0, -50.0), DVec3::new(0.0, 80.0, 50.0));
        assert_eq!(base, []);
        let cut = found(DVec3::new(-50.0, 40.0, -50.0), DVec3::new(60.0, 60.0, 50.0));
        assert_eq!((cut.len(), cut[0].1.other.as_deref()), (1, Some("wall")), "{cut:?}");
        assert!(
            cut[0].1.message.starts_with("Socket of end A fouls wall by "),
            "{}",
            cut[0].1.message
        );
    }
}
