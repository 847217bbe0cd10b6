//! What is under a point of the screen.

use glam::DVec2;

use super::super::gesture::Hit;
use super::super::outline::Outline;
use super::super::scene::Scene;
use super::super::thing::Thing;
use super::markers::STEP;
use super::{Area, Marker, ObstacleShape, ViaShape, ViewLayout};

/// What can be hit just now.
#[derive(Debug, Clone, Copy, Default)]
pub struct Open<'a> {
    /// The hose whose corners are shown.
    pub run: Option<&'a str>,
    /// The finding that is looked at: notes, and marks on top of others, are hidden but for this one.
    pub finding: Option<usize>,
}

impl Open<'_> {
    /// Clamps can always be taken hold of; corners only where they are shown, on the selected hose.
    pub fn has_via(&self, via: &ViaShape) -> bool {
        via.is_shown(self.run)
    }
}

/// How near the pointer has to come, screen points.
const VIA_REACH: f64 = 9.0;
pub(super) const PORT_REACH: f64 = 5.0;
const SELECTED_AHEAD: f64 = 3.0;
const MARKER_REACH: f64 = 7.0;
const EDGE_REACH: f64 = 4.0;

impl ViewLayout {
    /// What is under a point of the screen: what is drawn on top comes first, and corners of the
    /// selected hose before all else but findings.
    pub fn hit(&self, scene: &Scene, at: DVec2, open: Open<'_>) -> Option<Hit> {
        self.marker_at(at, open).map(Hit::Finding).or_else(|| self.hit_to_drag(scene, at, open))
    }

    /// The same for a drag: a finding's mark does not count, what is under it does.
    pub fn hit_to_drag(&self, scene: &Scene, at: DVec2, open: Open<'_>) -> Option<Hit> {
        let thing = |thing: Thing| Hit::Thing { thing, along_mm: None };
        self.grip_at(scene, at, open)
            .map(thing)
            .or_else(|| {
                let (hose, mm) = self.hose_at(at)?;
                let thing = Thing::Hose(scene.hoses[hose].run.clone());
                Some(Hit::Thing { thing, along_mm: Some(mm) })
            })
            .or_else(|| self.obstacle_at(scene, at).map(|id| thing(Thing::Obstacle(id))))
    }

    fn marker_at(&self, at: DVec2, open: Open<'_>) -> Option<usize> {
        let is_near = |marker: &&Marker| (marker.at - at).abs().max_element() <= MARKER_REACH;
        let shown = self.markers.iter().filter(|marker| marker.is_shown(open.finding));
        let mark = shown.clone().find(is_near)?;
        // Where one of a neighbourhood is looked at, the next of them is meant.
        let beside: Vec<usize> = self
            .markers
            .iter()
            .filter(|marker| marker.place.distance_squared(mark.place) < STEP * STEP)
            .map(|marker| marker.finding)
            .collect();
        let looked_at = beside.iter().position(|finding| open.finding == Some(*finding));
        let next = looked_at.map_or(0, |place| place + 1);
        beside.get(next % beside.len().max(1)).copied()
    }

    /// The corner, clamp or port whose middle is nearest; those of the selected hose a little before
    /// the others; of several in one place the nearest to the viewer.
    fn grip_at(&self, scene: &Scene, at: DVec2, open: Open<'_>) -> Option<Thing> {
        let of_selected = |via: &ViaShape| open.run.is_some() && via.thing.run() == open.run;
        let via = |via: &ViaShape| {
            let ahead = if of_selected(via) { SELECTED_AHEAD } else { 0.0 };
            (via.at.distance(at) - ahead, -via.depth, via.thing.clone())
        };
        let near = |via: &&ViaShape| open.has_via(via) && via.at.distance(at) <= VIA_REACH;
        let vias = self.vias.iter().filter(near).map(via);
        let ports = self.ports.iter().filter(|p| p.at.distance(at) <= p.radius + PORT_REACH);
        let ports = ports.map(|port| {
            let mark = &scene.ports[port.index];
            (port.at.distance(at), -self.view.depth(mark.at), Thing::Port(mark.id.clone()))
        });
        let nearest = vias.chain(ports).min_by(|a, b| {
            let coarse = |distance: f64| (distance / 2.0).round();
            coarse(a.0).total_cmp(&coarse(b.0)).then(a.1.total_cmp(&b.1))
        });
        nearest.map(|(_, _, thing)| thing)
    }

    /// Of obstacles over one another the smallest: the others can be pointed at beside it.
    fn obstacle_at(&self, scene: &Scene, at: DVec2) -> Option<String> {
        let under = self.obstacles.iter().filter(|obstacle| covers(obstacle, at));
        let smallest = under.min_by(|a, b| extent(a).total_cmp(&extent(b)))?;
        Some(scene.obstacles[smallest.index].id.clone())
    }

    /// The things that are wholly inside a rectangle of the screen.
    pub fn things_in(&self, scene: &Scene, area: Area, open: Open<'_>) -> Vec<Thing> {
        let mut found = Vec::new();
        let ports = self.ports.iter().filter(|port| area.contains(port.at));
        found.extend(ports.map(|port| Thing::Port(scene.ports[port.index].id.clone())));
        let vias = self.vias.iter().filter(|via| open.has_via(via) && area.contains(via.at));
        found.extend(vias.map(|via| via.thing.clone()));
        for (index, hose) in scene.hoses.iter().enumerate() {
            let mut points = self.bands.iter().filter(|b| b.hose == index).flat_map(|b| &b.points);
            if points.all(|point| area.contains(*point)) {
                found.push(Thing::Hose(hose.run.clone()));
            }
        }
        for obstacle in &self.obstacles {
            if points_of(obstacle).all(|point| area.contains(point)) {
                found.push(Thing::Obstacle(scene.obstacles[obstacle.index].id.clone()));
            }
        }
        found
    }
}

fn points_of(obstacle: &ObstacleShape) -> impl Iterator<Item = DVec2> + '_ {
    let (convex, loops) = match &obstacle.outline {
        Outline::Convex(points) => (points.as_slice(), [].as_slice()),
        Outline::Shadow(shadow) => ([].as_slice(), shadow.loops.as_slice()),
    };
    convex.iter().copied().chain(loops.iter().flatten().copied())
}

fn extent(obstacle: &ObstacleShape) -> f64 {
    let (lo, hi) = points_of(obstacle)
        .fold((DVec2::INFINITY, DVec2::NEG_INFINITY), |(lo, hi), point| {
            (lo.min(point), hi.max(point))
        });
    (hi - lo).max(DVec2::ZERO).element_product()
}

fn covers(obstacle: &ObstacleShape, at: DVec2) -> bool {
    match &obstacle.outline {
        Outline::Convex(points) => inside(points, at) || near_edge(points, at),
        Outline::Shadow(shadow) => shadow.contains(at),
    }
}

/// Whether a point is inside a convex outline, whichever way round that goes.
fn inside(points: &[DVec2], at: DVec2) -> bool {
    let (mut left, mut right) = (false, false);
    for (i, a) in points.iter().enumerate() {
        let side = (points[(i + 1) % points.len()] - *a).perp_dot(at - *a);
        left |= side > 0.0;
        right |= side < 0.0;
    }
    points.len() > 2 && !(left && right)
}

/// A thin obstacle is hard to point at: a few points beside it count.
fn near_edge(points: &[DVec2], at: DVec2) -> bool {
    (0..points.len()).any(|i| {
        let (a, b) = (points[i], points[(i + 1) % points.len()]);
        let along = ((at - a).dot(b - a) / (b - a).length_squared().max(1e-12)).clamp(0.0, 1.0);
        (a + along * (b - a)).distance(at) <= EDGE_REACH
    })
}
