//! A discrete rod of length 1: tangents at equal steps, and the force that holds it.

use glam::DVec3;

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
