//! The hoses of one option against everything.

use super::{ClearanceIndex, HosePair, Tube, TubeClearance, TubeEnd, hose_pairs};
use crate::engine::resolve::Missing;
use crate::engine::solution::{EndSolution, RunSolution};
use crate::model::{Bay, Routing, RunEnd};

/// The clearances of one option, as drawn.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RoutingClearance {
    /// One for each run; empty where a run could not be solved.
    pub runs: Vec<TubeClearance>,
    /// Hoses nearer to each other than the gap.
    pub pairs: Vec<HosePair>,
    /// The gap in force.
    pub hose_gap_mm: f64,
    /// Solids, by their places in the bay, whose mesh is not closed.
    pub open_meshes: Vec<usize>,
}

/// The clearances of the drawn routes of `option`.
pub(in crate::engine) fn of_routing(
    index: &mut ClearanceIndex,
    bay: &Bay,
    option: &Routing,
    runs: &[Result<RunSolution, Missing>],
) -> RoutingClearance {
    index.update(&bay.solids);
    let tubes: Vec<Option<Tube<'_>>> = option
        .runs
        .iter()
        .zip(runs)
        .map(|(run, solved)| {
            let solved = solved.as_ref().ok()?;
            let ends = [end(bay, &run.from, &solved.from), end(bay, &run.to, &solved.to)];
            Some(Tube::new(solved.centre_line.pieces(), solved.hose.outside_mm, ends))
        })
        .collect();
    let hose_gap_mm = option.hose_gap_mm.unwrap_or(Routing::DEFAULT_HOSE_GAP_MM);
    RoutingClearance {
        runs: tubes
            .iter()
            .map(|tube| tube.as_ref().map(|tube| index.tube(tube)).unwrap_or_default())
            .collect(),
        pairs: hose_pairs(&tubes, hose_gap_mm),
        hose_gap_mm,
        open_meshes: index.open_meshes().collect(),
    }
}

pub(in crate::engine) fn end<'a>(bay: &Bay, end: &'a RunEnd, solved: &EndSolution) -> TubeEnd<'a> {
    let solid = bay.port(&end.port).and_then(|port| port.on.as_deref());
    TubeEnd {
        port: &end.port,
        seat: solved.frame.seat,
        socket_mm: solved.end.socket_mm,
        on: solid.and_then(|id| bay.solids.iter().position(|solid| solid.id == id)),
    }
}
