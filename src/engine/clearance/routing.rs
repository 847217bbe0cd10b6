//! The hoses of one routing against everything.

use std::sync::Arc;

use super::{ClearanceIndex, HosePair, PairsMemo, Tube, TubeClearance, TubeEnd};
use crate::engine::RunSolution;
use crate::engine::lay::Drawn;
use crate::engine::solution::EndSolution;
use crate::geom::Chain;
use crate::model::{Bay, RunEnd};

/// The clearances of one routing, as drawn.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RoutingClearance {
    /// One for each run; empty where a run could not be solved.
    pub runs: Vec<TubeClearance>,
    /// Hoses nearer to each other than the gap.
    pub pairs: Vec<HosePair>,
    /// The gap in force.
    pub hose_clearance_mm: f64,
    /// Obstacles, by their places in the bay, whose mesh is not closed.
    pub open_meshes: Vec<usize>,
}

/// A run as drawn.
#[derive(Debug)]
pub(in crate::engine) struct RunDrawn {
    /// The axis of the hose.
    pub(in crate::engine) axis: Arc<Chain>,
    /// Against the obstacles.
    clearance: TubeClearance,
}

impl RunDrawn {
    pub(in crate::engine) fn new(
        index: &ClearanceIndex,
        solved: &RunSolution,
        ends: [TubeEnd<'_>; 2],
    ) -> Self {
        let axis = Arc::new(Chain::new(solved.centre_line.pieces()));
        let tube = Tube::along(Arc::clone(&axis), solved.hose.outside_mm, ends);
        Self { clearance: index.tube(&tube), axis }
    }
}

impl RoutingClearance {
    /// Of runs that are checked each by itself; `pairs` knows what was found of them last.
    pub(in crate::engine) fn new(
        index: &ClearanceIndex,
        (drawn, runs): (&Drawn<'_>, &[Option<Arc<RunDrawn>>]),
        pairs: &mut PairsMemo,
    ) -> Self {
        let axis = |place: usize| Some(&runs[place].as_ref()?.axis);
        let tubes = drawn.tubes(axis);
        let of_run = |run: &Option<Arc<RunDrawn>>| {
            run.as_ref().map_or_else(TubeClearance::default, |run| run.clearance.clone())
        };
        Self {
            runs: runs.iter().map(of_run).collect(),
            pairs: pairs.of_tubes(&tubes, drawn.hose_clearance_mm),
            hose_clearance_mm: drawn.hose_clearance_mm,
            open_meshes: index.open_meshes().collect(),
        }
    }
}

pub(in crate::engine) fn end<'a>(bay: &Bay, end: &'a RunEnd, solved: &EndSolution) -> TubeEnd<'a> {
    let obstacle = bay.port(&end.port).and_then(|port| port.on.as_deref());
    TubeEnd {
        port: &end.port,
        seat: solved.frame.seat,
        socket_mm: solved.end.socket_mm,
        on: obstacle.and_then(|id| bay.obstacles.iter().position(|obstacle| obstacle.id == id)),
    }
}
