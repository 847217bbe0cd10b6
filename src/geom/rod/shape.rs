//! The answer: a span's installed shape.

use glam::{DMat3, DVec3};

use super::span::RodSpan;

/// How a shape was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum RodForm {
    /// No slack, held in line: straight.
    #[default]
    Straight,
    /// Solved on pieces of equal length.
    Pieces,
    /// Nearly taut: the closed form of two bends at the clamps and a straight between them.
    Taut,
}

/// How a shape was found, in figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct RodHow {
    /// By which form.
    pub form: RodForm,
    /// Pieces of the finest solution; 0 where it needs none.
    pub pieces: u32,
    /// Newton steps taken, all grids together.
    pub steps: u32,
    /// Whether the first start did not lead to a stable shape and another did.
    pub rescued: bool,
    /// Whether the shape given as a start was near enough to begin on the fine grid.
    pub warm: bool,
    /// Whether, of twins, the one on the start's own side was kept.
    pub kept_side: bool,
}

/// Estimated errors, as shares of the figure; from the same span solved on half as many pieces.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RodAccuracy {
    /// Of the energy.
    pub energy: f64,
    /// Of the tightest radius.
    pub radius: f64,
}

/// The stable shape of least ∫κ² ds that a start led to. Lengths mm.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RodShape {
    /// Distances of the nodes along the line, from 0 to its length.
    pub stations: Vec<f64>,
    /// The nodes; the first and the last are the span's ends.
    pub points: Vec<DVec3>,
    /// Unit tangents at the nodes; the first and the last are the span's directions.
    pub tangents: Vec<DVec3>,
    /// Curvatures at the nodes, 1/mm.
    pub curvatures: Vec<f64>,
    /// Length of the line.
    pub length: f64,
    /// ∫κ² ds, 1/mm.
    pub energy: f64,
    /// Greatest curvature, 1/mm; 0 where the line is straight.
    pub peak_curvature: f64,
    /// Where it is, along the line.
    pub peak_at: f64,
    /// The force by which the start holds the line, for a bending stiffness of 1, 1/mm².
    pub force: DVec3,
    /// Estimated errors.
    pub error: RodAccuracy,
    /// How it was found.
    pub how: RodHow,
    /// Other shapes that are as good.
    pub tie: Tie,
    /// Hardly checked against moving one way: near to snapping over, or bowing almost any way round.
    /// Small changes of the span move it far.
    pub is_soft: bool,
}

/// An image of a span on itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RodTwin {
    /// About the middle between the span's ends.
    pub(super) linear: DMat3,
    /// Whether it swaps the ends.
    pub(super) swaps: bool,
}

/// Other shapes that are as good.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[expect(
    clippy::large_enum_variant,
    reason = "kept in a shape's own memory: no allocation a solve"
)]
pub enum Tie {
    /// None.
    #[default]
    None,
    /// Held in line, it bows any way round: every turn about `axis` (unit, through the span's start).
    AnyWayRound {
        /// The line that the clamps are on.
        axis: DVec3,
    },
    /// One to three mirror images.
    Twins([Option<RodTwin>; 3]),
}

impl RodShape {
    /// Tightest radius; none where the line is straight.
    pub fn min_radius(&self) -> Option<f64> {
        (self.peak_curvature > 0.0).then(|| self.peak_curvature.recip())
    }

    /// Empties it, and keeps the memory.
    pub(super) fn clear(&mut self) {
        self.stations.clear();
        self.points.clear();
        self.tangents.clear();
        self.curvatures.clear();
        self.tie = Tie::None;
        self.is_soft = false;
        self.how = RodHow::default();
        self.error = RodAccuracy::default();
        self.force = DVec3::ZERO;
        self.energy = 0.0;
        self.peak_curvature = 0.0;
        self.peak_at = 0.0;
        self.length = 0.0;
    }

    /// The straight line from end to end.
    pub(super) fn set_straight(&mut self, span: &RodSpan, along: DVec3) {
        self.clear();
        self.length = span.length;
        self.stations.extend([0.0, span.length]);
        self.points.extend([span.from, span.to]);
        self.tangents.extend([along, along]);
        self.curvatures.extend([0.0, 0.0]);
    }

    /// Spreads what is missing at the end over the line, in proportion to the distance along.
    pub(super) fn close(&mut self, end: DVec3) {
        let Some(last) = self.points.last() else { return };
        let miss = (end - *last) / self.length;
        for (point, s) in self.points.iter_mut().zip(&self.stations) {
            *point += miss * *s;
        }
        if let Some(last) = self.points.last_mut() {
            *last = end;
        }
    }

    /// Finds the greatest curvature, between nodes too (a parabola through κ²).
    pub(super) fn find_peak(&mut self) {
        let k = &self.curvatures;
        let Some(top) = (0..k.len()).max_by(|a, b| k[*a].total_cmp(&k[*b])) else { return };
        (self.peak_curvature, self.peak_at) = (k[top], self.stations[top]);
        if top == 0 || top + 1 >= k.len() || k[top] <= 0.0 {
            return;
        }
        let step = self.stations[top + 1] - self.stations[top];
        let even = (self.stations[top] - self.stations[top - 1] - step).abs() < 1e-6 * step;
        let (a, b, c) = (k[top - 1] * k[top - 1], k[top] * k[top], k[top + 1] * k[top + 1]);
        let bend = 2.0 * b - a - c;
        if even && bend > 1e-12 * b {
            let at = 0.5 * (c - a) / bend;
            self.peak_curvature = (b + 0.25 * (c - a) * at).sqrt();
            self.peak_at += at * step;
        }
    }

    /// The point at distance `s` from the start, held between 0 and the length. The origin for an empty shape.
    pub fn point_at(&self, s: f64) -> DVec3 {
        let next =
            self.stations.partition_point(|x| *x <= s).min(self.stations.len().saturating_sub(1));
        let Some(before) = next.checked_sub(1) else {
            return self.points.first().copied().unwrap_or_default();
        };
        let (a, b) = (self.stations[before], self.stations[next]);
        let x = if b > a { ((s - a) / (b - a)).clamp(0.0, 1.0) } else { 0.0 };
        let y = 1.0 - x;
        // Hermite's cubic.
        (1.0 + 2.0 * x) * y * y * self.points[before]
            + x * x * (3.0 - 2.0 * x) * self.points[next]
            + (b - a) * x * y * (y * self.tangents[before] - x * self.tangents[next])
    }

    /// The mean of the line's points.
    pub fn centroid(&self) -> DVec3 {
        let pairs = self.points.windows(2).zip(self.stations.windows(2));
        let sum: DVec3 = pairs.map(|(p, s)| 0.5 * (p[0] + p[1]) * (s[1] - s[0])).sum();
        sum / self.length
    }
}
