//! A piece as its chord, for looking roughly before looking closely.

use glam::DVec3;

use super::line_line::line_line;
use crate::geom::{Bounds, Piece};

/// The chord of a piece; no place of the piece is farther from it than its sagitta.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chord {
    start: DVec3,
    direction: DVec3,
    length: f64,
    sagitta: f64,
}

impl Chord {
    /// The chord of a piece.
    pub fn of(piece: &Piece) -> Self {
        match *piece {
            Piece::Line { start, direction, length } => {
                Self { start, direction, length, sagitta: 0.0 }
            }
            Piece::Arc { start, radius, angle, .. } => {
                let sagitta = radius * (1.0 - (angle / 2.0).cos());
                Self { sagitta, ..Self::between(start, piece.point_at(piece.length())) }
            }
        }
    }

    /// The straight between two points.
    pub(super) fn between(a: DVec3, b: DVec3) -> Self {
        let step = b - a;
        let length = step.length();
        let direction = if length > 0.0 { step / length } else { DVec3::X };
        Self { start: a, direction, length, sagitta: 0.0 }
    }

    /// A box around the piece.
    pub fn bounds(&self) -> Bounds {
        let end = self.start + self.direction * self.length;
        Bounds { min: self.start.min(end), max: self.start.max(end) }.grown(self.sagitta)
    }

    /// No place of the piece is nearer to `p` than this.
    #[inline]
    pub fn least(&self, p: DVec3) -> f64 {
        let from = p - self.start;
        let along = from.dot(self.direction).clamp(0.0, self.length);
        (from - self.direction * along).length() - self.sagitta
    }

    /// No places of the two pieces are nearer to each other than this.
    #[inline]
    pub fn least_to(&self, other: &Self) -> f64 {
        let (s, t) = line_line(
            (self.start, self.direction, self.length),
            (other.start, other.direction, other.length),
        );
        let (p, q) = (self.start + self.direction * s, other.start + other.direction * t);
        p.distance(q) - self.sagitta - other.sagitta
    }
}
