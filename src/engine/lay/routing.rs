//! One routing.

use std::sync::Arc;

use rayon::prelude::*;

use crate::engine::clearance::{
    ClearanceIndex, HosePair, NearObstacle, NearOwnPort, Tube, TubeClearance, TubeEnd,
};
use crate::engine::installed::{CHAIN_ACCURACY_MM, InstalledRun, InstalledSolver, InstalledSpan};
use crate::engine::motion::RoutingMotion;
use crate::engine::{Missing, RunSolution};
use crate::geom::{Chain, Piece};
use crate::model::{Bay, Routing, Run};
use crate::units::EPS_MM;

/// The installed shapes of one routing.
#[derive(Debug, Clone, PartialEq)]
pub struct RoutingLay {
    /// One for each run; none where it could not be solved.
    pub runs: Vec<Option<Arc<RunLay>>>,
    /// Hoses, as installed, nearer to each other than the gap.
    pub pairs: Vec<HosePair>,
    /// In every position; none while something is held, when it is not calculated.
    pub motion: Option<RoutingMotion>,
}

/// How one hose lies, and what it comes near.
#[derive(Debug, Clone, PartialEq)]
pub struct RunLay {
    /// The installed shape.
    pub installed: InstalledRun,
    /// The installed shape against the obstacles.
    pub clearance: TubeClearance,
    /// Where shapes tie: the obstacles that another of them comes too near to, and nearer than the installed shape;
    /// the worst place of each, in the order of the bay.
    pub other_way: Vec<NearObstacle>,
    /// Where shapes tie: the stretches beside its own ports, as another of them has it.
    pub other_way_own_port: Vec<NearOwnPort>,
    /// The axis of the installed shape.
    pub(super) axis: Arc<Chain>,
}

/// As many of the ways round that a tied span may bow are checked against the obstacles.
const TIE_SAMPLES: u32 = 15;

/// The drawn routes of one routing.
#[derive(Clone, Copy)]
pub(in crate::engine) struct Drawn<'a> {
    pub(in crate::engine) bay: &'a Bay,
    pub(in crate::engine) routing: &'a Routing,
    pub(in crate::engine) runs: &'a [Result<Arc<RunSolution>, Missing>],
    pub(in crate::engine) hose_clearance_mm: f64,
}

/// The runs as installed, side by side; `known` has those that need not be solved again.
pub(super) fn of_runs(
    index: &ClearanceIndex,
    drawn: &Drawn<'_>,
    known: impl Fn(usize) -> Option<Arc<RunLay>> + Sync,
) -> Vec<Option<Arc<RunLay>>> {
    let all = drawn.routing.runs.par_iter().zip(drawn.runs).enumerate();
    all.map_init(InstalledSolver::default, |solver, (place, (run, solved))| {
        let solved = solved.as_ref().ok()?;
        if let Some(lay) = known(place) {
            return Some(lay);
        }
        let ends = ends_of(drawn.bay, run, solved);
        let installed = solver.installed(solved);
        let tube = installed.tube(solved, ends);
        let clearance = index.tube(&tube);
        let axis = Arc::clone(tube.axis());
        let (other_way, other_way_own_port) =
            other_way(index, solved, &installed, ends, &clearance);
        Some(Arc::new(RunLay { installed, clearance, other_way, other_way_own_port, axis }))
    })
    .collect()
}

/// The hoses as installed, to be checked against each other.
pub(super) fn tubes<'a>(drawn: &Drawn<'a>, lays: &[Option<Arc<RunLay>>]) -> Vec<Option<Tube<'a>>> {
    let all = drawn.routing.runs.iter().zip(drawn.runs).zip(lays);
    all.map(|((run, solved), lay)| {
        let (solved, lay) = (solved.as_ref().ok()?, lay.as_ref()?);
        let ends = ends_of(drawn.bay, run, solved);
        Some(Tube::along(Arc::clone(&lay.axis), solved.hose.outside_mm, ends))
    })
    .collect()
}

/// How the ends of a run are held.
pub(in crate::engine) fn ends_of<'a>(
    bay: &Bay,
    run: &'a Run,
    solved: &RunSolution,
) -> [TubeEnd<'a>; 2] {
    [
        crate::engine::clearance::end(bay, &run.from, &solved.from),
        crate::engine::clearance::end(bay, &run.to, &solved.to),
    ]
}

/// What other shapes, as good as the installed shape, come too near to, and what they have beside their own ports.
fn other_way(
    index: &ClearanceIndex,
    solved: &RunSolution,
    installed: &InstalledRun,
    ends: [TubeEnd<'_>; 2],
    own: &TubeClearance,
) -> (Vec<NearObstacle>, Vec<NearOwnPort>) {
    let mut worst: Vec<NearObstacle> = own.too_near.clone();
    let mut own_port = Vec::new();
    for span in &installed.spans {
        for other in span.alternatives(TIE_SAMPLES) {
            let pieces = with_span(installed, span, &other.pieces(CHAIN_ACCURACY_MM));
            let found = index.tube(&Tube::new(pieces, solved.hose.outside_mm, ends));
            own_port.extend(found.own_port);
            for near in found.too_near {
                match worst.iter_mut().find(|so_far| so_far.obstacle == near.obstacle) {
                    Some(so_far) if near.spare_mm() < so_far.spare_mm() - EPS_MM => *so_far = near,
                    Some(_) => {}
                    None => worst.push(near),
                }
            }
        }
    }
    worst.retain(|near| !own.too_near.contains(near));
    worst.sort_by_key(|near| near.obstacle);
    (worst, own_port)
}

/// The pieces of an installed shape with another shape in one span.
fn with_span(installed: &InstalledRun, span: &InstalledSpan, shape: &[Piece]) -> Vec<(f64, Piece)> {
    let middle = |(at, piece): &(f64, Piece)| at + piece.length() / 2.0;
    let before = installed.pieces.iter().filter(|piece| middle(piece) <= span.from_mm);
    let after = installed.pieces.iter().filter(|piece| middle(piece) >= span.to_mm());
    let mut at = span.from_mm;
    let inside = shape.iter().map(|piece| {
        at += piece.length();
        (at - piece.length(), *piece)
    });
    before.copied().chain(inside).chain(after.copied()).collect()
}

impl InstalledRun {
    /// The hose as installed, to be checked against what is around it.
    pub(in crate::engine) fn tube<'a>(
        &self,
        run: &RunSolution,
        ends: [TubeEnd<'a>; 2],
    ) -> Tube<'a> {
        Tube::new(self.pieces.iter().copied(), run.hose.outside_mm, ends)
    }
}
