//! Right angles on the route: the stretch to a neighbour runs along an axis of the bay, or square or at
//! 45° to the stretch beyond it.

use glam::{DVec2, DVec3};

use super::SnapRequest;
use super::beside::Neighbour;
use super::cause::Cause;
use super::offer::{Key, Kind, Offers, Toward};
use super::plane::{Line, Plane, third_axis};
use super::tangent::{neighbour, neighbours, stretch};

/// So much of the stretch beyond is shown, points.
const SHOWN: f64 = 40.0;

pub(super) fn offer(request: &SnapRequest<'_>, offers: &mut Offers<'_>) {
    let plane = request.plane();
    for (side, neighbour) in neighbours(request) {
        let (at, toward) = (neighbour.at, neighbour.toward);
        if let Some(line) = plane.square(at, toward) {
            offers.line(Kind::Square, Key::Square(side), line, true);
        }
        // Elsewhere the two would be aligned without the stretch running along an axis.
        if plane.holds(at) {
            for axis in 0..2 {
                let line = Line::of_equal(axis, plane.flat(at)[axis]);
                offers.line(Kind::Square, Key::AlongAxis(side, axis), line, true);
            }
        }
        if installed_in(plane, neighbour) {
            for (left, turn) in diagonals(plane, toward) {
                let line = Line::new(plane.flat(at), turn).beginning_at_its_start();
                offers.line(Kind::Square, Key::Diagonal(side, left), line, true);
            }
        }
    }
}

/// Only there is 45° on the drawing 45° in the bay.
fn installed_in(plane: Plane, neighbour: &Neighbour) -> bool {
    plane.holds(neighbour.at) && neighbour.toward[third_axis(plane.view)].abs() <= 1e-9
}

fn diagonals(plane: Plane, toward: DVec3) -> [(bool, DVec2); 2] {
    let seen = plane.flat(toward);
    [(true, seen + seen.perp()), (false, seen - seen.perp())]
}

pub(super) fn cause(request: &SnapRequest<'_>, key: Key, at: DVec2) -> Option<Cause> {
    let (Key::Square(side) | Key::Diagonal(side, _) | Key::AlongAxis(side, _)) = key else {
        return None;
    };
    let neighbour = neighbour(request, side)?;
    let place = request.plane().point(at);
    let to = [neighbour.at, place];
    let beyond = [neighbour.at - neighbour.toward * request.mm(SHOWN), neighbour.at];
    let (words, guides) = match key {
        Key::AlongAxis(_, axis) => {
            let along = ["X", "Y", "Z"][request.view.axes()[1 - axis]];
            (format!("along {along} from {}", own_name(neighbour, side)), vec![to])
        }
        Key::Diagonal(..) => (format!("45° to {}", stretch(neighbour, side)), vec![beyond, to]),
        _ => (format!("square to {}", stretch(neighbour, side)), vec![beyond, to]),
    };
    Some(Cause { kind: Kind::Square, words, guides, target: None, key })
}

fn own_name(neighbour: &Neighbour, side: Toward) -> String {
    if neighbour.name.is_empty() { stretch(neighbour, side) } else { neighbour.name.clone() }
}
