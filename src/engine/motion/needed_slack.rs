//! The least slack for which a hose holds in every position.

use rayon::prelude::*;

use super::run::{Mover, index_in, reach};
use super::{Position, Positions};
use crate::engine::RunSolution;
use crate::engine::clearance::ClearanceIndex;
use crate::engine::installed::{Holds, InstalledSolver, held_spans};
use crate::engine::lay::{MOST_SLACK_PCT, RunLay};
use crate::model::{Bay, Run};
use crate::units::EPS_MM;

/// Slacks are looked at this far apart before the least is refined, %.
const STEP_PCT: f64 = 0.5;
/// To which the least is found, %.
const FINE_PCT: f64 = 0.01;

/// The least slack that will do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NeededSlack {
    /// Percent of the drawn centre line; none where no slack up to [`MOST_SLACK_PCT`] will do.
    pub pct: Option<f64>,
    /// The cut length with it.
    pub cut_length_mm: Option<f64>,
    /// What stops at a little less, or, where none will do, at the slack in force; none where no
    /// slack at all is needed.
    pub stop: Option<Stop>,
    /// In which position, by its place in [`Positions::all`].
    pub position: usize,
}

/// What a hose does not hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stop {
    /// It is pulled tight.
    Reach,
    /// It bends tighter than it may.
    Radius,
    /// It comes too near an obstacle.
    Clearance,
    /// Its installed shape could not be found.
    Unsolved,
}

/// The least slack for which a run reaches, keeps its radius limit and its clearances in every position.
/// More slack need not do: it may bend or touch again.
pub(in crate::engine) fn needed_slack(
    index: &ClearanceIndex,
    bay: &Bay,
    run: &Run,
    solved: &RunSolution,
    lay: &RunLay,
    positions: &Positions,
) -> NeededSlack {
    let positioned =
        positions.all.iter().map(|position| (position, index_in(index, bay, position))).collect();
    let trial = Trial { mover: Mover::of(bay, run, solved, lay), positioned };
    let steps = (MOST_SLACK_PCT / STEP_PCT) as u32;
    let mut refused = None;
    for k in 0..=steps {
        let pct = STEP_PCT * f64::from(k);
        match trial.stop(pct) {
            Some(stop) => refused = Some((pct, stop)),
            None => return trial.refined(pct, refused),
        }
    }
    let now = trial.stop(solved.slack_pct()).or(refused.map(|(_, stop)| stop));
    let (position, stop) = now.map_or((0, None), |(position, stop)| (position, Some(stop)));
    NeededSlack { pct: None, cut_length_mm: None, stop, position }
}

struct Trial<'a> {
    mover: Mover<'a>,
    /// Every position with the obstacles as they stand in it.
    positioned: Vec<(&'a Position, ClearanceIndex)>,
}

impl Trial<'_> {
    fn cut_length(&self, pct: f64) -> f64 {
        self.mover.run.centreline_mm * (1.0 + pct / 100.0)
    }

    /// Between the greatest slack that will not do and the first that does.
    fn refined(&self, pct: f64, refused: Option<(f64, (usize, Stop))>) -> NeededSlack {
        let Some((mut low, mut why)) = refused else {
            let length = Some(self.cut_length(pct));
            return NeededSlack { pct: Some(pct), cut_length_mm: length, stop: None, position: 0 };
        };
        let mut high = pct;
        while high - low > FINE_PCT {
            let middle = f64::midpoint(low, high);
            match self.stop(middle) {
                Some(stop) => (low, why) = (middle, stop),
                None => high = middle,
            }
        }
        NeededSlack {
            pct: Some(high),
            cut_length_mm: Some(self.cut_length(high)),
            stop: Some(why.1),
            position: why.0,
        }
    }

    /// A position that stops this slack, and why; none where it will do. That it reaches is asked of every
    /// position before any lie is worked out.
    fn stop(&self, pct: f64) -> Option<(usize, Stop)> {
        let (run, cut) = (self.mover.run, self.cut_length(pct));
        let is_short = |(position, _): &(&Position, ClearanceIndex)| {
            let held = held_spans(run, cut, &self.mover.holds(&position.groups));
            reach(run, held.iter()).spare_mm < -EPS_MM
        };
        if let Some(short) = self.positioned.iter().position(is_short) {
            return Some((short, Stop::Reach));
        }
        let neutral = InstalledSolver::default().installed_at(run, cut, &Holds::neutral(run), None);
        let stop =
            |solver: &mut InstalledSolver,
             (k, (position, index)): (usize, &(&Position, ClearanceIndex))| {
                let installed = self.mover.installed(solver, &position.groups, &neutral);
                if !installed.is_whole() {
                    return Some((k, Stop::Unsolved));
                }
                let found = self.mover.position(installed, index, &position.groups);
                let limit = run.radius_limit_mm - EPS_MM;
                if found.min_radius_mm().is_some_and(|radius| radius < limit) {
                    return Some((k, Stop::Radius));
                }
                let near = found.clearance.is_some_and(|near| near.spare_mm() < -EPS_MM);
                near.then_some((k, Stop::Clearance))
            };
        let all = self.positioned.par_iter().enumerate().map_init(InstalledSolver::default, stop);
        all.find_first(Option::is_some).flatten()
    }
}
