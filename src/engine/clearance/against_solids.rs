//! One hose against all solids.

use glam::DVec3;
use parry3d_f64::partitioning::{BvhNode, TraversalAction};

use super::{ClearanceIndex, Tube};
use crate::geom::{Bounds, Chain, Link, Near, ReachFrom};
use crate::units::EPS_MM;

/// Where a hose comes nearest to a solid, of the places that count.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SolidNear {
    /// The solid, by its place in the bay.
    pub solid: usize,
    /// Surface to surface; negative where they cut into each other.
    pub gap_mm: f64,
    /// The gap to keep.
    pub keep_off_mm: f64,
    /// Distance along the hose from `E_A`.
    pub at_mm: f64,
    /// The place on the hose's axis.
    pub on_axis: DVec3,
    /// The place on the solid's surface.
    pub on_solid: DVec3,
}

impl SolidNear {
    /// What is left of the gap beyond the keep-off; negative where it is not kept.
    pub fn spare_mm(&self) -> f64 {
        self.gap_mm - self.keep_off_mm
    }
}

/// One hose against all solids.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TubeClearance {
    /// The tightest against its keep-off: the least left beyond it. None without solids.
    pub tightest: Option<SolidNear>,
    /// Every solid whose keep-off is not kept, at its worst place; in the order of the bay.
    pub too_near: Vec<SolidNear>,
}

impl ClearanceIndex {
    /// A hose against all solids. Certified to 1e-5 mm.
    pub fn tube(&self, tube: &Tube<'_>) -> TubeClearance {
        let mut found: Vec<SolidNear> = Vec::new();
        let mut tightest: Option<SolidNear> = None;
        let on = tube.ends.map(|end| end.on);
        for solid in [on[0], on[1].filter(|_| on[0] != on[1])].into_iter().flatten() {
            let Some(near) = self.on_solid(tube, solid) else { continue };
            keep_tighter(&mut tightest, near);
            found.extend((near.spare_mm() < -EPS_MM).then_some(near));
        }
        let others = |solid: usize| !on.contains(&Some(solid));
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
        found.sort_by_key(|near| near.solid);
        TubeClearance { tightest, too_near: found }
    }

    /// Every solid, of those asked for, that the hose is too near to.
    fn too_near(
        &self,
        tube: &Tube<'_>,
        asked: &impl Fn(usize) -> bool,
        found: &mut Vec<SolidNear>,
    ) {
        let first = found.len();
        for link in tube.axis.links() {
            let around = link.bounds();
            self.tree.traverse(|node| {
                if around.are_apart(&bounds(node), tube.radius()) {
                    return TraversalAction::Prune;
                }
                if let Some(solid) = node.leaf_data().map(|place| place as usize)
                    && asked(solid)
                {
                    let known = found[first..].iter_mut().find(|near| near.solid == solid);
                    let enough = tube.radius()
                        + match &known {
                            Some(near) => near.gap_mm,
                            None => self.entries[solid].keep_off_mm - EPS_MM,
                        };
                    if let Some(near) = self.link(tube, &link, solid, enough) {
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

    /// The tightest of the solids asked for, none of which is too near; `None` where none leaves less
    /// than `limit`.
    fn tightest(
        &self,
        tube: &Tube<'_>,
        asked: &impl Fn(usize) -> bool,
        limit: f64,
    ) -> Option<SolidNear> {
        let mut tightest = None;
        let mut limit = limit.min(f64::MAX);
        for link in tube.axis.links() {
            let around = link.bounds();
            let least = |node: &BvhNode, _: f64| around.distance(&bounds(node)) - tube.radius();
            let spare = |solid: u32, best: f64| {
                let solid = solid as usize;
                let enough = tube.radius() + self.entries[solid].keep_off_mm + best;
                let near = asked(solid).then(|| self.link(tube, &link, solid, enough)).flatten()?;
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
        solid: usize,
        enough: f64,
    ) -> Option<SolidNear> {
        let near = link.nearest(&self.entries[solid].placed, enough)?;
        Some(self.told(tube, solid, &near))
    }

    /// The nearest place of a part of a hose to one solid; `None` where the axis comes no nearer
    /// than `enough`.
    fn near(&self, tube: &Tube<'_>, part: &Chain, solid: usize, enough: f64) -> Option<SolidNear> {
        let near = part.nearest(&self.entries[solid].placed, enough)?;
        Some(self.told(tube, solid, &near))
    }

    fn told(&self, tube: &Tube<'_>, solid: usize, near: &Near) -> SolidNear {
        SolidNear {
            solid,
            gap_mm: near.distance - tube.radius(),
            keep_off_mm: self.entries[solid].keep_off_mm,
            at_mm: near.along,
            on_axis: near.on_piece,
            on_solid: near.on_other,
        }
    }

    /// The solid that one end, or both, is screwed into.
    fn on_solid(&self, tube: &Tube<'_>, solid: usize) -> Option<SolidNear> {
        let entry = self.entries.get(solid)?;
        let away = tube.radius() + entry.keep_off_mm;
        let field = |p: DVec3| entry.placed.distance(p);
        let from = |end: usize, from: ReachFrom, seat: f64| {
            if tube.ends[end].on != Some(solid) {
                return seat;
            }
            tube.axis.first_reach(from, away, &field).unwrap_or_else(|| tube.mouth(end))
        };
        let length = tube.axis.end();
        let (first, last) = (from(0, ReachFrom::Start, 0.0), from(1, ReachFrom::End, length));
        let counted = tube.axis.part(first, last.max(first));
        let mut worst = self.near(tube, &counted, solid, f64::MAX);
        for (a, b) in [(0.0, first), (last, length)] {
            let cut = (b > a)
                .then(|| self.near(tube, &tube.axis.part(a, b), solid, tube.radius() - EPS_MM))
                .flatten();
            if let Some(cut) = cut {
                keep_tighter(&mut worst, cut);
            }
        }
        worst
    }
}

fn keep_tighter(tightest: &mut Option<SolidNear>, near: SolidNear) {
    if tightest.is_none_or(|best| near.spare_mm() < best.spare_mm()) {
        *tightest = Some(near);
    }
}

fn bounds(node: &BvhNode) -> Bounds {
    Bounds { min: node.mins(), max: node.maxs() }
}
