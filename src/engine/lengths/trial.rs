//! One hose at other cut lengths, in every position.

use crate::engine::RunSolution;
use crate::engine::clearance::{ClearanceIndex, TubeEnd};
use crate::engine::installed::{Holds, InstalledRun, InstalledSolver, Sketch, held_spans};
use crate::engine::lay::{RunLay, ends_of};
use crate::engine::motion::{Mover, Position, Positions, index_in};
use crate::model::{Bay, Run};
use crate::units::{EPS_MM, LengthUnit};

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

/// How far a cut length is from not doing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Margin {
    /// mm; negative where it does not do, none where there is no answer.
    pub(super) mm: Option<f64>,
    /// What it is short of, or nearest to being short of.
    pub(super) stop: Stop,
    /// In which position, by its place in [`Positions::all`].
    pub(super) position: usize,
}

impl Margin {
    pub(super) fn holds(&self) -> bool {
        self.mm.is_some_and(|mm| mm >= 0.0)
    }
}

/// A hose with all that it is tried against.
pub(super) struct Trial<'a> {
    run: &'a RunSolution,
    mover: Mover<'a>,
    ends: [TubeEnd<'a>; 2],
    drawn: Holds,
    index: &'a ClearanceIndex,
    /// Every position but the one as drawn, with its place and with the obstacles as they stand in it: the
    /// one that stopped last first. None where nothing moves.
    moved: Vec<(usize, &'a Position, ClearanceIndex)>,
    solver: InstalledSolver,
}

impl<'a> Trial<'a> {
    pub(super) fn of(
        index: &'a ClearanceIndex,
        bay: &Bay,
        run: &'a Run,
        solved: &'a RunSolution,
        lay: &'a RunLay,
        positions: Option<&'a Positions>,
    ) -> Self {
        let all = positions.map_or(&[][..], |positions| &positions.all).iter().enumerate();
        Self {
            run: solved,
            mover: Mover::of(bay, run, solved, lay),
            ends: ends_of(bay, run, solved),
            drawn: Holds::as_drawn(solved),
            index,
            moved: all.skip(1).map(|(k, p)| (k, p, index_in(index, bay, p))).collect(),
            solver: InstalledSolver::default(),
        }
    }

    /// The least cut length that reaches from hold to hold in every position, shortened by pressure, and
    /// the position that asks for it; infinite where no length does as the slack is shared.
    pub(super) fn reach_mm(&self) -> (f64, usize) {
        let kept = (1.0 - self.run.hose.shortening_pct / 100.0).max(EPS_MM);
        let needed = |holds: &Holds| {
            let spans = held_spans(self.run, self.run.cut_length_mm, holds);
            let all = self.run.spans.iter().zip(&spans).map(|(free, held)| {
                let lacks = held.from.distance(held.to) / kept - held.length;
                match free.share > 0.0 {
                    true => self.run.cut_length_mm + lacks / free.share,
                    // Less than the bench can cut and mark is no fault (`taut`).
                    false if lacks > LengthUnit::Inch.bench_step_mm() => f64::INFINITY,
                    false => 0.0,
                }
            });
            all.fold(0.0, f64::max)
        };
        let moved = self.moved.iter().map(|(k, p, _)| (needed(&self.mover.holds(&p.groups)), *k));
        moved.fold((needed(&self.drawn), 0), |worst, one| if one.0 > worst.0 { one } else { worst })
    }

    /// As drawn, shape and margin.
    fn as_drawn(&mut self, cut_mm: f64) -> (Option<Box<InstalledRun>>, Margin) {
        let least_mm = self.least_radius_mm();
        let of = |mm, stop| Margin { mm, stop, position: 0 };
        match self.solver.sketch_at(self.run, cut_mm, &self.drawn, least_mm) {
            Sketch::NotSolved => (None, of(None, Stop::Unsolved)),
            // A radius too tight is answer enough.
            Sketch::TooTight(radius) => (None, of(Some(radius - least_mm), Stop::Radius)),
            Sketch::Installed(installed) => {
                let tube = installed.tube(self.run, self.ends);
                let near = self.index.tube(&tube).tightest.map(|near| near.spare_mm());
                let margin = self.nearer(installed.min_radius_mm(), near, 0);
                (Some(installed), margin)
            }
        }
    }

    fn least_radius_mm(&self) -> f64 {
        self.run.radius_limit_mm - EPS_MM
    }

    fn nearer(&self, radius_mm: Option<f64>, spare_mm: Option<f64>, position: usize) -> Margin {
        let radius = radius_mm.unwrap_or(f64::INFINITY) - self.least_radius_mm();
        let spare = spare_mm.map_or(f64::INFINITY, |spare| spare + EPS_MM);
        let (mm, stop) =
            if radius <= spare { (radius, Stop::Radius) } else { (spare, Stop::Clearance) };
        Margin { mm: Some(mm), stop, position }
    }

    /// The margin as drawn, whatever it is elsewhere.
    pub(super) fn drawn_margin(&mut self, cut_mm: f64) -> Margin {
        self.as_drawn(cut_mm).1
    }

    /// The margin in every position: the least where it holds, else that of the first that does not.
    pub(super) fn margin(&mut self, cut_mm: f64) -> Margin {
        let (shape, mut least) = self.as_drawn(cut_mm);
        let Some(shape) = shape.filter(|_| least.holds()) else { return least };
        for at in 0..self.moved.len() {
            let found = self.in_position(at, &shape);
            if !found.holds() {
                // Asked first next time: what stops one length stops the next.
                self.moved.swap(0, at);
                return found;
            }
            if found.mm < least.mm {
                least = found;
            }
        }
        least
    }

    fn in_position(&mut self, at: usize, drawn: &InstalledRun) -> Margin {
        let (position, placed, index) = &self.moved[at];
        let installed = self.mover.installed(&mut self.solver, &placed.groups, drawn);
        if !installed.is_whole() {
            return Margin { mm: None, stop: Stop::Unsolved, position: *position };
        }
        let found = self.mover.position(installed, index, &placed.groups);
        let spare = found.clearance.map(|near| near.spare_mm());
        self.nearer(found.min_radius_mm(), spare, *position)
    }

    /// Whether anything moves.
    pub(super) fn moves(&self) -> bool {
        !self.moved.is_empty()
    }
}
