//! What other cut lengths would do: which will do, what an inch changes, and the least slack for every
//! position. It takes longer than a frame, and is worked out when it is asked for.

use rayon::prelude::*;

use super::routing::ends_of;
use crate::engine::clearance::{ClearanceIndex, TubeEnd};
use crate::engine::installed::{
    Holds, InchEffect, InstalledSolver, LengthRange, RangeScan, Sketch, inch_effect, ranges,
};
use crate::engine::motion::{NeededSlack, needed_slack};
use crate::engine::{RoutingSolution, RunSolution};
use crate::model::{Bay, Routing};
use crate::units::EPS_MM;

/// Lengths up to so much over the drawn centre line are looked at, per cent.
pub const MOST_SLACK_PCT: f64 = 25.0;

/// About the cut length of one hose.
#[derive(Debug, Clone, PartialEq)]
pub struct LengthAdvice {
    /// Cut lengths whose installed shape, in the position as drawn, keeps the radius limit and the distances to obstacles.
    pub ranges: Vec<LengthRange>,
    /// What lengths were looked at: from the shortest that reaches under pressure.
    pub looked_at: RangeScan,
    /// What one inch less or more does to the tightest radius.
    pub inch: InchEffect,
    /// The least slack for every position; none where the ends do not move.
    pub needed: Option<NeededSlack>,
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

/// The least slack for every position, for every run of a routing that was solved
/// [whole](crate::engine::solve_whole), side by side; none where its ends do not move or it has no installed shape.
pub fn needed_slacks(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
) -> Vec<Option<NeededSlack>> {
    let index = ClearanceIndex::new(&bay.obstacles);
    let places = 0..routing.runs.len();
    places.into_par_iter().map(|place| needed(&index, bay, routing, solution, place)).collect()
}

fn needed(
    index: &ClearanceIndex,
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    place: usize,
) -> Option<NeededSlack> {
    let (run, solved) = (routing.runs.get(place)?, solution.run(place)?);
    let lay = solution.lay_of(place)?;
    let (_, positions) = solution.motion_of(place).filter(|(motion, _)| motion.rides)?;
    Some(needed_slack(index, bay, run, solved, lay, positions))
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

fn of_run(
    index: &ClearanceIndex,
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    place: usize,
) -> Option<LengthAdvice> {
    let run = routing.runs.get(place)?;
    let solved = solution.run(place)?;
    solution.lay_of(place)?;
    let needed = needed(index, bay, routing, solution, place);
    let mut solver = InstalledSolver::default();
    let looked_at = scan(solved);
    let (holds, ends) = (Holds::neutral(solved), ends_of(bay, run, solved));
    let found = ranges(looked_at, |cut| margin(&mut solver, index, solved, &holds, ends, cut));
    let inch = inch_effect(&mut solver, solved);
    Some(LengthAdvice { ranges: found, looked_at, inch, needed })
}

/// From the shortest that reaches, shortened by pressure, to much slack.
fn scan(run: &RunSolution) -> RangeScan {
    let kept = (1.0 - run.hose.shortening_pct / 100.0).max(0.1);
    let to_mm = run.centreline_mm * (1.0 + MOST_SLACK_PCT / 100.0);
    RangeScan { from_mm: (run.taut_limit_mm / kept).min(to_mm), to_mm }
}

/// How far a cut length is from not doing, mm; negative where it does not.
fn margin(
    solver: &mut InstalledSolver,
    index: &ClearanceIndex,
    run: &RunSolution,
    holds: &Holds,
    ends: [TubeEnd<'_>; 2],
    cut_mm: f64,
) -> Option<f64> {
    let least_mm = run.radius_limit_mm - EPS_MM;
    if index.is_empty() {
        return solver.min_radius_at(run, cut_mm).map(|radius_mm| radius_mm - least_mm);
    }
    let installed = match solver.sketch_at(run, cut_mm, holds, least_mm) {
        Sketch::NotSolved => return None,
        // A radius too tight is answer enough.
        Sketch::TooTight(radius_mm) => return Some(radius_mm - least_mm),
        Sketch::Installed(installed) => installed,
    };
    let radius = installed.min_radius_mm().unwrap_or(f64::INFINITY) - least_mm;
    let nearest = index.tube(&installed.tube(run, ends)).tightest;
    let spare = nearest.map_or(f64::INFINITY, |near| near.spare_mm());
    Some(radius.min(spare + EPS_MM))
}
