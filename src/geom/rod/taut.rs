//! Nearly taut spans in closed form: a bend at each clamp, a straight between them.
//!
//! Far from a clamp a tight line is straight along the force. Towards it, with `k = √|F|` and θ the
//! angle to the force, `θ' = −2k sin(θ/2)`: `tan(θ/4)` decays as `e^{−ks}` (Euler's elastica at the
//! separatrix). A bend takes up `(4/k) sin²(θ₀/4)` of length and stands off by `(2/k) sin(θ₀/2)`; its
//! energy is `8k sin²(θ₀/4)`, its curvature at the clamp `2k sin(θ₀/2)`. The two bends do not feel
//! each other but for a share `e^{−k}` (length 1).

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use glam::DVec3;

use super::curve::Curve;
use super::shape::{RodForm, RodShape};
use super::span::{Problem, RodSpan, across, angle_between};

/// From this tightness `k` (length 1) on the bends do not feel each other: `e^{−28}` of the energy,
/// and the two halves meet within `4 e^{−14}` rad.
pub(super) const TAUT_FROM: f64 = 28.0;
/// From this tightness on the closed form is a good start (the reference notes have 4.4).
pub(super) const TIGHT_FROM: f64 = 4.4;
/// Piece of a bend, in units of `1/k`, at its clamp.
const FIRST_PIECE: f64 = 0.05;
/// Where a bend counts as straight: `e^{−19}` of its angle is left.
const BEND_LENGTH: f64 = 19.0;

/// A nearly taut line of length 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Taut {
    /// Direction of the force, and of the straight.
    along: DVec3,
    /// √|F|.
    pub(super) tightness: f64,
    bends: [Bend; 2],
}

/// A bend at a clamp.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Bend {
    angle: f64,
    /// At right angles to the straight, in the plane of the bend, to the clamp's side.
    aside: DVec3,
}

impl Taut {
    /// The closed form for these clamps; none where there is no tightness to speak of.
    pub(super) fn of(problem: &Problem) -> Option<Self> {
        let mut along = problem.chord.try_normalize()?;
        // Cheap: most spans are not tight.
        let mut tightness = estimate(problem);
        if tightness < 0.7 * TIGHT_FROM {
            return None;
        }
        let mut bends = [Bend::of(problem.t0, along, None), Bend::of(problem.t1, along, None)];
        let rounds = if tightness < TAUT_FROM { 20 } else { 200 };
        for round in 0..rounds {
            let taken = 4.0 * (bends[0].quarter() + bends[1].quarter());
            let off = 2.0 * bends.map(|b| (b.angle / 2.0).sin() * b.aside).iter().sum::<DVec3>();
            let x = scale(problem.chord, off, taken)?;
            let mut next = (problem.chord - x * off).try_normalize()?;
            let moved = next.distance(along) + (x * tightness - 1.0).abs();
            if round > 20 {
                // Clamps that point straight back make it swing.
                next = (next + along).try_normalize()?;
            }
            (along, tightness) = (next, x.recip());
            // As a start it need not be exact.
            if moved < if tightness < TAUT_FROM { 1e-3 } else { 1e-13 } {
                return Some(Self { along, tightness, bends });
            }
            bends = [
                Bend::of(problem.t0, along, Some(bends[0].aside)),
                Bend::of(problem.t1, along, Some(bends[1].aside)),
            ];
        }
        None
    }

    /// Tangents and force on `n` pieces, as a start.
    pub(super) fn fill(&self, n: usize, problem: &Problem, curve: &mut Curve) {
        curve.t.clear();
        curve.t.extend((0..=n).map(|i| {
            let s = i as f64 / n as f64;
            if s < 0.5 {
                self.bends[0].tangent(self.along, self.tightness * s)
            } else {
                self.bends[1].tangent(self.along, self.tightness * (1.0 - s))
            }
        }));
        curve.t[0] = problem.t0;
        curve.t[n] = problem.t1;
        curve.force = self.tightness * self.tightness * self.along;
    }

    /// The whole shape of `span`.
    pub(super) fn shape(&self, span: &RodSpan, problem: &Problem, shape: &mut RodShape) {
        shape.clear();
        let (k, length) = (self.tightness, span.length);
        shape.length = length;
        shape.how.form = RodForm::Taut;
        shape.force = k * k / (length * length) * self.along;
        shape.energy = 8.0 * k / length * self.bends.iter().map(Bend::quarter).sum::<f64>();
        let reach = BEND_LENGTH.min(0.5 * k);
        let mut x = 0.0;
        while x < reach {
            self.node(shape, 0, x, span.from);
            x += FIRST_PIECE * (1.0 + 0.15 * x);
        }
        let half = shape.stations.len();
        self.node(shape, 0, reach, span.from);
        if reach < 0.5 * k {
            self.node(shape, 1, reach, span.to);
        }
        for i in (0..half).rev() {
            let x = shape.stations[i] * k / length;
            self.node(shape, 1, x, span.to);
        }
        let last = shape.tangents.len() - 1;
        shape.tangents[0] = problem.t0;
        shape.tangents[last] = problem.t1;
        shape.points[0] = span.from;
        shape.points[last] = span.to;
        let tighter = usize::from(self.bends[1].peak() > self.bends[0].peak());
        let bend = &self.bends[tighter];
        shape.peak_curvature = 2.0 * k / length * bend.peak();
        // Past the half turn the tightest place is where the line points straight back.
        let inside = length / k * ((bend.angle / 4.0).tan().ln()).max(0.0);
        shape.peak_at = if tighter == 0 { inside } else { length - inside };
        let left = (-k).exp();
        shape.error.energy = left;
        shape.error.radius = left;
    }

    /// A node `x/k` from the clamp at `end`, whose place is `clamp`.
    fn node(&self, shape: &mut RodShape, end: usize, x: f64, clamp: DVec3) {
        let (bend, unit) = (&self.bends[end], shape.length / self.tightness);
        let theta = bend.theta(x);
        let sine = |angle: f64| (angle / 2.0).sin();
        // Way along and aside from the clamp to here, in units of 1/k.
        let taken = 4.0 * (bend.quarter() - (theta / 4.0).sin().powi(2));
        let aside = 2.0 * (sine(bend.angle) - sine(theta)) * bend.aside;
        let way = unit * ((x - taken) * self.along + aside);
        let (station, point) =
            if end == 0 { (unit * x, clamp + way) } else { (shape.length - unit * x, clamp - way) };
        shape.stations.push(station);
        shape.points.push(point);
        shape.tangents.push(bend.tangent(self.along, x));
        shape.curvatures.push(2.0 * sine(theta) / unit);
    }
}

/// How tight a line is, about: the bends taken as if they did not turn the straight.
pub(super) fn estimate(problem: &Problem) -> f64 {
    let Some(along) = problem.chord.try_normalize() else { return 0.0 };
    let angles = problem.angles_to(along);
    let share: f64 = angles.iter().map(|angle| (angle / 4.0).sin().powi(2)).sum();
    4.0 * share / problem.excess().max(1e-300)
}

impl Bend {
    /// The bend from `along` to the clamp's `direction`. A clamp that points straight back may pass
    /// the half turn: its bend stays on the side it had `before`.
    fn of(direction: DVec3, along: DVec3, before: Option<DVec3>) -> Self {
        let (angle, aside) = (angle_between(direction, along), across(direction, along));
        if angle > FRAC_PI_2 && before.is_some_and(|before| before.dot(aside) < 0.0) {
            return Self { angle: TAU - angle, aside: -aside };
        }
        Self { angle, aside }
    }

    /// Greatest `sin(θ/2)` of the bend.
    fn peak(&self) -> f64 {
        (self.angle.min(PI) / 2.0).sin()
    }

    fn quarter(&self) -> f64 {
        (self.angle / 4.0).sin().powi(2)
    }

    /// The angle `x/k` from the clamp.
    fn theta(&self, x: f64) -> f64 {
        4.0 * ((self.angle / 4.0).tan() * (-x).exp()).atan()
    }

    fn tangent(&self, along: DVec3, x: f64) -> DVec3 {
        let (sin, cos) = self.theta(x).sin_cos();
        cos * along + sin * self.aside
    }
}

/// The `x = 1/k` for which `|chord − x·off| = 1 − x·taken`.
fn scale(chord: DVec3, off: DVec3, taken: f64) -> Option<f64> {
    let a = off.length_squared() - taken * taken;
    let b = taken - chord.dot(off);
    let c = chord.length_squared() - 1.0;
    // a x² + 2 b x + c = 0 with c < 0: the least positive root, in the form that does not cancel.
    let root = (b * b - a * c).max(0.0).sqrt();
    let x = -c / (b + root);
    (x.is_finite() && x > 0.0).then_some(x)
}
