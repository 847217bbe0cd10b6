//! What a solve starts from.

use std::f64::consts::TAU;

use glam::DVec3;

use super::curve::Curve;
use super::shape::RodShape;
use super::span::{Problem, across};

/// What a solve starts from: it decides which of several stable shapes is reached.
#[derive(Debug, Clone, Copy)]
pub enum RodSeed<'a> {
    /// The drawn route: its tangents (any length but zero) at equal shares of the way, ends
    /// included.
    Route(&'a [DVec3]),
    /// Nothing but the span itself.
    Plain,
    /// The shape of a span that differed little.
    Previous(&'a RodShape),
}

/// Least and greatest bow added to a start, rad.
const BOW_RAD: [f64; 2] = [0.05, 0.2];
/// How far the bow of a start leans out of the plane of the side wanted: no start lies in a plane,
/// where a saddle would look like a minimum.
const LEAN: f64 = 0.17;

impl Curve {
    /// Tangents of `seed` on `n` pieces, with a bow towards `side` that takes up what is left over.
    pub(super) fn start(&mut self, n: usize, problem: &Problem, seed: RodSeed<'_>, side: DVec3) {
        self.force = DVec3::ZERO;
        self.t.clear();
        let tangents = match seed {
            RodSeed::Route(tangents) => tangents,
            RodSeed::Previous(shape) => {
                self.t.extend((0..=n).map(|i| shape.tangent_at_share(i as f64 / n as f64)));
                self.pin(problem);
                return;
            }
            RodSeed::Plain => &[],
        };
        if tangents.len() >= 2 {
            self.t.extend((0..=n).map(|i| at_share(tangents, i as f64 / n as f64)));
        } else {
            self.t.extend((0..=n).map(|i| bezier(problem, i as f64 / n as f64)));
        }
        self.pin(problem);
        self.bow(problem, side);
    }

    fn pin(&mut self, problem: &Problem) {
        let last = self.t.len() - 1;
        self.t[0] = problem.t0;
        self.t[last] = problem.t1;
    }

    /// Adds `a sin(2πs)` towards `side`; `∫(a sin 2πs)²/2 = a²/4` is the way it takes up.
    pub(super) fn bow(&mut self, problem: &Problem, side: DVec3) {
        let n = self.pieces();
        let reach = (self.closure(problem) + problem.chord).length();
        let over = (reach - problem.chord.length()).max(0.0);
        let amplitude = (2.0 * over.sqrt()).clamp(BOW_RAD[0], BOW_RAD[1]);
        let along = problem.chord.normalize_or(problem.t0);
        let towards = across(side, along);
        let lean = (towards + LEAN * along.cross(towards)).normalize_or(towards);
        for i in 1..n {
            let s = i as f64 / n as f64;
            // A little of the second mode: no start has the symmetry of its span.
            let weight = amplitude * ((TAU * s).sin() + 0.05 * (0.5 * TAU * s).sin());
            let moved = self.t[i] + weight * lean;
            self.t[i] = moved.normalize_or(lean);
        }
    }
}

/// Tangent at share `s` of a list at equal shares.
fn at_share(tangents: &[DVec3], s: f64) -> DVec3 {
    let place = s * (tangents.len() - 1) as f64;
    let i = (place as usize).min(tangents.len() - 2);
    let part = place - i as f64;
    (tangents[i] * (1.0 - part) + tangents[i + 1] * part).normalize_or(DVec3::X)
}

/// The way a Bézier curve with handles of half the length goes.
fn bezier(problem: &Problem, s: f64) -> DVec3 {
    let (a, b) = (problem.t0 / 2.0, problem.t1 / 2.0);
    let middle = problem.chord - a - b;
    let r = 1.0 - s;
    let way = r * r * a + 2.0 * r * s * middle + s * s * b;
    way.normalize_or(across(problem.t1, problem.t0))
}

impl RodShape {
    /// Tangent at a share of the length.
    pub(super) fn tangent_at_share(&self, share: f64) -> DVec3 {
        let s = share * self.length;
        let next = self.stations.partition_point(|x| *x <= s).clamp(1, self.stations.len() - 1);
        let (a, b) = (self.stations[next - 1], self.stations[next]);
        let part = if b > a { ((s - a) / (b - a)).clamp(0.0, 1.0) } else { 0.0 };
        let (t, u) = (self.tangents[next - 1], self.tangents[next]);
        (t * (1.0 - part) + u * part).normalize_or(t)
    }
}
