//! One routing.

use std::sync::Arc;

use rayon::prelude::*;

use crate::engine::clearance::{
    ClearanceIndex, HosePair, NearObstacle, NearOwnPort, PairsMemo, RunDrawn, Tube, TubeClearance,
    TubeEnd,
};
use crate::engine::installed::{CHAIN_ACCURACY_MM, InstalledRun, InstalledSolver, InstalledSpan};
use crate::engine::motion::{self, RoutingMotion};
use crate::engine::run_memo::RunMemo;
use crate::engine::{Depth, Missing, RunSolution};
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

impl Drawn<'_> {
    /// The hoses along these axes, by their places, to be checked against each other.
    pub(in crate::engine) fn tubes<'s>(
        &'s self,
        axis: impl Fn(usize) -> Option<&'s Arc<Chain>>,
    ) -> Vec<Option<Tube<'s>>> {
        let all = self.routing.runs.iter().zip(self.runs).enumerate();
        all.map(|(place, (run, solved))| {
            let solved = solved.as_ref().ok()?;
            let ends = ends_of(self.bay, run, solved);
            Some(Tube::along(Arc::clone(axis(place)?), solved.hose.outside_mm, ends))
        })
        .collect()
    }
}

/// The hoses as installed, in every position where that is asked for. Runs are laid side by side; what is kept is
/// not laid again.
pub(in crate::engine) fn lay(
    index: &ClearanceIndex,
    drawn: &Drawn<'_>,
    on_paper: &[Option<Arc<RunDrawn>>],
    (memo, pairs): (&mut [RunMemo], &mut PairsMemo),
    depth: Depth,
) -> RoutingLay {
    let all = memo.par_iter_mut().zip(&drawn.routing.runs).zip(drawn.runs).zip(on_paper);
    let of_run =
        |solver: &mut InstalledSolver, (((memo, run), solved), on_paper): OneRun<'_>| {
            let (solved, on_paper) = (solved.as_ref().ok()?, on_paper.as_ref()?);
            Some(memo.laid(on_paper, || {
                RunLay::new(index, solver, solved, ends_of(drawn.bay, run, solved))
            }))
        };
    let runs: Vec<_> = all.map_init(InstalledSolver::default, of_run).collect();
    let pairs = pairs
        .of_tubes(&drawn.tubes(|place| Some(&runs[place].as_ref()?.axis)), drawn.hose_clearance_mm);
    let is_asked = depth >= Depth::Motion;
    let motion = is_asked.then(|| motion::of_routing(index, drawn, &runs, &pairs));
    RoutingLay { runs, pairs, motion }
}

/// What is kept of a run, the run, and the run as measured and as drawn.
type OneRun<'a> = (
    ((&'a mut RunMemo, &'a Run), &'a Result<Arc<RunSolution>, Missing>),
    &'a Option<Arc<RunDrawn>>,
);

impl RunLay {
    fn new(
        index: &ClearanceIndex,
        solver: &mut InstalledSolver,
        solved: &RunSolution,
        ends: [TubeEnd<'_>; 2],
    ) -> Self {
        let installed = solver.installed(solved);
        let tube = installed.tube(solved, ends);
        let clearance = index.tube(&tube);
        let axis = Arc::clone(tube.axis());
        let (other_way, other_way_own_port) =
            other_way(index, solved, &installed, ends, &clearance);
        Self { installed, clearance, other_way, other_way_own_port, axis }
    }
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
