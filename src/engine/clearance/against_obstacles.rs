//! One hose against all obstacles.

use glam::DVec3;
use parry3d_f64::partitioning::{BvhNode, TraversalAction};

use super::own_port::{NearOwnPort, keep_tighter, tightest_with};
use super::{ClearanceIndex, Tube};
use crate::geom::{Bounds, Chain, Link, Near};
use crate::units::EPS_MM;

/// Where a hose comes nearest to an obstacle, of the places that count.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NearObstacle {
    /// The obstacle, by its place in the bay.
    pub obstacle: usize,
    /// Surface to surface; negative where they cut into each other.
    pub gap_mm: f64,
    /// The gap to keep.
    pub min_clearance_mm: f64,
    /// Distance along the hose from `E_A`.
    pub at_mm: f64,
    /// The place on the hose's axis.
    pub on_axis: DVec3,
    /// The place on the obstacle's surface.
    pub on_obstacle: DVec3,
}

impl NearObstacle {
    /// What is left of the gap beyond the minimum clearance; negative where it is not kept.
    pub fn spare_mm(&self) -> f64 {
        self.gap_mm - self.min_clearance_mm
    }
}

/// One hose against all obstacles.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TubeClearance {
    /// The tightest against its minimum clearance, of the places that have to keep it: the least left
    /// beyond it. None without obstacles.
    pub tightest: Option<NearObstacle>,
    /// Every obstacle whose minimum clearance is not kept, at its worst place; in the order of the bay.
    pub too_near: Vec<NearObstacle>,
    /// Stretches beside the hot, moving or sharp obstacles that its own ports are on; in the order of the ends.
    pub own_port: Vec<NearOwnPort>,
}

impl TubeClearance {
    /// The tightest of all places, those beside its own ports among them: what is told of the hose.
    pub fn shown(&self) -> Option<NearObstacle> {
        tightest_with(self.tightest, &self.own_port)
    }
}

impl ClearanceIndex {
    /// A hose against all obstacles. Certified to 1e-5 mm.
    pub fn tube(&self, tube: &Tube<'_>) -> TubeClearance {
        let mut found: Vec<NearObstacle> = Vec::new();
        let mut tightest: Option<NearObstacle> = None;
        let mut own_port = Vec::new();
        let on = tube.ends.map(|end| end.on);
        for obstacle in [on[0], on[1].filter(|_| on[0] != on[1])].into_iter().flatten() {
            let Some(near) = self.on_obstacle(tube, obstacle, &mut own_port) else { continue };
            keep_tighter(&mut tightest, near);
            found.extend((near.spare_mm() < -EPS_MM).then_some(near));
        }
        let others = |obstacle: usize| !on.contains(&Some(obstacle));
        self.too_near(tube, &others, &mut found);
        for near in &found {
            keep_tighter(&mut tightest, *near);
        }
        if found.is_empty() {
            let limit = tightest.map_or(f64::INFINITY, |near| near.spare_mm());
            if let Some(near) = self.tightest(tube, &others, limit) {
                keep_tighter(&mut tightest, near);
            }
        }
        found.sort_by_key(|near| near.obstacle);
        TubeClearance { tightest, too_near: found, own_port }
    }

    /// Every obstacle, of those asked for, that the hose is too near to.
    fn too_near(
        &self,
        tube: &Tube<'_>,
        asked: &impl Fn(usize) -> bool,
        found: &mut Vec<NearObstacle>,
    ) {
        let first = found.len();
        for link in tube.axis.links() {
            let around = link.bounds();
            self.tree.traverse(|node| {
                if around.are_apart(&bounds(node), tube.radius()) {
                    return TraversalAction::Prune;
                }
                if let Some(obstacle) = node.leaf_data().map(|place| place as usize)
                    && asked(obstacle)
                {
                    let known = found[first..].iter_mut().find(|near| near.obstacle == obstacle);
                    let enough = tube.radius()
                        + match &known {
                            Some(near) => near.gap_mm,
                            None => self.entries[obstacle].min_clearance_mm - EPS_MM,
                        };
                    if let Some(near) = self.link(tube, &link, obstacle, enough) {
                        match known {
                            Some(known) => *known = near,
                            None => found.push(near),
                        }
                    }
                }
                TraversalAction::Continue
            });
        }
    }

    /// The tightest of the obstacles asked for, none of which is too near; `None` where none leaves less
    /// than `limit`.
    fn tightest(
        &self,
        tube: &Tube<'_>,
        asked: &impl Fn(usize) -> bool,
        limit: f64,
    ) -> Option<NearObstacle> {
        let mut tightest = None;
        let mut limit = limit.min(f64::MAX);
        for link in tube.axis.links() {
            let around = link.bounds();
            let least = |node: &BvhNode, _: f64| around.distance(&bounds(node)) - tube.radius();
            let spare = |obstacle: u32, best: f64| {
                let obstacle = obstacle as usize;
                let enough = tube.radius() + self.entries[obstacle].min_clearance_mm + best;
                let near =
                    asked(obstacle).then(|| self.link(tube, &link, obstacle, enough)).flatten()?;
                Some((near.spare_mm(), near))
            };
            if let Some((_, (spare, near))) = self.tree.find_best(limit, least, spare) {
                limit = spare;
                tightest = Some(near);
            }
        }
        tightest
    }

    fn link(
        &self,
        tube: &Tube<'_>,
        link: &Link<'_>,
        obstacle: usize,
        enough: f64,
    ) -> Option<NearObstacle> {
        let near = link.nearest(&self.entries[obstacle].placed, enough)?;
        Some(self.near_obstacle(tube, obstacle, &near))
    }

    /// The nearest place of a part of a hose to one obstacle; `None` where the axis comes no nearer
    /// than `enough`.
    pub(super) fn near(
        &self,
        tube: &Tube<'_>,
        part: &Chain,
        obstacle: usize,
        enough: f64,
    ) -> Option<NearObstacle> {
        let near = part.nearest(&self.entries[obstacle].placed, enough)?;
        Some(self.near_obstacle(tube, obstacle, &near))
    }

    fn near_obstacle(&self, tube: &Tube<'_>, obstacle: usize, near: &Near) -> NearObstacle {
        NearObstacle {
            obstacle,
            gap_mm: near.distance - tube.radius(),
            min_clearance_mm: self.entries[obstacle].min_clearance_mm,
            at_mm: near.along,
            on_axis: near.on_piece,
            on_obstacle: near.on_other,
        }
    }
}

fn bounds(node: &BvhNode) -> Bounds {
    Bounds { min: node.mins(), max: node.maxs() }
}
