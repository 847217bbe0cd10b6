//! Nearly taut spans in closed form: a bend at each clamp, a straight between them.
//!
//! Far from a clamp a tight line is straight along the force. Towards it, with `k = √|F|` and θ the
//! angle to the force, `θ' = −2k sin(θ/2)`: `tan(θ/4)` decays as `e^{−ks}` (Euler's elastica at the
//! separatrix). A bend takes up `(4/k) sin²(θ₀/4)` of length and stands off by `(2/k) sin(θ₀/2)`; its
//! energy is `8k sin²(θ₀/4)`, its curvature at the clamp `2k sin(θ₀/2)`. The two bends do not feel
//! each other but for a share `e^{−k}` (length 1).

use glam::DVec3;

use super::curve::Curve;
use super::shape::{RodForm, RodShape};
use super::span::{Problem, RodSpan, across};

/// From this tightness `k` (length 1) on, what the bends feel of each other (`e^{−40}`) is below
/// rounding.
pub(super) const TAUT_FROM: f64 = 40.0;
/// From this tightness on the closed form is a good start (the reference notes have 4.4).
pub(super) const TIGHT_FROM: f64 = 4.4;
/// Where the clamps point back this far (rad) the plane of a bend is not sure.
const BACK_RAD: f64 = 3.1;
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
        // A first look, cheap: most spans are not tight.
        let share = |angle: f64| (angle / 4.0).sin().powi(2);
        let angles = problem.angles_to(along);
        let first = 4.0 * (share(angles[0]) + share(angles[1])) / problem.excess().max(1e-300);
        if first < 0.7 * TIGHT_FROM {
            return None;
        }
        let mut tightness = first;
        for _ in 0..60 {
            let angles = problem.angles_to(along);
            let bends = [
                Bend { angle: angles[0], aside: across(problem.t0, along) },
                Bend { angle: angles[1], aside: across(problem.t1, along) },
            ];
            let taken = 4.0 * (share(angles[0]) + share(angles[1]));
            let off = 2.0 * bends.map(|b| (b.angle / 2.0).sin() * b.aside).iter().sum::<DVec3>();
            let x = scale(problem.chord, off, taken)?;
            let next = (problem.chord - x * off).try_normalize()?;
            let moved = next.distance(along) + (x * tightness - 1.0).abs();
            (along, tightness) = (next, x.recip());
            if moved < 1e-14 {
                let is_sure = bends.iter().all(|bend| bend.angle < BACK_RAD);
                return is_sure.then_some(Self { along, tightness, bends });
            }
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
        let quarter = |bend: &Bend| (bend.angle / 4.0).sin().powi(2);
        shape.energy = 8.0 * k / length * self.bends.iter().map(quarter).sum::<f64>();
        let reach = BEND_LENGTH.min(0.5 * k);
        let mut x = 0.0;
        while x < reach {
            self.node(shape, 0, x, span.from);
            x += FIRST_PIECE * (1.0 + 0.15 * x);
        }
        let half = shape.stations.len();
        self.node(shape, 0, reach, span.from);
        self.node(shape, 1, reach, span.to);
        for i in (0..half).rev() {
            let x = shape.stations[i] * k / length;
            self.node(shape, 1, x, span.to);
        }
        let last = shape.tangents.len() - 1;
        shape.tangents[0] = problem.t0;
        shape.tangents[last] = problem.t1;
        shape.points[0] = span.from;
        shape.points[last] = span.to;
        let tighter = usize::from(self.bends[1].angle > self.bends[0].angle);
        shape.peak_curvature = shape.curvatures[tighter * last];
        shape.peak_at = shape.stations[tighter * last];
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
        let taken = 4.0 * ((bend.angle / 4.0).sin().powi(2) - (theta / 4.0).sin().powi(2));
        let aside = 2.0 * (sine(bend.angle) - sine(theta)) * bend.aside;
        let way = unit * ((x - taken) * self.along + aside);
        let (station, point) = if end == 0 {
            (unit * x, clamp + way)
        } else {
            (shape.length - unit * x, clamp - way)
        };
        shape.stations.push(station);
        shape.points.push(point);
        shape.tangents.push(bend.tangent(self.along, x));
        shape.curvatures.push(2.0 * sine(theta) / unit);
    }
}

impl Bend {
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
