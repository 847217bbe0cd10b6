//! Hoses against each other.

use std::sync::Arc;

use glam::DVec3;
use parry3d_f64::bounding_volume::Aabb;
use parry3d_f64::partitioning::{Bvh, BvhBuildStrategy};

use super::Tube;
use super::obstacles::aabb;
use crate::geom::{Chain, ChainNear, ReachFrom};
use crate::memo::Memo;
use crate::units::EPS_MM;

/// Two hoses that are nearer to each other than the gap, at the nearest of the places that count.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HosePair {
    /// The two, by their places among the hoses; the first comes first.
    pub hoses: [usize; 2],
    /// Surface to surface; negative where they cut into each other.
    pub gap_mm: f64,
    /// Distance along each from its `E_A`.
    pub at_mm: [f64; 2],
    /// The places on the axes.
    pub on_axes: [DVec3; 2],
}

/// Every pair of hoses nearer to each other than `gap_mm`, in order. Certified to 3e-3 mm.
pub fn hose_pairs(tubes: &[Option<Tube<'_>>], gap_mm: f64) -> Vec<HosePair> {
    pairs_again(tubes, gap_mm, &[], &[])
}

/// The pairs that were found last, with the axes and the gap that they were found of.
pub(in crate::engine) type PairsMemo = Memo<(Vec<Option<Arc<Chain>>>, f64), Vec<HosePair>>;

impl PairsMemo {
    /// [`hose_pairs`]; of two hoses whose axes are those in memory that it was asked of last, what was found
    /// then is taken over.
    pub(in crate::engine) fn of_tubes(
        &mut self,
        tubes: &[Option<Tube<'_>>],
        gap_mm: f64,
    ) -> Vec<HosePair> {
        let axes: Vec<_> =
            tubes.iter().map(|tube| Some(Arc::clone(tube.as_ref()?.axis()))).collect();
        let is_same = |(now, was): (&Option<Arc<Chain>>, &Option<Arc<Chain>>)| {
            now.as_ref().zip(was.as_ref()).is_some_and(|(now, was)| Arc::ptr_eq(now, was))
        };
        let known = self.get().filter(|((_, gap), _)| gap.to_bits() == gap_mm.to_bits());
        let (stays, before) = known.map_or((Vec::new(), &[][..]), |((were, _), pairs)| {
            (axes.iter().zip(were).map(is_same).collect(), pairs.as_slice())
        });
        let pairs = pairs_again(tubes, gap_mm, before, &stays);
        self.put((axes, gap_mm), pairs).clone()
    }
}

fn pairs_again(
    tubes: &[Option<Tube<'_>>],
    gap_mm: f64,
    before: &[HosePair],
    stays: &[bool],
) -> Vec<HosePair> {
    let both_stay = |a: usize, b: usize| [a, b].iter().all(|hose| stays.get(*hose) == Some(&true));
    let places: Vec<usize> = (0..tubes.len()).filter(|place| tubes[*place].is_some()).collect();
    let boxes: Vec<Aabb> = places
        .iter()
        .filter_map(|place| tubes[*place].as_ref())
        .map(|tube| aabb(&tube.axis.bounds().grown(tube.radius() + gap_mm / 2.0)))
        .collect();
    let tree = Bvh::from_leaves(BvhBuildStrategy::Binned, &boxes);
    let old = before.iter().filter(|pair| both_stay(pair.hoses[0], pair.hoses[1]));
    let mut pairs: Vec<HosePair> = old.copied().collect();
    for (k, around) in boxes.iter().enumerate() {
        for other in tree.intersect_aabb(around) {
            let (a, b) = (places[k], places[other as usize]);
            let is_asked = a < b && !both_stay(a, b);
            if let (true, Some(one), Some(two)) = (is_asked, &tubes[a], &tubes[b]) {
                pairs.extend(pair([a, b], one, two, gap_mm));
            }
        }
    }
    pairs.sort_by_key(|pair| pair.hoses);
    pairs
}

/// The two where they are nearest of the places that count; `None` where that is the gap or more.
fn pair(hoses: [usize; 2], one: &Tube<'_>, two: &Tube<'_>, gap_mm: f64) -> Option<HosePair> {
    let touching = one.radius() + two.radius();
    let joints = joints(one, two, touching + gap_mm);
    let enough = touching + gap_mm - EPS_MM;
    let near = if joints.is_empty() {
        one.axis.nearest_chain(&two.axis, enough)
    } else {
        nearest_apart(one, two, &joints, enough, touching - EPS_MM)
    }?;
    Some(HosePair {
        hoses,
        gap_mm: near.distance - touching,
        at_mm: [near.along, near.along_other],
        on_axes: [near.point, near.point_other],
    })
}

/// Two ends on one port or on neighbouring ones, with the last stretches of the hoses there.
struct Joint {
    stretches: [(f64, f64); 2],
    port_is_shared: bool,
}

fn joints(one: &Tube<'_>, two: &Tube<'_>, away: f64) -> Vec<Joint> {
    let mut joints = Vec::new();
    for a in 0..2 {
        for b in 0..2 {
            let (end, other) = (&one.ends[a], &two.ends[b]);
            let port_is_shared = end.port == other.port;
            if port_is_shared || end.seat.distance(other.seat) < away {
                let stretches = [last_stretch(one, a, two, away), last_stretch(two, b, one, away)];
                joints.push(Joint { stretches, port_is_shared });
            }
        }
    }
    joints
}

/// The hose from an end to the first place that is `away` from the other hose's axis; to the socket's
/// mouth where there is none.
fn last_stretch(tube: &Tube<'_>, end: usize, other: &Tube<'_>, away: f64) -> (f64, f64) {
    let from = if end == 0 { ReachFrom::Start } else { ReachFrom::End };
    let reach = tube.axis.first_away_from(&other.axis, from, away);
    let reach = reach.unwrap_or_else(|| tube.mouth(end));
    if end == 0 { (0.0, reach) } else { (reach, tube.axis.end()) }
}

/// The nearest places that count: each hose is cut where a last stretch ends, and of the pairs of
/// parts those are left out that are the last stretches of one joint.
fn nearest_apart(
    one: &Tube<'_>,
    two: &Tube<'_>,
    joints: &[Joint],
    enough: f64,
    cutting: f64,
) -> Option<ChainNear> {
    let parts = |which: usize, tube: &Tube<'_>| {
        let mut cuts = vec![0.0, tube.axis.end()];
        for joint in joints {
            cuts.extend([joint.stretches[which].0, joint.stretches[which].1]);
        }
        cuts.sort_by(f64::total_cmp);
        cuts.dedup();
        let part = |pair: &[f64]| ((pair[0], pair[1]), tube.axis.part(pair[0], pair[1]));
        cuts.windows(2).map(part).collect::<Vec<_>>()
    };
    let (ones, twos) = (parts(0, one), parts(1, two));
    let mut best: Option<ChainNear> = None;
    for (range, part) in &ones {
        for (range_other, part_other) in &twos {
            let mut limit = best.map_or(enough, |near| near.distance);
            let holds = |(from, to): (f64, f64), (a, b): (f64, f64)| from <= a && b <= to;
            let joint = |joint: &&Joint| {
                holds(joint.stretches[0], *range) && holds(joint.stretches[1], *range_other)
            };
            let left_out = joints.iter().filter(joint);
            if left_out.clone().any(|joint| joint.port_is_shared) {
                continue;
            }
            if left_out.count() > 0 {
                limit = limit.min(cutting);
            }
            best = part.nearest_chain(part_other, limit).or(best);
        }
    }
    best
}
