//! A discrete rod of length 1: tangents at equal steps, and the force that holds it.

use glam::{DQuat, DVec3};

use super::span::Problem;

/// Tangents, ends included, and the force.
#[derive(Debug, Clone, Default)]
pub(super) struct Curve {
    pub(super) t: Vec<DVec3>,
    pub(super) force: DVec3,
}

impl Curve {
    pub(super) fn pieces(&self) -> usize {
        self.t.len().saturating_sub(1)
    }

    pub(super) fn step(&self) -> f64 {
        1.0 / self.pieces() as f64
    }

    pub(super) fn copy_from(&mut self, other: &Self) {
        self.t.clear();
        self.t.extend_from_slice(&other.t);
        self.force = other.force;
    }

    /// `E = Σ|t_{i+1} − t_i|²/(2h)`.
    pub(super) fn energy(&self) -> f64 {
        energy(&self.t)
    }

    /// By how much the end misses its place.
    pub(super) fn closure(&self, problem: &Problem) -> DVec3 {
        closure(&self.t, problem)
    }

    /// Turns a line whose clamps are nearly in line to where it rests, about that line: there is next
    /// to nothing in the energy to lead Newton steps. To first order in what the clamps are off the
    /// line, the energy changes with the turn as `−(b·Rv)` summed over the clamps (`b` the clamp,
    /// `v` the tangent beside it) and the force against the way between the ends.
    pub(super) fn turn_to_rest(&mut self, problem: &Problem) {
        let (n, h, axis) = (self.pieces(), self.step(), problem.t0);
        let between = problem.chord - 0.5 * h * (problem.t0 + problem.t1);
        let pairs =
            [(problem.t0 / h, self.t[1]), (problem.t1 / h, self.t[n - 1]), (-between, self.force)];
        let (mut cosine, mut sine) = (0.0, 0.0);
        for (b, v) in pairs {
            cosine += b.dot(v) - b.dot(axis) * axis.dot(v);
            sine += b.dot(axis.cross(v));
        }
        if f64::hypot(cosine, sine) < 1e-12 {
            return;
        }
        let turn = DQuat::from_axis_angle(axis, sine.atan2(cosine));
        for t in &mut self.t[1..n] {
            *t = turn * *t;
        }
        self.force = turn * self.force;
    }

    /// `H = mean(|Δt|²/(2h²) + F·t_mid)`: the first integral, of second order.
    pub(super) fn first_integral(&self) -> f64 {
        let n = self.pieces() as f64;
        let pull: f64 = self.t.windows(2).map(|p| 0.5 * self.force.dot(p[0] + p[1])).sum();
        self.energy() + pull / n
    }
}

pub(super) fn energy(t: &[DVec3]) -> f64 {
    let n = (t.len() - 1) as f64;
    0.5 * n * t.windows(2).map(|pair| (pair[1] - pair[0]).length_squared()).sum::<f64>()
}

pub(super) fn closure(t: &[DVec3], problem: &Problem) -> DVec3 {
    let n = t.len() - 1;
    let inner: DVec3 = t[1..n].iter().sum();
    (inner + 0.5 * (t[0] + t[n])) / n as f64 - problem.chord
}
