//! What cut lengths are acceptable, which is recommended, and the least slack for every position.

use rayon::prelude::*;

use super::trial::{Stop, Trial};
use super::{Care, InchEffect, LengthRange, RangeScan, inch_effect, ranges};
use crate::engine::clearance::ClearanceIndex;
use crate::engine::installed::InstalledSolver;
use crate::engine::{RoutingSolution, RunSolution};
use crate::model::tolerance::cut_length_tolerance_mm;
use crate::model::{Bay, Routing, Run};
use crate::units::EPS_MM;

/// Lengths up to so much over the drawn centre line are looked at, per cent.
const MOST_SLACK_PCT: f64 = 25.0;

/// About the cut length of one hose.
#[derive(Debug, Clone, PartialEq)]
pub struct LengthAdvice {
    /// Acceptable cut lengths: no shorter than the drawn centre line, for slack is never negative.
    pub ranges: Vec<LengthRange>,
    /// What lengths were looked at.
    pub looked_at: RangeScan,
    /// The length to cut to; none where no length is acceptable.
    pub recommended: Option<Recommended>,
    /// Lengths below the drawn centre line that would be acceptable where none above it is: the drawn
    /// route is to be pulled in by as much.
    pub pulled_in: Option<LengthRange>,
    /// What one inch less or more does to the tightest radius.
    pub inch: InchEffect,
    /// The least slack for every position; none where the ends do not move.
    pub needed: Option<NeededSlack>,
}

/// A length to cut to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Recommended {
    /// The cut length: the run's own where that will do.
    pub cut_mm: f64,
    /// By so much it may be missed when cutting, more or less, and still meet every limit; at most the
    /// tolerance of a hose of this length (RMA/IP-2, Table 4-8).
    pub within_mm: f64,
    /// Whether that is the whole tolerance.
    pub is_whole: bool,
}

/// The least slack that will do in every position.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NeededSlack {
    /// Percent of the drawn centre line; none where no slack up to `MOST_SLACK_PCT` will do.
    pub pct: Option<f64>,
    /// The cut length with it.
    pub cut_length_mm: Option<f64>,
    /// What stops at a little less, or, where none will do, at the slack in force; none where no
    /// slack at all is needed.
    pub stop: Option<Stop>,
    /// In which position, by its place in [`crate::engine::motion::Positions::all`].
    pub position: usize,
}

/// Advice on every run of a routing that was solved [whole](crate::engine::solve_whole), side by side;
/// none where a run has no installed shape.
pub fn advise(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
) -> Vec<Option<LengthAdvice>> {
    let index = ClearanceIndex::new(&bay.obstacles);
    let places = 0..routing.runs.len();
    places.into_par_iter().map(|place| of_run(&index, bay, routing, solution, place)).collect()
}

/// Advice on the run in one place.
pub fn advise_run(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    place: usize,
) -> Option<LengthAdvice> {
    of_run(&ClearanceIndex::new(&bay.obstacles), bay, routing, solution, place)
}

/// The least slack for every position, for every run of a routing that was solved
/// [whole](crate::engine::solve_whole), side by side; none where its ends do not move or it has no installed shape.
pub fn needed_slacks(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
) -> Vec<Option<NeededSlack>> {
    let index = ClearanceIndex::new(&bay.obstacles);
    let places = 0..routing.runs.len();
    let needed = |place| {
        solution.motion_of(place).filter(|(motion, _)| motion.rides)?;
        of_run(&index, bay, routing, solution, place)?.needed
    };
    places.into_par_iter().map(needed).collect()
}

/// The run cut to another length, its slack shared as the program shares it; none below its drawn
/// centre line.
pub fn with_cut_length(run: &Run, solved: &RunSolution, cut_mm: f64) -> Option<Run> {
    let longer_mm = cut_mm - solved.cut_length_mm;
    let slack_mm = solved.slack_mm + longer_mm;
    if slack_mm < -EPS_MM || solved.centreline_mm <= 0.0 {
        return None;
    }
    let mut run = run.clone();
    match &mut run.slack_mm {
        None => run.slack_pct = Some(100.0 * slack_mm.max(0.0) / solved.centreline_mm),
        Some(each) => {
            each.fill(0.0);
            for span in &solved.spans {
                if let Some(slack) = each.get_mut(span.place) {
                    *slack = (span.slack_mm + span.share * longer_mm).max(0.0);
                }
            }
        }
    }
    Some(run)
}

fn of_run(
    index: &ClearanceIndex,
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    place: usize,
) -> Option<LengthAdvice> {
    let run = routing.runs.get(place)?;
    let solved = solution.run(place)?;
    let lay = solution.lay_of(place)?;
    let positions = solution.motion_of(place).map(|(_, positions)| positions);
    let rides = solution.motion_of(place).is_some_and(|(motion, _)| motion.rides);
    let mut trial = Trial::of(index, bay, run, solved, lay, positions);
    let (reach_mm, position) = trial.reach_mm();
    let most_mm = solved.centreline_mm * (1.0 + MOST_SLACK_PCT / 100.0);
    let looked_at = RangeScan { from_mm: reach_mm.max(solved.centreline_mm), to_mm: most_mm };
    let found = acceptable(&mut trial, looked_at);
    let pulled_in = found.is_empty().then(|| below_drawn(&mut trial, solved, reach_mm)).flatten();
    let needed = rides.then(|| needed(&mut trial, solved, &found, (reach_mm, position)));
    let inch = inch_effect(&mut InstalledSolver::default(), solved);
    let step_mm = bay.show_units.bench_step_mm();
    let recommended = recommended(&mut trial, solved.cut_length_mm, step_mm, &found);
    Some(LengthAdvice { ranges: found, looked_at, recommended, pulled_in, inch, needed })
}

/// As drawn first; only what holds there is looked at in every position.
fn acceptable(trial: &mut Trial<'_>, scan: RangeScan) -> Vec<LengthRange> {
    let drawn = ranges(scan, Care::BENCH, |cut| trial.drawn_margin(cut).mm);
    if !trial.moves() {
        return drawn;
    }
    let within = drawn.into_iter().flat_map(|range| {
        let scan = RangeScan { from_mm: range.from_mm, to_mm: range.to_mm };
        let found = ranges(scan, Care::MOVING, |cut| trial.margin(cut).mm);
        // It is open only where the one as drawn is.
        found.into_iter().map(move |one| LengthRange {
            is_open_below: one.is_open_below && range.is_open_below,
            is_open_above: one.is_open_above && range.is_open_above,
            ..one
        })
    });
    within.collect()
}

/// The nearest range below the drawn centre line, with as much of it as the hose would reach with.
fn below_drawn(trial: &mut Trial<'_>, solved: &RunSolution, reach_mm: f64) -> Option<LengthRange> {
    let scan = RangeScan { from_mm: reach_mm, to_mm: solved.centreline_mm };
    acceptable(trial, scan).pop()
}

/// The length nearest to `cut_mm` that may be missed by the whole tolerance; else the middle of the widest
/// range. It is tried once more, and so are the lengths at both ends of its tolerance.
fn recommended(
    trial: &mut Trial<'_>,
    cut_mm: f64,
    step_mm: f64,
    found: &[LengthRange],
) -> Option<Recommended> {
    let with_room = found.iter().filter_map(|range| {
        let tolerance_mm = cut_length_tolerance_mm(range.to_mm);
        let (least, most) = (range.from_mm + tolerance_mm, range.to_mm - tolerance_mm);
        (least <= most).then(|| {
            // Another length than the run's own is on the bench's step, where one fits.
            let (least_step, most_step) =
                ((least / step_mm).ceil() * step_mm, (most / step_mm).floor() * step_mm);
            let is_own = (least..=most).contains(&cut_mm);
            let on_step = !is_own && least_step <= most_step;
            let cut_mm = if on_step {
                cut_mm.clamp(least_step, most_step)
            } else {
                cut_mm.clamp(least, most)
            };
            Recommended { cut_mm, within_mm: cut_length_tolerance_mm(cut_mm), is_whole: true }
        })
    });
    let off = |one: &Recommended| (one.cut_mm - cut_mm).abs();
    let width = |range: &LengthRange| range.to_mm - range.from_mm;
    let mut all: Vec<Recommended> = with_room.collect();
    all.sort_by(|a, b| off(a).total_cmp(&off(b)));
    let mut middles: Vec<&LengthRange> = found.iter().collect();
    middles.sort_by(|a, b| width(b).total_cmp(&width(a)));
    // On the bench's step, with half a step at least on either side: what is narrower nobody can cut.
    all.extend(middles.into_iter().filter_map(|range| {
        let cut_mm = (f64::midpoint(range.from_mm, range.to_mm) / step_mm).round() * step_mm;
        let within_mm = (cut_mm - range.from_mm).min(range.to_mm - cut_mm);
        (within_mm >= step_mm / 2.0).then_some(Recommended { cut_mm, within_mm, is_whole: false })
    }));
    all.into_iter().find(|one| {
        let ends = [one.cut_mm, one.cut_mm - one.within_mm, one.cut_mm + one.within_mm];
        ends.iter().all(|cut| trial.margin(*cut).mm.is_some_and(|mm| mm >= -EPS_MM))
    })
}

/// A little less than the least acceptable length, mm: what stops there is why it is the least.
const LESS_MM: f64 = 0.1;

fn needed(
    trial: &mut Trial<'_>,
    solved: &RunSolution,
    found: &[LengthRange],
    (reach_mm, reach_position): (f64, usize),
) -> NeededSlack {
    let Some(least) = found.first() else {
        let (stop, position) = if solved.cut_length_mm < reach_mm {
            (Stop::Reach, reach_position)
        } else {
            let margin = trial.margin(solved.cut_length_mm);
            (margin.stop, margin.position)
        };
        return NeededSlack { pct: None, cut_length_mm: None, stop: Some(stop), position };
    };
    let (stop, position) = if least.from_mm - LESS_MM < reach_mm {
        (Some(Stop::Reach).filter(|_| reach_mm > solved.centreline_mm), reach_position)
    } else if least.is_open_below {
        (None, 0)
    } else {
        let margin = trial.margin(least.from_mm - LESS_MM);
        (Some(margin.stop), margin.position)
    };
    let pct = 100.0 * (least.from_mm / solved.centreline_mm - 1.0);
    NeededSlack { pct: Some(pct), cut_length_mm: Some(least.from_mm), stop, position }
}
