//! The cut length that the bench cuts: rounded up to its step, it may be more than the hose has room for.

use super::trial::{Stop, Trial};
use crate::engine::RunSolution;
use crate::engine::clearance::ClearanceIndex;
use crate::engine::lay::RunLay;
use crate::engine::motion::Positions;
use crate::model::{Bay, Run};
use crate::units::{EPS_MM, Length};

/// A limit that a hose meets at its calculated cut length and not at that length rounded up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BenchStop {
    /// The length rounded up, mm.
    pub cut_mm: f64,
    /// What is missed.
    pub stop: Stop,
    /// By how much, mm; none where the installed shape could not be found.
    pub short_mm: Option<f64>,
    /// In which position, by its place in [`Positions::all`].
    pub position: usize,
    /// One step of the bench less, where that meets every limit, mm.
    pub instead_mm: Option<f64>,
}

/// What stops the length that the bench cuts; none where it meets every limit, or the calculated one does not.
pub(in crate::engine) fn bench_stop(
    index: &ClearanceIndex,
    bay: &Bay,
    (run, solved, lay): (&Run, &RunSolution, &RunLay),
    positions: Option<&Positions>,
) -> Option<BenchStop> {
    let step_mm = bay.show_units.bench_step_mm();
    let cut_mm = Length::from_mm(solved.cut_length_mm).up_to_bench_mm(bay.show_units);
    if cut_mm - solved.cut_length_mm < EPS_MM {
        return None;
    }
    let mut trial = Trial::of(index, bay, run, solved, lay, positions);
    let found = trial.margin(cut_mm);
    if found.holds() || !trial.margin(solved.cut_length_mm).holds() {
        return None;
    }
    let less_mm = cut_mm - step_mm;
    let has_room = less_mm >= solved.centreline_mm.max(trial.reach_mm().0);
    let instead_mm = (has_room && trial.margin(less_mm).holds()).then_some(less_mm);
    let short_mm = found.mm.map(|mm| -mm);
    Some(BenchStop { cut_mm, stop: found.stop, short_mm, position: found.position, instead_mm })
}
