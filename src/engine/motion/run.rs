//! The hoses of one option in every pose.

use std::sync::Arc;

use glam::DVec3;
use rayon::prelude::*;

use super::{Pose, Poses};
use crate::engine::RunSolution;
use crate::engine::clearance::{ClearanceIndex, HosePair, SolidNear, Tube, TubeEnd, hose_pairs};
use crate::engine::lay::{Drawn, RunLay, ends_of};
use crate::engine::lie::{EndHold, Holds, LieSolver, RunLie, Tightest};
use crate::geom::Rigid;
use crate::geom::rod::RodSpan;
use crate::model::{Bay, Run};

/// The hoses of one option in every pose.
#[derive(Debug, Clone, PartialEq)]
pub struct RoutingMotion {
    /// The poses, the neutral one first.
    pub poses: Poses,
    /// One for each run; none where it could not be solved.
    pub runs: Vec<Option<RunMotion>>,
    /// Hoses nearer to each other than the gap in a pose, each pair at its worst, with the pose.
    pub pairs: Vec<(usize, HosePair)>,
}

/// One hose in every pose.
#[derive(Debug, Clone, PartialEq)]
pub struct RunMotion {
    /// In the order of the poses.
    pub poses: Vec<RunPose>,
    /// Whether an end of it rides on a body that moves.
    pub rides: bool,
}

/// One hose in one pose.
#[derive(Debug, Clone, PartialEq)]
pub struct RunPose {
    /// Its tightest place; none where nothing bends.
    pub tightest: Option<Tightest>,
    /// How far it reaches.
    pub reach: Reach,
    /// Whether every span was solved: where one was not, nothing is known of its radius.
    pub is_whole: bool,
    /// The tightest against its keep-off; none without solids.
    pub clearance: Option<SolidNear>,
    /// The points along it.
    pub points: Arc<Vec<DVec3>>,
}

/// Whether the hose reaches from hold to hold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// The hose there is between two holds, shortened as much as pressure may, less the straight way
    /// between them: where it is least. Negative: pulled tight.
    pub spare_mm: f64,
    /// Where that span begins.
    pub point: DVec3,
}

impl RunPose {
    /// Radius of the tightest place; none where nothing bends.
    pub fn min_radius_mm(&self) -> Option<f64> {
        self.tightest.map(|tightest| tightest.radius_mm)
    }
}

impl RunMotion {
    /// The pose of the tightest bend, of those that were solved.
    pub fn tightest(&self) -> Option<(usize, Tightest)> {
        let known = self.poses.iter().enumerate().filter(|(_, pose)| pose.is_whole);
        let all = known.filter_map(|(k, pose)| Some((k, pose.tightest?)));
        all.min_by(|a, b| a.1.radius_mm.total_cmp(&b.1.radius_mm))
    }

    /// The pose that pulls most.
    pub fn least_reach(&self) -> Option<(usize, Reach)> {
        let all = self.poses.iter().enumerate().map(|(k, pose)| (k, pose.reach));
        all.min_by(|a, b| a.1.spare_mm.total_cmp(&b.1.spare_mm))
    }

    /// The pose that comes nearest to a solid, against its keep-off.
    pub fn nearest(&self) -> Option<(usize, SolidNear)> {
        let all = self.poses.iter().enumerate();
        let all = all.filter_map(|(k, pose)| Some((k, pose.clearance?)));
        all.min_by(|a, b| a.1.spare_mm().total_cmp(&b.1.spare_mm()))
    }

    /// The first pose in which it could not be solved though it reaches.
    pub fn unsolved(&self) -> Option<usize> {
        self.poses.iter().position(|pose| !pose.is_whole && pose.reach.spare_mm >= 0.0)
    }
}

/// A body by its place in the bay; none where something rides on none.
type Rider = Option<usize>;

fn rider(bay: &Bay, body: Option<&str>) -> Rider {
    body.and_then(|id| bay.bodies.iter().position(|body| body.id == id))
}

/// The move of what rides there in a pose.
fn moved(rider: Rider, bodies: &[Rigid]) -> Rigid {
    rider.and_then(|k| bodies.get(k)).copied().unwrap_or_default()
}

/// The solids where their bodies take them in a pose.
pub(super) fn index_in(index: &ClearanceIndex, bay: &Bay, pose: &Pose) -> ClearanceIndex {
    let mut index = index.clone();
    index.set_poses(|solid| {
        let body = bay.solids.get(solid).and_then(|solid| solid.body.as_deref());
        moved(rider(bay, body), &pose.bodies)
    });
    index
}

/// What holds a run when its ends have moved.
pub fn holds_in(run: &RunSolution, ends: [Rigid; 2]) -> Holds {
    let neutral = Holds::neutral(run);
    let shifted = |hold: EndHold, by: &Rigid| EndHold {
        exit: by.point(hold.exit),
        direction: (by.turn * hold.direction).normalize_or(hold.direction),
    };
    let [a, b] = ends;
    Holds { from: shifted(neutral.from, &a), to: shifted(neutral.to, &b), clamps: neutral.clamps }
}

/// A run with all that its poses need.
pub(super) struct Mover<'a> {
    pub(super) run: &'a RunSolution,
    lay: &'a RunLay,
    /// What its ends ride on.
    riders: [Rider; 2],
    ends: [TubeEnd<'a>; 2],
}

impl<'a> Mover<'a> {
    pub(super) fn of(bay: &Bay, run: &'a Run, solved: &'a RunSolution, lay: &'a RunLay) -> Self {
        let ends = ends_of(bay, run, solved);
        let riders = [&run.from, &run.to]
            .map(|end| rider(bay, bay.port(&end.port).and_then(|port| port.body.as_deref())));
        Self { run: solved, lay, riders, ends }
    }

    /// How its ends move in a pose.
    fn moves(&self, bodies: &[Rigid]) -> [Rigid; 2] {
        self.riders.map(|rider| moved(rider, bodies))
    }

    fn tube(&self, lie: &RunLie, bodies: &[Rigid]) -> Tube<'a> {
        let moves = self.moves(bodies);
        let mut ends = self.ends;
        for (end, by) in ends.iter_mut().zip(&moves) {
            end.seat = by.point(end.seat);
        }
        lie.tube(self.run, ends)
    }

    /// The lie in a pose, at a cut length.
    pub(super) fn lie(&self, solver: &mut LieSolver, bodies: &[Rigid], neutral: &RunLie) -> RunLie {
        if self.moves(bodies) == [Rigid::IDENTITY; 2] {
            return neutral.clone();
        }
        solver.lie_at(self.run, neutral.cut_length_mm, &self.holds(bodies), Some(neutral))
    }

    /// What holds it in a pose.
    pub(super) fn holds(&self, bodies: &[Rigid]) -> Holds {
        holds_in(self.run, self.moves(bodies))
    }

    pub(super) fn pose(&self, lie: RunLie, index: &ClearanceIndex, bodies: &[Rigid]) -> RunPose {
        let clearance = index.tube(&self.tube(&lie, bodies)).tightest;
        let told = self.told(&lie, clearance);
        RunPose { points: lie.points, ..told }
    }

    /// The neutral pose, which is worked out already.
    fn neutral(&self) -> RunPose {
        let lie = &self.lay.lie;
        RunPose { points: Arc::clone(&lie.points), ..self.told(lie, self.lay.clearance.tightest) }
    }

    /// All that is told of a pose but its points.
    fn told(&self, lie: &RunLie, clearance: Option<SolidNear>) -> RunPose {
        RunPose {
            tightest: lie.tightest,
            reach: reach(self.run, lie.spans.iter().map(|span| &span.held)),
            is_whole: lie.is_whole(),
            clearance,
            points: Arc::default(),
        }
    }
}

/// Where least hose is left between two holds.
pub(super) fn reach<'s>(run: &RunSolution, spans: impl Iterator<Item = &'s RodSpan>) -> Reach {
    let shrunk = 1.0 - run.hose.shortening_pct / 100.0;
    let spans = spans.map(|held| Reach {
        spare_mm: held.length * shrunk - held.from.distance(held.to),
        point: held.from,
    });
    let least = spans.min_by(|a, b| a.spare_mm.total_cmp(&b.spare_mm));
    least.unwrap_or(Reach { spare_mm: 0.0, point: run.from.mouth })
}

/// All hoses of an option in all poses, side by side. The neutral one is taken from `lays` and `pairs`,
/// which have it already.
pub(in crate::engine) fn of_routing(
    index: &ClearanceIndex,
    drawn: &Drawn<'_>,
    lays: &[Option<Arc<RunLay>>],
    pairs: &[HosePair],
) -> RoutingMotion {
    let Drawn { bay, option, runs, hose_gap_mm } = *drawn;
    let poses = Poses::of(bay);
    let all = option.runs.iter().zip(runs).zip(lays);
    let movers: Vec<Option<Mover<'_>>> = all
        .map(|((run, solved), lay)| {
            Some(Mover::of(bay, run, solved.as_ref().ok()?, lay.as_deref()?))
        })
        .collect();
    let neutral = movers.iter().map(|mover| mover.as_ref().map(Mover::neutral)).collect();
    let in_pose = |solver: &mut LieSolver, pose: &Pose| {
        let (bodies, index) = (&pose.bodies, &index_in(index, bay, pose));
        let mut tubes = Vec::with_capacity(movers.len());
        let mut found = Vec::with_capacity(movers.len());
        for mover in &movers {
            let lie = mover.as_ref().map(|m| m.lie(solver, bodies, &m.lay.lie));
            tubes.push(mover.as_ref().zip(lie.as_ref()).map(|(m, lie)| m.tube(lie, bodies)));
            found.push(mover.as_ref().zip(lie).map(|(m, lie)| m.pose(lie, index, bodies)));
        }
        (found, hose_pairs(&tubes, hose_gap_mm))
    };
    let moved = poses.all[1..].par_iter().map_init(LieSolver::default, in_pose);
    let mut solved: Vec<(Vec<Option<RunPose>>, Vec<HosePair>)> = moved.collect();
    solved.insert(0, (neutral, pairs.to_vec()));
    gather(poses, &movers, solved)
}

fn gather(
    poses: Poses,
    movers: &[Option<Mover<'_>>],
    solved: Vec<(Vec<Option<RunPose>>, Vec<HosePair>)>,
) -> RoutingMotion {
    let moves = |mover: &Mover<'_>| {
        poses.all.iter().any(|p| mover.moves(&p.bodies) != [Rigid::IDENTITY; 2])
    };
    let mut runs: Vec<Option<RunMotion>> = movers
        .iter()
        .map(|mover| mover.as_ref().map(|m| RunMotion { poses: Vec::new(), rides: moves(m) }))
        .collect();
    let mut pairs: Vec<(usize, HosePair)> = Vec::new();
    for (k, (found, near)) in solved.into_iter().enumerate() {
        for (run, pose) in runs.iter_mut().zip(found) {
            if let (Some(run), Some(pose)) = (run, pose) {
                run.poses.push(pose);
            }
        }
        for pair in near {
            match pairs.iter_mut().find(|(_, known)| known.hoses == pair.hoses) {
                Some(known) if pair.gap_mm < known.1.gap_mm => *known = (k, pair),
                Some(_) => {}
                None => pairs.push((k, pair)),
            }
        }
    }
    RoutingMotion { poses, runs, pairs }
}
