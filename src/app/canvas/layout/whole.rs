//! Names of ports written out in full where there is room: shortened ones are placed first, so that a
//! long name never takes the place of another one.

use glam::{DVec2, dvec2};

use super::super::camera::Area;
use super::super::scene::Scene;
use super::label::MARGIN;
use super::names::{Label, Named};
use super::room::{Room, within};

/// A whole name covers hoses by no more than this share of its area.
const OVER_HOSES: f64 = 0.08;

/// Writes shortened names of ports out where the room beside them is free.
pub(super) fn write_out(
    labels: &mut [Label],
    room: &mut Room,
    scene: &Scene,
    measure: &dyn Fn(&str) -> DVec2,
) {
    let leaders: Vec<_> = labels.iter().filter_map(|label| label.leader).collect();
    // A name at the end of a line stays as short as that place was searched for.
    for label in labels.iter_mut().filter(|label| label.leader.is_none()) {
        let Named::Port(index) = label.of else { continue };
        let Some(port) = scene.ports.get(index) else { continue };
        if port.whole_label == label.text {
            continue;
        }
        let area = longer(label.of, label.area, measure(&port.whole_label), room);
        let is_crossed = |area: &Area| leaders.iter().any(|ends| within(*area, *ends).is_some());
        if let Some(area) = area.filter(|area| !is_crossed(area)) {
            room.take(area);
            label.area = area;
            label.text.clone_from(&port.whole_label);
        }
    }
}

/// The place of a longer text that stands where a shorter one did: to the right, to the left or to
/// both sides of it.
fn longer(of: Named, short: Area, size: DVec2, room: &Room) -> Option<Area> {
    let mark = room.mark_of(of)?;
    let more = size.x - short.size().x;
    let places = [0.0, more, more / 2.0].map(|left| {
        let min = short.min - dvec2(left, 0.0);
        Area { min, max: min + size }
    });
    let is_free = |area: &Area| {
        room.is_free_but_for(*area, Some(short))
            && room.hose_share(*area) <= OVER_HOSES
            && !room.has_other_within(*area, of, mark.gap(*area) + MARGIN)
    };
    places.into_iter().find(is_free)
}
