//! The hoses of one routing against everything.

use std::sync::Arc;

use super::{ClearanceIndex, HosePair, PairCache, Tube, TubeClearance, TubeEnd};
use crate::engine::lay::{Drawn, ends_of};
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

/// The clearances of the runs that were calculated last.
#[derive(Debug, Clone, Default)]
pub(in crate::engine) struct ClearanceCache {
    axes: Vec<Option<Arc<Chain>>>,
    runs: Vec<TubeClearance>,
    pairs: PairCache,
}

impl ClearanceCache {
    /// The clearances of the drawn routes; of runs that stay as they were, those found then. The answer
    /// does not depend on what is kept.
    pub(in crate::engine) fn of_routing(
        &mut self,
        index: &ClearanceIndex,
        drawn: &Drawn<'_>,
        stays: &[bool],
    ) -> RoutingClearance {
        let all = drawn.routing.runs.iter().zip(drawn.runs).enumerate();
        let tubes: Vec<Option<Tube<'_>>> = all
            .map(|(place, (run, solved))| {
                let solved = solved.as_ref().ok()?;
                let known = self.axes.get(place).filter(|_| stays[place]);
                let axis = known.cloned().flatten();
                let axis =
                    axis.unwrap_or_else(|| Arc::new(Chain::new(solved.centre_line.pieces())));
                let ends = ends_of(drawn.bay, run, solved);
                Some(Tube::along(axis, solved.hose.outside_mm, ends))
            })
            .collect();
        let clearance_of = |(place, tube): (usize, &Option<Tube<'_>>)| {
            let known = self.runs.get(place).filter(|_| stays[place]);
            match (known, tube) {
                (Some(known), _) => known.clone(),
                (None, Some(tube)) => index.tube(tube),
                (None, None) => TubeClearance::default(),
            }
        };
        self.runs = tubes.iter().enumerate().map(clearance_of).collect();
        self.axes = tubes.iter().map(|tube| Some(Arc::clone(tube.as_ref()?.axis()))).collect();
        RoutingClearance {
            runs: self.runs.clone(),
            pairs: self.pairs.follow(&tubes, drawn.hose_clearance_mm, stays),
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
