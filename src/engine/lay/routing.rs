//! One option.

use std::sync::Arc;

use rayon::prelude::*;

use crate::engine::clearance::{ClearanceIndex, HosePair, SolidNear, Tube, TubeClearance, TubeEnd};
use crate::engine::lie::{CHAIN_ACCURACY_MM, LieSolver, RunLie, SpanLie};
use crate::engine::motion::RoutingMotion;
use crate::engine::{Missing, RunSolution};
use crate::geom::{Chain, Piece};
use crate::model::{Bay, Routing, Run};
use crate::units::EPS_MM;

/// How the hoses of one option really lie.
#[derive(Debug, Clone, PartialEq)]
pub struct RoutingLay {
    /// One for each run; none where it could not be solved.
    pub runs: Vec<Option<Arc<RunLay>>>,
    /// Hoses, as they lie, nearer to each other than the gap.
    pub pairs: Vec<HosePair>,
    /// In every pose; none while something is held, when it is not worked out.
    pub motion: Option<RoutingMotion>,
}

/// How one hose lies, and what it comes near.
#[derive(Debug, Clone, PartialEq)]
pub struct RunLay {
    /// The lie.
    pub lie: RunLie,
    /// The lie against the solids.
    pub clearance: TubeClearance,
    /// Where shapes tie: the solids that another of them comes too near to, and nearer than the lie;
    /// the worst place of each, in the order of the bay.
    pub other_way: Vec<SolidNear>,
    /// The axis of the lie.
    pub(super) axis: Arc<Chain>,
}

/// As many of the ways round that a tied span may bow are held against the solids.
const TIE_SAMPLES: u32 = 15;

/// The drawn routes of one option.
#[derive(Clone, Copy)]
pub(in crate::engine) struct Drawn<'a> {
    pub(in crate::engine) bay: &'a Bay,
    pub(in crate::engine) option: &'a Routing,
    pub(in crate::engine) runs: &'a [Result<Arc<RunSolution>, Missing>],
    pub(in crate::engine) hose_gap_mm: f64,
}

/// The runs as they lie, side by side; `known` has those that need not be solved again.
pub(super) fn of_runs(
    index: &ClearanceIndex,
    drawn: &Drawn<'_>,
    known: impl Fn(usize) -> Option<Arc<RunLay>> + Sync,
) -> Vec<Option<Arc<RunLay>>> {
    let all = drawn.option.runs.par_iter().zip(drawn.runs).enumerate();
    all.map_init(LieSolver::default, |solver, (place, (run, solved))| {
        let solved = solved.as_ref().ok()?;
        if let Some(lay) = known(place) {
            return Some(lay);
        }
        let ends = ends_of(drawn.bay, run, solved);
        let lie = solver.lie(solved);
        let tube = lie.tube(solved, ends);
        let clearance = index.tube(&tube);
        let axis = Arc::clone(tube.axis());
        let other_way = other_way(index, solved, &lie, ends, &clearance);
        Some(Arc::new(RunLay { lie, clearance, other_way, axis }))
    })
    .collect()
}

/// The hoses as they lie, to be held against each other.
pub(super) fn tubes<'a>(drawn: &Drawn<'a>, lays: &[Option<Arc<RunLay>>]) -> Vec<Option<Tube<'a>>> {
    let all = drawn.option.runs.iter().zip(drawn.runs).zip(lays);
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

/// What other shapes, as good as the lie, come too near to.
fn other_way(
    index: &ClearanceIndex,
    solved: &RunSolution,
    lie: &RunLie,
    ends: [TubeEnd<'_>; 2],
    own: &TubeClearance,
) -> Vec<SolidNear> {
    let mut worst: Vec<SolidNear> = own.too_near.clone();
    for span in &lie.spans {
        for other in span.alternatives(TIE_SAMPLES) {
            let pieces = with_span(lie, span, &other.pieces(CHAIN_ACCURACY_MM));
            let found = index.tube(&Tube::new(pieces, solved.hose.outside_mm, ends));
            for near in found.too_near {
                match worst.iter_mut().find(|so_far| so_far.solid == near.solid) {
                    Some(so_far) if near.spare_mm() < so_far.spare_mm() - EPS_MM => *so_far = near,
                    Some(_) => {}
                    None => worst.push(near),
                }
            }
        }
    }
    worst.retain(|near| !own.too_near.contains(near));
    worst.sort_by_key(|near| near.solid);
    worst
}

/// The pieces of a lie with another shape in one span.
fn with_span(lie: &RunLie, span: &SpanLie, shape: &[Piece]) -> Vec<(f64, Piece)> {
    let middle = |(at, piece): &(f64, Piece)| at + piece.length() / 2.0;
    let before = lie.pieces.iter().filter(|piece| middle(piece) <= span.from_mm);
    let after = lie.pieces.iter().filter(|piece| middle(piece) >= span.to_mm());
    let mut at = span.from_mm;
    let inside = shape.iter().map(|piece| {
        at += piece.length();
        (at - piece.length(), *piece)
    });
    before.copied().chain(inside).chain(after.copied()).collect()
}

impl RunLie {
    /// The hose as it lies, to be held against what is around it.
    pub(in crate::engine) fn tube<'a>(
        &self,
        run: &RunSolution,
        ends: [TubeEnd<'a>; 2],
    ) -> Tube<'a> {
        Tube::new(self.pieces.iter().copied(), run.hose.outside_mm, ends)
    }
}
