//! `spanner-room`: a spanner goes on the nut of every end.

use super::fittings_clash::{at_end, in_the_way};
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::RoutingSolution;
use crate::engine::fittings::TightNut;
use crate::model::catalogue::nut_hex;
use crate::model::{Bay, Routing};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "spanner-room",
    severity: Severity::Warn,
    title: "No room for a spanner",
    what: "Room about the axis of each swivel nut for the head of an open-end spanner, all \
           round, at the place on the nut with most room: the head reaches 1.1 times the nut's \
           width across flats from the axis, and is 3 mm and 0.19 times that width thick (both \
           typical, from memory). Obstacles count, but not the one that the port is on, and so \
           do the fittings of other ends; hoses do not, for they give way. Not checked: the \
           handle, which needs a swing of 30° with the spanner turned over (60° without), and \
           the second spanner that holds the fitting. A nut that fouls something is \
           `fittings-clash`. The value is the room from the axis.",
    source: nut_hex::SPANNER,
};

/// Each with the place of its run.
pub(in crate::checks) fn check(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
) -> Vec<(usize, Finding)> {
    let to_finding =
        |tight: &TightNut| Some((tight.end.run, finding(bay, routing, solution, tight)?));
    solution.fittings.tight.iter().filter_map(to_finding).collect()
}

fn finding(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    tight: &TightNut,
) -> Option<Finding> {
    let figures = Figures { unit: bay.show_units };
    let (what, other) = in_the_way(bay, routing, tight.end, tight.against)?;
    let (room, needed) = figures.lengths(tight.room_mm, tight.needed_mm);
    let flats = figures.length(tight.flats_mm);
    let more = figures.length_up(tight.needed_mm - tight.room_mm);
    Some(Finding {
        other: Some(other),
        value: Some(tight.room_mm),
        limit: Some(tight.needed_mm),
        unit: Unit::Mm,
        message: format!(
            "Spanner on the nut of end {} ({flats} across flats): {room} from the nut's centre to {what}, minimum {needed}",
            tight.end.side.letter(),
        ),
        hint: format!(
            "Move the port {more} away from {what}, or tighten this nut before that is fitted"
        ),
        ..at_end(&RULE, routing, solution, tight.end, tight.point)?
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, wall};
    use crate::engine::solve_routing;
    use crate::model::Shape;
    use glam::DVec3;

    /// A wall beside the nut of end A, its face so far from the axis, from X on.
    fn beside(face: f64, from_x: f64, on: Option<&str>) -> Vec<(usize, Finding)> {
        let bay = Fixture::straight(600.0, |bay| {
            let shape = Shape::Box {
                min: DVec3::new(from_x, face, -100.0),
                max: DVec3::new(100.0, face + 20.0, 100.0),
            };
            bay.obstacles.push(wall(shape));
            bay.ports[0].on = on.map(str::to_owned);
        })
        .bay;
        let routing = &bay.routings[0];
        check(&bay, routing, &solve_routing(&bay, routing))
    }

    /// A nut of −6, 17.45 mm across flats, 10.07 to its corners, wants 19.19 mm.
    #[test]
    fn a_nut_beside_a_wall_has_no_room_for_a_spanner() {
        assert_eq!(beside(19.5, -50.0, None), []);
        let found = beside(15.0, -50.0, None);
        assert_eq!((found.len(), found[0].0, found[0].1.severity), (1, 0, Severity::Warn));
        let finding = &found[0].1;
        assert!((finding.value.unwrap() - 15.0).abs() < 0.02, "{finding:?}");
        assert!((finding.limit.unwrap() - 19.19).abs() < 0.01, "{finding:?}");
        assert!(
            finding.message.starts_with(
                "Spanner on the nut of end A (17.4 mm across flats): 15 mm from the nut's centre to wall, minimum 19.2 mm"
            ),
            "{}",
            finding.message
        );
        assert_eq!(finding.other.as_deref(), Some("wall"));
    }

    /// The head may sit at either end of the nut, which is 17.45 mm long: a wall that begins at 8 leaves room for
    /// 6.3 mm of it. What the port is on does not count.
    #[test]
    fn a_spanner_finds_the_free_end_of_the_nut() {
        assert_eq!(beside(15.0, 8.0, None), []);
        assert_eq!(beside(15.0, 5.0, None).len(), 1);
        assert_eq!(beside(15.0, -50.0, Some("wall")), []);
    }
}
