//! The least slack for which a hose holds in every pose.

use rayon::prelude::*;

use super::Poses;
use super::run::{Mover, reach};
use crate::engine::clearance::ClearanceIndex;
use crate::engine::lay::RunLay;
use crate::engine::lie::LieSolver;
use crate::engine::{Missing, RunSolution};
use crate::geom::Rigid;
use crate::model::{Bay, Run};

/// The most slack that is looked at, %.
const MOST_PCT: f64 = 25.0;
/// Slacks are looked at this far apart before the least is refined, %.
const STEP_PCT: f64 = 0.5;
/// To which the least is found, %.
const FINE_PCT: f64 = 0.01;

/// The least slack that will do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NeededSlack {
    /// Percent of the drawn centre line; none where no slack up to 25 % will do.
    pub pct: Option<f64>,
    /// The cut length with it.
    pub cut_length_mm: Option<f64>,
    /// What stops at a little less, or, where none will do, at the slack in force; none where no
    /// slack at all is needed.
    pub stop: Option<Stop>,
    /// In which pose, by its place in [`Poses::all`].
    pub pose: usize,
}

/// What a hose does not hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stop {
    /// It is pulled tight.
    Reach,
    /// It bends tighter than it may.
    Radius,
    /// It comes too near a solid.
    Clearance,
    /// Its lie could not be found.
    Unsolved,
}

/// The least slack for which a run reaches, keeps its radius limit and its clearances in every pose.
/// None where the run could not be solved. More slack need not do: it may bend or touch again.
pub fn needed_slack(
    bay: &Bay,
    run: &Run,
    solved: &Result<RunSolution, Missing>,
    lay: Option<&RunLay>,
    poses: &Poses,
) -> Option<NeededSlack> {
    let mover = Mover::of(bay, run, solved, lay)?;
    let trial = Trial { bay, mover, poses, index: ClearanceIndex::new(&bay.solids) };
    let steps = (MOST_PCT / STEP_PCT) as u32;
    let mut refused = None;
    for k in 0..=steps {
        let pct = STEP_PCT * f64::from(k);
        match trial.stop(pct) {
            Some(stop) => refused = Some((pct, stop)),
            None => return Some(trial.refined(pct, refused)),
        }
    }
    let now = trial.stop(trial.slack_pct()).or(refused.map(|(_, stop)| stop));
    let (pose, stop) = now.map_or((0, None), |(pose, stop)| (pose, Some(stop)));
    Some(NeededSlack { pct: None, cut_length_mm: None, stop, pose })
}

struct Trial<'a> {
    bay: &'a Bay,
    mover: Mover<'a>,
    poses: &'a Poses,
    index: ClearanceIndex,
}

impl Trial<'_> {
    fn slack_pct(&self) -> f64 {
        let run = self.mover.run;
        if run.centreline_mm > 0.0 { 100.0 * run.slack_mm / run.centreline_mm } else { 0.0 }
    }

    fn cut_length(&self, pct: f64) -> f64 {
        self.mover.run.centreline_mm * (1.0 + pct / 100.0)
    }

    /// Between the greatest slack that will not do and the first that does.
    fn refined(&self, pct: f64, refused: Option<(f64, (usize, Stop))>) -> NeededSlack {
        let Some((mut low, mut why)) = refused else {
            let length = Some(self.cut_length(pct));
            return NeededSlack { pct: Some(pct), cut_length_mm: length, stop: None, pose: 0 };
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
            pose: why.0,
        }
    }

    /// The first pose that stops this slack, and why; none where it will do.
    fn stop(&self, pct: f64) -> Option<(usize, Stop)> {
        let cut = self.cut_length(pct);
        let mut solver = LieSolver::default();
        let neutral = {
            let holds = crate::engine::lie::Holds::neutral(self.mover.run);
            solver.lie_at(self.mover.run, cut, &holds, None)
        };
        let found = self.poses.all.par_iter().enumerate().map_init(
            || (LieSolver::default(), self.index.clone()),
            |(solver, index), (k, pose)| {
                let bodies = &pose.bodies;
                index.set_poses(|solid| self.solid_move(solid, bodies));
                let lie = self.mover.lie(solver, bodies, &neutral);
                let spare = reach(self.mover.run, &lie).spare_mm;
                if spare < -crate::units::EPS_MM {
                    return Some((k, Stop::Reach));
                }
                if !lie.is_whole() {
                    return Some((k, Stop::Unsolved));
                }
                let at = self.mover.pose(lie, index, bodies);
                let limit = self.mover.run.radius_limit_mm - crate::units::EPS_MM;
                if at.min_radius_mm().is_some_and(|radius| radius < limit) {
                    return Some((k, Stop::Radius));
                }
                let near = at.clearance.is_some_and(|near| near.spare_mm() < -crate::units::EPS_MM);
                near.then_some((k, Stop::Clearance))
            },
        );
        found.find_first(Option::is_some).flatten()
    }

    fn solid_move(&self, solid: usize, bodies: &[Rigid]) -> Rigid {
        let body = self.bay.solids.get(solid).and_then(|solid| solid.body.as_ref());
        let place = body.and_then(|id| self.bay.bodies.iter().position(|body| body.id == *id));
        place.and_then(|k| bodies.get(k)).copied().unwrap_or_default()
    }
}
