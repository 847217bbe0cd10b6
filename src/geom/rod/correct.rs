//! From the discrete minimum to fourth order, on the same tangents.
//!
//! The line of length 1 obeys `t'' = −F + c t` with `c = 3 F·t − 2H` and `H = |t'|²/2 + F·t`
//! constant: the right-hand side is known at every node without a derivative, so that Numerov's
//! three-point formula (Hairer, Nørsett & Wanner, "Solving ordinary differential equations I",
//! 1993, III.10) holds to fourth order. Its projection on the sphere differs from the gradient of
//! the discrete energy by the weights `1 − h²c/12` on the neighbours alone; the closure gets the
//! end terms of Euler and Maclaurin. Newton steps with the Hessian of the energy, weighted alike,
//! solve it.

use glam::DVec3;

use super::curve::Curve;
use super::newton::{Descent, FLOOR};
use super::span::Problem;
use super::system::At;

/// Shift (see [`FLOOR`]) for clamps nearly in line: their softest mode is off by the order of the
/// steps squared, to either side of 0.
const NEAR_LINE_SHIFT: f64 = 0.3;
/// More do not help.
const MOST_STEPS: u32 = 14;

/// A converged shape of fourth order.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Corrected {
    /// The first integral.
    pub(super) integral: f64,
    /// Greatest departure from it at a node.
    pub(super) spread: f64,
    /// Negative pivots at the last step.
    pub(super) negative: u32,
}

impl Descent {
    /// Newton steps until the last is below `tolerance` (rad). None where they do not settle.
    pub(super) fn correct(
        &mut self,
        problem: &Problem,
        curve: &mut Curve,
        weights: &mut Vec<f64>,
        tolerance: f64,
    ) -> Option<Corrected> {
        let mut integral = curve.first_integral();
        let mut last = 1.0_f64;
        let shift = if problem.near_line { NEAR_LINE_SHIFT } else { FLOOR };
        for _ in 0..MOST_STEPS {
            self.steps += 1;
            weigh(curve, integral, weights);
            let at = At { t: &curve.t, weights, force: curve.force, shift };
            let negative = self.system.eliminate(at)?.negative;
            let c = closure(problem, curve, weights);
            let change = self.system.solve(c)?;
            if problem.near_line {
                // Which way it bows hardly matters; the discrete energy has chosen.
                self.system.without_turn(problem.t0);
            }
            let largest = self.system.largest();
            if !largest.is_finite() || largest > last.max(0.5) {
                return None;
            }
            self.advance(curve);
            curve.force += change;
            weigh(curve, integral, weights);
            let fresh = mean_integral(curve, weights);
            let moved = (fresh - integral).abs() / (1.0 + fresh.abs());
            integral = fresh;
            if largest < tolerance && moved < tolerance {
                weigh(curve, integral, weights);
                let spread = spread(curve, weights, integral);
                return Some(Corrected { integral, spread, negative });
            }
            last = largest;
        }
        None
    }
}

/// `1 − h²c/12` at each node.
fn weigh(curve: &Curve, integral: f64, weights: &mut Vec<f64>) {
    let h = curve.step();
    let (base, slope) = (1.0 + h * h * integral / 6.0, -h * h / 4.0 * curve.force);
    weights.clear();
    weights.extend(curve.t.iter().map(|t| base + slope.dot(*t)));
}

/// `t'` at an inner node, of fourth order.
#[inline]
fn derivative(before: (DVec3, f64), after: (DVec3, f64), n: f64) -> DVec3 {
    ((2.0 * after.1 - 1.0) * after.0 - (2.0 * before.1 - 1.0) * before.0) * (0.5 * n)
}

/// `t'` at the two ends.
pub(super) fn end_derivatives(curve: &Curve, weights: &[f64]) -> [DVec3; 2] {
    let (n, h) = (curve.pieces(), curve.step());
    let t = &curve.t;
    // h²·t'' from the weights: h²c = 12 (1 − w).
    let bend = |i: usize| 12.0 * (1.0 - weights[i]) * t[i] - h * h * curve.force;
    let first = (t[1] - t[0]) - (2.0 * bend(0) + bend(1)) / 6.0;
    let last = (t[n] - t[n - 1]) + (2.0 * bend(n) + bend(n - 1)) / 6.0;
    [first / h, last / h]
}

fn closure(problem: &Problem, curve: &Curve, weights: &[f64]) -> DVec3 {
    let h = curve.step();
    let [first, last] = end_derivatives(curve, weights);
    curve.closure(problem) - (last - first) * (h * h / 12.0)
}

/// The derivatives at all nodes, ends included.
pub(super) fn derivatives(curve: &Curve, weights: &[f64], out: &mut Vec<DVec3>) {
    let n = curve.pieces() as f64;
    let [first, last] = end_derivatives(curve, weights);
    out.clear();
    out.push(first);
    let inner = curve.t.windows(3).zip(weights.windows(3));
    out.extend(inner.map(|(t, w)| derivative((t[0], w[0]), (t[2], w[2]), n)));
    out.push(last);
}

fn mean_integral(curve: &Curve, weights: &[f64]) -> f64 {
    let sum: f64 = integrals(curve, weights).sum();
    sum / (curve.pieces() - 1) as f64
}

fn spread(curve: &Curve, weights: &[f64], mean: f64) -> f64 {
    integrals(curve, weights).map(|value| (value - mean).abs()).fold(0.0, f64::max)
}

fn integrals<'a>(curve: &'a Curve, weights: &'a [f64]) -> impl Iterator<Item = f64> + 'a {
    let n = curve.pieces() as f64;
    curve.t.windows(3).zip(weights.windows(3)).map(move |(t, w)| {
        let slope = derivative((t[0], w[0]), (t[2], w[2]), n);
        0.5 * slope.length_squared() + curve.force.dot(t[1])
    })
}
