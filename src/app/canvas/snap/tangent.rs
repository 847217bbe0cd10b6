//! The route runs straight on: the corner lies on the prolongation of the stretch, the end's axis or the
//! clamp beside it; a clamp has its neighbour on its own axis.

use glam::DVec2;

use super::SnapRequest;
use super::beside::{Neighbour, NeighbourKind};
use super::cause::Cause;
use super::offer::{Key, Kind, Offers, Toward};
use super::plane::Line;

/// The neighbours there are, with their sides.
pub(super) fn neighbours<'a>(
    request: &SnapRequest<'a>,
) -> impl Iterator<Item = (Toward, &'a Neighbour)> + use<'a> {
    let route = request.route;
    let before = route.and_then(|route| Some((Toward::Before, route.before.as_ref()?)));
    let after = route.and_then(|route| Some((Toward::After, route.after.as_ref()?)));
    before.into_iter().chain(after)
}

/// The neighbour on one side.
pub(super) fn neighbour<'a>(request: &SnapRequest<'a>, side: Toward) -> Option<&'a Neighbour> {
    neighbours(request).find(|(of, _)| *of == side).map(|(_, neighbour)| neighbour)
}

/// The stretch beyond a neighbour, in words.
pub(super) fn stretch(neighbour: &Neighbour, side: Toward) -> String {
    match (neighbour.kind, side) {
        (NeighbourKind::End | NeighbourKind::Clamp, _) => neighbour.name.clone(),
        (NeighbourKind::Corner, Toward::Before) => "the stretch before".to_owned(),
        (NeighbourKind::Corner, Toward::After) => "the stretch after".to_owned(),
    }
}

pub(super) fn offer(request: &SnapRequest<'_>, offers: &mut Offers<'_>) {
    let plane = request.plane();
    for (side, neighbour) in neighbours(request) {
        let meeting = plane.ray(neighbour.at, neighbour.toward);
        if let Some((line, real)) = meeting.line {
            offers.line(Kind::Tangent, Key::Tangent { side, real }, line, real);
        }
        if let Some(point) = meeting.point {
            offers.point(Kind::Tangent, Key::Tangent { side, real: true }, point);
        }
        if let Some(axis) = request.route.and_then(|route| route.own_axis) {
            // The clamp may stand on either hand: the whole line, not half of it.
            let forward = plane.ray(neighbour.at, axis);
            if let Some((line, real)) = forward.line {
                let line = Line { is_ray: false, ..line };
                offers.line(Kind::Tangent, Key::OwnAxis { side, real }, line, real);
            }
            if let Some(point) = forward.point.or(plane.ray(neighbour.at, -axis).point) {
                offers.point(Kind::Tangent, Key::OwnAxis { side, real: true }, point);
            }
        }
    }
}

pub(super) fn cause(request: &SnapRequest<'_>, key: Key, at: DVec2) -> Option<Cause> {
    let (Key::Tangent { side, real } | Key::OwnAxis { side, real }) = key else { return None };
    let neighbour = neighbour(request, side)?;
    let words = match key {
        Key::Tangent { .. } => format!("straight on from {}", stretch(neighbour, side)),
        _ => format!("its axis through {}", neighbour.name),
    };
    Some(Cause {
        kind: Kind::Tangent,
        words: if real { words } else { format!("{words}, as seen here") },
        guides: vec![[neighbour.at, request.plane().point(at)]],
        target: None,
        key,
    })
}
