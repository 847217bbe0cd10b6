//! The name of what is under the pointer.

use glam::{DVec2, dvec2};

use super::super::camera::Area;
use super::super::outline::Outline;
use super::super::scene::Scene;
use super::hit::PORT_REACH;
use super::names::{Label, Named};
use super::{PortShape, ViewLayout};

/// The name of the port, hose or obstacle under the pointer, where it is not written on the drawing
/// already.
pub fn pointed(
    scene: &Scene,
    layout: &ViewLayout,
    pointer: DVec2,
    measure: &dyn Fn(&str) -> DVec2,
) -> Option<Label> {
    if !layout.area.contains(pointer) {
        return None;
    }
    let (name, label) = under(scene, layout, pointer)?;
    if layout.labels.iter().any(|known| known.text == label || known.text == name) {
        return None;
    }
    let size = measure(label);
    let middle = pointer + dvec2(0.0, -size.y - 6.0);
    let limit = layout.area.grown(-4.0);
    let (lo, hi) = (limit.min, (limit.max - size).max(limit.min));
    let min = (middle - size / 2.0).clamp(lo, hi);
    let area = Area { min, max: min + size };
    let (text, of) = (label.to_owned(), Named::Pointed);
    Some(Label { text, area, quiet: false, on_paper: true, leader: None, of })
}

/// Name and label of what lies on top here.
fn under<'a>(scene: &'a Scene, layout: &ViewLayout, pointer: DVec2) -> Option<(&'a str, &'a str)> {
    let is_on = |port: &&PortShape| port.at.distance(pointer) <= port.radius + PORT_REACH;
    if let Some(port) = layout.ports.iter().find(is_on) {
        let mark = &scene.ports[port.index];
        return Some((&mark.name, &mark.label));
    }
    if let Some((hose, _)) = layout.hose_at(pointer) {
        let name = &scene.hoses[hose].name;
        return Some((name, name));
    }
    let obstacle = layout.obstacles.iter().rev().find(|obstacle| obstacle.contains(pointer))?;
    let mark = &scene.obstacles[obstacle.index];
    Some((&mark.name, &mark.label))
}

impl Outline {
    fn points(&self) -> Box<dyn Iterator<Item = DVec2> + '_> {
        match self {
            Self::Convex(points) => Box::new(points.iter().copied()),
            Self::Shadow(shadow) => Box::new(shadow.loops.iter().flatten().copied()),
        }
    }

    /// Least and greatest coordinates; none where nothing is.
    pub(in crate::app::canvas) fn extent(&self) -> Option<(DVec2, DVec2)> {
        let mut points = self.points();
        let first = points.next()?;
        Some(points.fold((first, first), |(lo, hi), p| (lo.min(p), hi.max(p))))
    }

    /// Whether a point is on the obstacle.
    pub(super) fn contains(&self, at: DVec2) -> bool {
        match self {
            Self::Convex(points) => is_in_convex(points, at),
            Self::Shadow(shadow) => shadow.contains(at),
        }
    }
}

/// Whether a point lies in a convex polygon, whichever way round it goes.
fn is_in_convex(polygon: &[DVec2], at: DVec2) -> bool {
    let next = polygon.iter().cycle().skip(1);
    let sides = polygon.iter().zip(next).map(|(a, b)| (*b - *a).perp_dot(at - *a));
    let (lo, hi) = sides.fold((0.0_f64, 0.0_f64), |(lo, hi), side| (lo.min(side), hi.max(side)));
    polygon.len() >= 3 && (lo >= -1e-9 || hi <= 1e-9)
}
