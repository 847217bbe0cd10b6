//! Where solids that ride on bodies are in a pose.

use glam::DVec2;

use super::{Placing, ViewLayout};
use crate::app::canvas::outline::{Cloud, unit_circle};
use crate::app::canvas::scene::Scene;
use crate::geom::{Rigid, hull};

/// The outlines, on the screen, of the solids that move: `share` of the way from where they are drawn
/// to where a pose, given body by body, has them. A mesh has the outline of its hull.
pub fn moved_solids(
    scene: &Scene,
    layout: &ViewLayout,
    bodies: &[Rigid],
    share: f64,
) -> Vec<Vec<DVec2>> {
    let place = Placing { view: layout.view, area: layout.area, camera: layout.camera };
    let moved = |body: usize| bodies.get(body).filter(|rigid| **rigid != Rigid::IDENTITY);
    let solids = scene.solids.iter().filter_map(|solid| Some((solid, moved(solid.body?)?)));
    solids
        .map(|(solid, rigid)| {
            // Hoses go straight from pose to pose, and so do these.
            let there = |p| place.point(p).lerp(place.point(rigid.point(p)), share);
            match solid.cloud() {
                Cloud::Points(points) => hull(points.iter().map(|p| there(*p)).collect()),
                Cloud::Ball { at, radius } => {
                    let (middle, radius) = (there(*at), place.length(*radius));
                    unit_circle().map(|d| middle + radius * d).collect()
                }
            }
        })
        .collect()
}
