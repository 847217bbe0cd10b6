//! From any start to the minimum of the discrete energy under the closure.

use glam::DVec3;

use super::curve::{Curve, closure, energy};
use super::span::Problem;
use super::system::{At, System};

/// Greatest rotation of a tangent in one step, rad.
const CAP_RAD: f64 = 0.8;
/// Merit `E + σ|C|`, σ as a multiple of the force.
const SIGMA: f64 = 1.2;
/// Floor of the shift, in units of `h` (the soft modes of a straight clamped line begin near 40).
pub(super) const FLOOR: f64 = 1e-6;
/// The same for clamps in line, or nearly: they leave a mode of nothing, exact at the minimum only.
const NEAR_LINE_FLOOR: f64 = 1e-2;
/// A turn of a line held nearly in line that gains less than this share of the energy is not worth
/// a step.
const TURN_GAIN: f64 = 1e-6;
/// How often a line held nearly in line is turned to where it rests, and how nearly it is closed
/// then.
const MOST_TURNS: u32 = 3;
const TURN_GAP: f64 = 3e-3;
/// Shifts beyond this help no more.
const SHIFT_MAX: f64 = 1e7;

impl Problem {
    pub(super) fn floor(&self) -> f64 {
        if self.near_line { NEAR_LINE_FLOOR } else { FLOOR }
    }
}

/// How far to go.
#[derive(Debug, Clone, Copy)]
pub(super) struct Goal {
    /// Greatest rotation of the last step, rad.
    pub(super) step: f64,
    pub(super) iterations: u32,
}

/// How it ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Outcome {
    /// A minimum: three negative pivots without a shift.
    Minimum,
    /// In balance, but not a minimum.
    Saddle,
    /// Neither.
    Stalled,
}

/// Memory of the descent.
#[derive(Debug, Clone, Default)]
pub(super) struct Descent {
    pub(super) system: System,
    pub(super) ones: Vec<f64>,
    trial: Vec<DVec3>,
    /// Steps taken since the solve began.
    pub(super) steps: u32,
}

impl Descent {
    /// Brings `curve` to a minimum near by; it keeps its number of pieces.
    pub(super) fn minimise(&mut self, problem: &Problem, curve: &mut Curve, goal: Goal) -> Outcome {
        self.ones.resize(curve.t.len(), 1.0);
        let floor = problem.floor();
        let mut shift = floor;
        let (mut last, mut turns) = (f64::INFINITY, 0);
        for _ in 0..goal.iterations {
            self.steps += 1;
            let Some((used, first)) = self.convex(curve, (shift, floor)) else {
                return Outcome::Stalled;
            };
            let c = curve.closure(problem);
            let Some(change) = self.system.solve(c) else { return Outcome::Stalled };
            let largest = self.system.largest();
            if !largest.is_finite() {
                return Outcome::Stalled;
            }
            let gap = c.length();
            if problem.near_line && turns < MOST_TURNS && gap < TURN_GAP {
                turns += 1;
                curve.turn_to_rest(problem);
                continue;
            }
            let is_turned =
                problem.near_line && self.system.slope().abs() < TURN_GAIN * curve.energy();
            if (largest < goal.step || is_turned) && gap < goal.step {
                if is_turned {
                    self.system.without_turn(problem.t0);
                }
                curve.force += change;
                self.advance(curve);
                return if first { Outcome::Minimum } else { Outcome::Saddle };
            }
            let share = (CAP_RAD / largest).min(1.0);
            match self.search(problem, curve, (change, c), share) {
                Some(taken) => {
                    curve.force += taken * change;
                    let eased = if first { floor } else { used * 0.2 };
                    shift = if taken < 0.1 && !first { used } else { eased.max(floor) };
                    last = largest;
                }
                // Near the end rounding decides the merit: take the step as it is.
                None if largest < 1e-5 && last < 1e-2 => {
                    self.advance(curve);
                    curve.force += change;
                    last = largest;
                }
                None => {
                    shift = (used * 10.0).max(1.0);
                    if shift > SHIFT_MAX {
                        return Outcome::Stalled;
                    }
                }
            }
        }
        Outcome::Stalled
    }

    /// Eliminates with the least shift tried that leaves three negative pivots; tells the shift
    /// and whether the first try (at the floor) did.
    fn convex(&mut self, curve: &Curve, (start, floor): (f64, f64)) -> Option<(f64, bool)> {
        let mut shift = start;
        loop {
            let at = At { t: &curve.t, weights: &self.ones, force: curve.force, shift };
            if self.system.eliminate(at).is_some_and(|inertia| inertia.negative == 3) {
                return Some((shift, shift <= floor));
            }
            shift = (8.0 * shift).max(0.02);
            if shift > SHIFT_MAX {
                return None;
            }
        }
    }

    /// Backtracks until the merit falls; leaves the new tangents in `curve`.
    fn search(
        &mut self,
        problem: &Problem,
        curve: &mut Curve,
        (change, c): (DVec3, DVec3),
        mut share: f64,
    ) -> Option<f64> {
        self.trial.clone_from(&curve.t);
        let sigma = SIGMA * (curve.force + change).length() + 1e-3;
        let merit = curve.energy() + sigma * c.length();
        let slope = self.system.slope() - curve.force.dot(c) - sigma * c.length();
        for _ in 0..8 {
            self.system.apply(&curve.t, share, &mut self.trial);
            let reached = energy(&self.trial) + sigma * closure(&self.trial, problem).length();
            if reached < merit + 1e-4 * share * slope.min(0.0) {
                std::mem::swap(&mut curve.t, &mut self.trial);
                return Some(share);
            }
            share *= 0.5;
        }
        None
    }

    /// Moves `curve` by the whole step.
    pub(super) fn advance(&mut self, curve: &mut Curve) {
        self.trial.clone_from(&curve.t);
        self.system.apply(&curve.t, 1.0, &mut self.trial);
        std::mem::swap(&mut curve.t, &mut self.trial);
    }

    /// How many negative pivots the system at `curve` has with `shift`; none where a pivot
    /// vanishes.
    pub(super) fn count(&mut self, curve: &Curve, weights: &[f64], shift: f64) -> Option<u32> {
        let at = At { t: &curve.t, weights, force: curve.force, shift };
        self.system.eliminate(at).map(|inertia| inertia.negative)
    }

    /// Leaves a saddle along its most unstable mode, by `angle` at most, to the side of `side`.
    pub(super) fn kick(&mut self, curve: &mut Curve, side: DVec3, angle: f64) -> bool {
        self.ones.resize(curve.t.len(), 1.0);
        let Some(_) = self.convex(curve, (FLOOR, FLOOR)) else { return false };
        self.system.start_with(side);
        // Inverse iteration on the shifted system; the closure is kept.
        for _ in 0..6 {
            let largest = self.system.largest();
            if !(largest.is_finite() && largest > 0.0) {
                return false;
            }
            self.system.feed_back(largest.recip());
            if self.system.solve(DVec3::ZERO).is_none() {
                return false;
            }
        }
        let largest = self.system.largest();
        if !(largest.is_finite() && largest > 0.0) {
            return false;
        }
        self.trial.clone_from(&curve.t);
        self.system.apply(&curve.t, angle / largest, &mut self.trial);
        std::mem::swap(&mut curve.t, &mut self.trial);
        true
    }
}
