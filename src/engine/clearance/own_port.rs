//! A hose and the obstacle that its own port is on.

use glam::DVec3;

use super::{ClearanceIndex, NearObstacle, Tube};
use crate::geom::ReachFrom;
use crate::model::{Nature, Side};
use crate::units::EPS_MM;

/// A stretch of hose beside the hot, moving or sharp obstacle that its port is on: from the socket mouth to
/// the first place that has the minimum clearance, all of it nearer than that.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NearOwnPort {
    /// Its nearest place.
    pub near: NearObstacle,
    /// The end whose port is on the obstacle; A where both are and the hose never gets away.
    pub side: Side,
    /// Where the stretch begins, along the hose from `E_A`.
    pub from_mm: f64,
    /// Where it ends.
    pub to_mm: f64,
}

/// The tightest of what has to keep its minimum clearance and of the stretches beside a hose's own ports.
pub(in crate::engine) fn tightest_with(
    tightest: Option<NearObstacle>,
    own_port: &[NearOwnPort],
) -> Option<NearObstacle> {
    let mut tightest = tightest;
    for stretch in own_port {
        keep_tighter(&mut tightest, stretch.near);
    }
    tightest
}

/// What part of a hose has to keep the minimum clearance of the obstacle that its ports are on.
#[derive(Default)]
struct Counted {
    from_mm: f64,
    to_mm: f64,
    /// Whether no part has to.
    is_none: bool,
    /// Stretches told apart, with the end each belongs to.
    apart: Vec<(Side, f64, f64)>,
}

impl Counted {
    /// A plain obstacle: from where its minimum clearance is first reached; where it never is, from the socket mouth.
    fn plain(tube: &Tube<'_>, on: [bool; 2], reaches: [Option<f64>; 2]) -> Self {
        let from = |end: usize, seat: f64| {
            if on[end] { reaches[end].unwrap_or_else(|| tube.mouth(end)) } else { seat }
        };
        let (from_mm, to_mm) = (from(0, 0.0), from(1, tube.axis.end()));
        Self { from_mm, to_mm: to_mm.max(from_mm), ..Self::default() }
    }

    /// A hot, moving or sharp one: from there too, but what comes before, past the socket, is told apart.
    fn harmful(tube: &Tube<'_>, on: [bool; 2], reaches: [Option<f64>; 2]) -> Self {
        let length = tube.axis.end();
        let mouths =
            [if on[0] { tube.mouth(0) } else { 0.0 }, if on[1] { tube.mouth(1) } else { length }];
        let is_reached = |end: usize| !on[end] || reaches[end].is_some();
        if !(is_reached(0) && is_reached(1)) {
            let side = if on[0] { Side::A } else { Side::B };
            let apart = stretch(side, mouths[0], mouths[1]).into_iter().collect();
            return Self { from_mm: length, to_mm: length, is_none: true, apart };
        }
        let from_mm = reaches[0].map_or(mouths[0], |reach| reach.max(mouths[0]));
        let to_mm = reaches[1].map_or(mouths[1], |reach| reach.min(mouths[1]));
        let apart = [stretch(Side::A, mouths[0], from_mm), stretch(Side::B, to_mm, mouths[1])];
        let apart = apart.into_iter().flatten().collect();
        Self { from_mm, to_mm: to_mm.max(from_mm), is_none: false, apart }
    }
}

/// A stretch that is not shorter than anybody could tell.
fn stretch(side: Side, from_mm: f64, to_mm: f64) -> Option<(Side, f64, f64)> {
    (to_mm > from_mm + EPS_MM).then_some((side, from_mm, to_mm))
}

impl ClearanceIndex {
    /// The obstacle that one end, or both, is screwed into: the worst of the places that have to keep the minimum
    /// clearance. The stretches that need not go to `own_port`.
    pub(super) fn on_obstacle(
        &self,
        tube: &Tube<'_>,
        obstacle: usize,
        own_port: &mut Vec<NearOwnPort>,
    ) -> Option<NearObstacle> {
        let entry = self.entries.get(obstacle)?;
        let away = tube.radius() + entry.min_clearance_mm;
        let field = |p: DVec3| entry.placed.distance(p);
        let on = tube.ends.map(|end| end.on == Some(obstacle));
        let reach = |end: usize, from: ReachFrom| {
            on[end].then(|| tube.axis.first_reach(from, away, &field)).flatten()
        };
        let reaches = [reach(0, ReachFrom::Start), reach(1, ReachFrom::End)];
        let counted = match entry.nature {
            Nature::Plain => Counted::plain(tube, on, reaches),
            Nature::Hot | Nature::Moving | Nature::Sharp => Counted::harmful(tube, on, reaches),
        };
        for (side, from_mm, to_mm) in counted.apart {
            let part = tube.axis.part(from_mm, to_mm);
            let near = self.near(tube, &part, obstacle, f64::MAX);
            own_port.extend(near.map(|near| NearOwnPort { near, side, from_mm, to_mm }));
        }
        let part = || tube.axis.part(counted.from_mm, counted.to_mm);
        let mut worst =
            (!counted.is_none).then(|| self.near(tube, &part(), obstacle, f64::MAX)).flatten();
        for (a, b) in [(0.0, counted.from_mm), (counted.to_mm, tube.axis.end())] {
            let cut = (b > a)
                .then(|| self.near(tube, &tube.axis.part(a, b), obstacle, tube.radius() - EPS_MM))
                .flatten();
            if let Some(cut) = cut {
                keep_tighter(&mut worst, cut);
            }
        }
        worst
    }
}

pub(super) fn keep_tighter(tightest: &mut Option<NearObstacle>, near: NearObstacle) {
    if tightest.is_none_or(|best| near.spare_mm() < best.spare_mm()) {
        *tightest = Some(near);
    }
}
