//! Boxes along the axes, for looking roughly before looking closely.

use glam::DVec3;

use super::Piece;

/// The points from `min` to `max`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Least coordinates.
    pub min: DVec3,
    /// Greatest coordinates.
    pub max: DVec3,
}

impl Bounds {
    /// Holds nothing; what is joined to it stays as it is.
    pub const NOTHING: Self =
        Self { min: DVec3::splat(f64::INFINITY), max: DVec3::splat(f64::NEG_INFINITY) };

    /// Around both.
    #[must_use]
    pub fn with(&self, other: &Self) -> Self {
        Self { min: self.min.min(other.min), max: self.max.max(other.max) }
    }

    /// Larger by `by` on every side.
    #[must_use]
    pub fn grown(&self, by: f64) -> Self {
        Self { min: self.min - by, max: self.max + by }
    }

    /// Distance between two boxes; 0 where they overlap.
    #[inline]
    pub fn distance(&self, other: &Self) -> f64 {
        (self.min - other.max).max(other.min - self.max).max(DVec3::ZERO).length()
    }

    /// Whether two boxes are `by` or more apart; `by` more than 0.
    #[inline]
    pub fn are_apart(&self, other: &Self, by: f64) -> bool {
        let gap = (self.min - other.max).max(other.min - self.max).max(DVec3::ZERO);
        gap.length_squared() >= by * by
    }

    /// Distance to a point; 0 inside.
    #[inline]
    pub fn distance_to(&self, p: DVec3) -> f64 {
        (self.min - p).max(p - self.max).max(DVec3::ZERO).length()
    }

    /// Its middle.
    pub fn middle(&self) -> DVec3 {
        0.5 * (self.min + self.max)
    }

    /// From its middle to a corner.
    pub fn half_diagonal(&self) -> f64 {
        0.5 * (self.max - self.min).length()
    }

    /// Around a piece of centre line; exact for a line, never too small for an arc.
    pub fn of_piece(piece: &Piece) -> Self {
        let (a, b) = (piece.point_at(0.0), piece.point_at(piece.length()));
        let ends = Self { min: a.min(b), max: a.max(b) };
        match *piece {
            Piece::Line { .. } => ends,
            // No place of an arc is farther from its chord than the sagitta.
            Piece::Arc { radius, angle, .. } => ends.grown(radius * (1.0 - (angle / 2.0).cos())),
        }
    }
}
