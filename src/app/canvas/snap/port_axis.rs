//! The axis of a port: on it, ahead of the seat, or square to it at the seat.

use glam::DVec2;

use super::SnapRequest;
use super::cause::Cause;
use super::offer::{Key, Kind, Offers};
use super::plane::Plane;
use crate::app::canvas::scene::PortMark;
use crate::app::canvas::thing::Thing;
use crate::app::words;

pub(super) fn offer(request: &SnapRequest<'_>, offers: &mut Offers<'_>) {
    let plane = request.plane();
    for (port, mark) in request.scene.ports.iter().enumerate() {
        if super::align::is_moving_port(request, mark) {
            continue;
        }
        let meeting = plane.ray(mark.at, mark.toward);
        if let Some((line, real)) = meeting.line {
            offers.line(Kind::PortAxis, Key::PortAxis { port, real }, line, real);
        }
        if let Some(point) = meeting.point {
            offers.point(Kind::PortAxis, Key::PortAxis { port, real: true }, point);
        }
        // Square to an axis of the bay is the same coordinate: alignment says that.
        if !is_along_an_axis(plane, mark)
            && let Some(line) = plane.square(mark.at, mark.toward)
        {
            offers.line(Kind::PortAxis, Key::PortSeat(port), line, true);
        }
    }
}

fn is_along_an_axis(plane: Plane, mark: &PortMark) -> bool {
    let seen = plane.flat(mark.toward).abs();
    seen.min_element() < 1e-9 && plane.holds(mark.at)
        || mark.toward.abs().max_element() > 1.0 - 1e-12
}

pub(super) fn cause(request: &SnapRequest<'_>, key: Key, at: DVec2) -> Option<Cause> {
    let (port, words) = match key {
        Key::PortAxis { port, real: true } => (port, "along the axis of"),
        Key::PortAxis { port, real: false } => (port, "seen along the axis of"),
        Key::PortSeat(port) => (port, "square to the seat of"),
        _ => return None,
    };
    let mark = request.scene.ports.get(port)?;
    Some(Cause {
        kind: Kind::PortAxis,
        words: format!("{words} {}", words::short(&mark.name)),
        guides: vec![[mark.at, request.plane().point(at)]],
        target: Some(Thing::Port(mark.id.clone())),
        key,
    })
}
