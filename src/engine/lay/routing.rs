//! One option.

use rayon::prelude::*;

use crate::engine::clearance::{
    ClearanceIndex, HosePair, SolidNear, Tube, TubeClearance, TubeEnd, hose_pairs,
};
use crate::engine::lie::{CHAIN_ACCURACY_MM, LieSolver, RunLie, SpanLie};
use crate::engine::motion::RoutingMotion;
use crate::engine::{Missing, RunSolution};
use crate::geom::Piece;
use crate::model::{Bay, Routing, Run};

/// How the hoses of one option really lie.
#[derive(Debug, Clone, PartialEq)]
pub struct RoutingLay {
    /// One for each run; none where it could not be solved.
    pub runs: Vec<Option<RunLay>>,
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
    /// Against the solids; where shapes tie, the worst of all of them.
    pub clearance: TubeClearance,
    /// The solids whose worst place is that of another of the tied shapes, not of `lie`.
    pub other_way: Vec<usize>,
}

/// As many of the ways round that a tied span may bow are held against the solids.
const TIE_SAMPLES: u32 = 15;

/// The drawn routes of one option.
#[derive(Clone, Copy)]
pub(in crate::engine) struct Drawn<'a> {
    pub(in crate::engine) bay: &'a Bay,
    pub(in crate::engine) option: &'a Routing,
    pub(in crate::engine) runs: &'a [Result<RunSolution, Missing>],
    pub(in crate::engine) hose_gap_mm: f64,
}

/// The runs as they lie, side by side; `known` has those that need not be solved again.
pub(super) fn of_runs(
    index: &ClearanceIndex,
    drawn: &Drawn<'_>,
    known: impl Fn(usize, &RunSolution, &[TubeEnd<'_>; 2]) -> Option<RunLay> + Sync,
) -> Vec<Option<RunLay>> {
    let all = drawn.option.runs.par_iter().zip(drawn.runs).enumerate();
    all.map_init(LieSolver::default, |solver, (place, (run, solved))| {
        let solved = solved.as_ref().ok()?;
        let ends = ends_of(drawn.bay, run, solved);
        if let Some(lay) = known(place, solved, &ends) {
            return Some(lay);
        }
        let lie = solver.lie(solved);
        let (clearance, other_way) = clearance(index, solved, &lie, ends);
        Some(RunLay { lie, clearance, other_way })
    })
    .collect()
}

/// Hoses, as they lie, nearer to each other than the gap.
pub(super) fn pairs(drawn: &Drawn<'_>, lays: &[Option<RunLay>]) -> Vec<HosePair> {
    let all = drawn.option.runs.iter().zip(drawn.runs).zip(lays);
    let tubes: Vec<Option<Tube<'_>>> = all
        .map(|((run, solved), lay)| {
            let (solved, lay) = (solved.as_ref().ok()?, lay.as_ref()?);
            let pieces = lay.lie.pieces.iter().copied();
            Some(Tube::new(pieces, solved.hose.outside_mm, ends_of(drawn.bay, run, solved)))
        })
        .collect();
    hose_pairs(&tubes, drawn.hose_gap_mm)
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

/// The lie against the solids, with all shapes that are as good.
fn clearance(
    index: &ClearanceIndex,
    solved: &RunSolution,
    lie: &RunLie,
    ends: [TubeEnd<'_>; 2],
) -> (TubeClearance, Vec<usize>) {
    let tube =
        |pieces: &[(f64, Piece)]| Tube::new(pieces.iter().copied(), solved.hose.outside_mm, ends);
    let mut worst = index.tube(&tube(&lie.pieces));
    let mut other_way = Vec::new();
    for span in &lie.spans {
        for other in span.alternatives(TIE_SAMPLES) {
            let pieces = with_span(lie, span, &other.pieces(CHAIN_ACCURACY_MM));
            add(&mut worst, index.tube(&tube(&pieces)), &mut other_way);
        }
    }
    (worst, other_way)
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
    let inside: Vec<_> = inside.collect();
    before.copied().chain(inside).chain(after.copied()).collect()
}

/// Takes over what is worse, and notes of which solids.
fn add(worst: &mut TubeClearance, other: TubeClearance, noted: &mut Vec<usize>) {
    let is_worse = |new: &SolidNear, old: &SolidNear| new.spare_mm() < old.spare_mm();
    let mut note = |solid: usize| {
        if !noted.contains(&solid) {
            noted.push(solid);
        }
    };
    if let Some(new) = other.tightest
        && worst.tightest.is_none_or(|old| is_worse(&new, &old))
    {
        worst.tightest = Some(new);
        note(new.solid);
    }
    for new in other.too_near {
        match worst.too_near.iter_mut().find(|old| old.solid == new.solid) {
            Some(old) if is_worse(&new, old) => *old = new,
            Some(_) => continue,
            None => worst.too_near.push(new),
        }
        note(new.solid);
    }
    worst.too_near.sort_by_key(|near| near.solid);
}
