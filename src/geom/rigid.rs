//! Rigid moves: a turn, then a shift.

use glam::{DMat3, DVec3};

use super::Piece;

/// A rigid move `p ↦ turn · p + shift`. `turn` is a rotation; a mirror is none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rigid {
    /// The rotation.
    pub turn: DMat3,
    /// Where the origin goes.
    pub shift: DVec3,
}

impl Default for Rigid {
    fn default() -> Self {
        Self::IDENTITY
    }
}

impl Rigid {
    /// Leaves everything where it is.
    pub const IDENTITY: Self = Self { turn: DMat3::IDENTITY, shift: DVec3::ZERO };

    /// A shift without a turn.
    pub const fn shifted(shift: DVec3) -> Self {
        Self { turn: DMat3::IDENTITY, shift }
    }

    /// The turn by `radians` about the line through `about` along `axis`, right-handed. An axis of
    /// no length turns nothing.
    pub fn pivoted(about: DVec3, axis: DVec3, radians: f64) -> Self {
        let turn = axis
            .try_normalize()
            .map_or(DMat3::IDENTITY, |axis| DMat3::from_axis_angle(axis, radians));
        Self { turn, shift: about - turn * about }
    }

    /// Takes +Z to `axis`, a unit vector, and the origin to `shift`.
    pub fn from_z(axis: DVec3, shift: DVec3) -> Self {
        let (x, y) = axis.any_orthonormal_pair();
        Self { turn: DMat3::from_cols(x, y, axis), shift }
    }

    /// Where a point goes.
    pub fn point(&self, p: DVec3) -> DVec3 {
        self.turn * p + self.shift
    }

    /// Where a point came from.
    pub fn point_back(&self, p: DVec3) -> DVec3 {
        self.turn.transpose() * (p - self.shift)
    }

    /// First `first`, then this.
    #[must_use]
    pub fn after(&self, first: &Self) -> Self {
        Self { turn: self.turn * first.turn, shift: self.point(first.shift) }
    }

    /// The piece as it was before the move.
    pub(super) fn piece_back(&self, piece: &Piece) -> Piece {
        let back = self.turn.transpose();
        match *piece {
            Piece::Line { start, direction, length } => Piece::Line {
                start: back * (start - self.shift),
                direction: back * direction,
                length,
            },
            Piece::Arc { start, direction, inward, radius, angle } => Piece::Arc {
                start: back * (start - self.shift),
                direction: back * direction,
                inward: back * inward,
                radius,
                angle,
            },
        }
    }
}
