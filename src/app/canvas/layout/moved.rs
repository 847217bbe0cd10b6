//! Where obstacles that ride on groups are in a position.

use glam::DVec2;

use super::{Placing, ViewLayout};
use crate::app::canvas::outline::{Cloud, unit_circle};
use crate::app::canvas::scene::Scene;
use crate::geom::{Rigid, hull};

/// The outlines, on the screen, of the obstacles that move: `share` of the way from where they are drawn
/// to where a position, given group by group, has them. A mesh has the outline of its hull.
pub fn moved_obstacles(
    scene: &Scene,
    layout: &ViewLayout,
    groups: &[Rigid],
    share: f64,
) -> Vec<Vec<DVec2>> {
    let place = Placing { view: layout.view, area: layout.area, camera: layout.camera };
    let moved = |group: usize| groups.get(group).filter(|rigid| **rigid != Rigid::IDENTITY);
    let obstacles =
        scene.obstacles.iter().filter_map(|obstacle| Some((obstacle, moved(obstacle.group?)?)));
    obstacles
        .map(|(obstacle, rigid)| {
            // Hoses go straight from position to position, and so do these.
            let there = |p| place.point(p).lerp(place.point(rigid.point(p)), share);
            match obstacle.cloud() {
                Cloud::Points(points) => hull(points.iter().map(|p| there(*p)).collect()),
                Cloud::Ball { at, radius } => {
                    let (middle, radius) = (there(*at), place.length(*radius));
                    unit_circle().map(|d| middle + radius * d).collect()
                }
            }
        })
        .collect()
}
