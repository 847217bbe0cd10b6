//! The span to be solved, and the same in a scale in which its length is 1.

use glam::DVec3;

use super::RodError;

/// A span held in place and direction at both ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RodSpan {
    /// Where it begins, mm.
    pub from: DVec3,
    /// The way it begins; any length but zero.
    pub from_direction: DVec3,
    /// Where it ends, mm.
    pub to: DVec3,
    /// The way it goes on at its end; any length but zero.
    pub to_direction: DVec3,
    /// Its length, mm.
    pub length: f64,
}

/// Slack below this share of the length is none.
pub(super) const NO_SLACK: f64 = 1e-9;
/// Within this (rad, or share of the length) clamps count as held in line.
pub(super) const IN_LINE_RAD: f64 = 1e-6;
/// Within this they are nearly in line.
const NEAR_LINE_RAD: f64 = 0.02;

/// A span scaled to length 1, with unit directions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Problem {
    /// From one end to the other.
    pub(super) chord: DVec3,
    pub(super) t0: DVec3,
    pub(super) t1: DVec3,
    /// Whether both ends and both directions are on one line, or nearly: the line then bows (almost)
    /// any way round.
    pub(super) near_line: bool,
}

impl RodSpan {
    pub(super) fn scaled(&self) -> Result<Problem, RodError> {
        let finite = self.from.is_finite() && self.to.is_finite() && self.length.is_finite();
        if !finite || self.length <= 0.0 {
            return Err(RodError::Input);
        }
        let t0 = unit(self.from_direction).ok_or(RodError::Input)?;
        let t1 = unit(self.to_direction).ok_or(RodError::Input)?;
        let chord = (self.to - self.from) / self.length;
        if !chord.is_finite() {
            return Err(RodError::Input);
        }
        let near = |v: DVec3| v.cross(t0).length() < NEAR_LINE_RAD;
        Ok(Problem { chord, t0, t1, near_line: near(t1) && near(chord) })
    }

    pub(super) fn too_short(&self) -> RodError {
        RodError::TooShort { length_mm: self.length, chord_mm: self.from.distance(self.to) }
    }
}

impl Problem {
    /// What is left over the straight way.
    pub(super) fn excess(&self) -> f64 {
        1.0 - self.chord.length()
    }

    /// The angles of the two clamps against the direction `along` (unit).
    pub(super) fn angles_to(&self, along: DVec3) -> [f64; 2] {
        [angle_between(self.t0, along), angle_between(self.t1, along)]
    }
}

/// Angle between unit vectors, rad, exact also for small ones and near a half turn.
pub(super) fn angle_between(a: DVec3, b: DVec3) -> f64 {
    a.cross(b).length().atan2(a.dot(b))
}

/// None for a vector of no length or not finite; scaled first so that nothing overflows.
pub(super) fn unit(v: DVec3) -> Option<DVec3> {
    let scale = v.abs().max_element();
    (scale.is_finite() && scale > 0.0).then(|| (v / scale).normalize())
}

/// `v` less its part along `axis` (unit), made unit; a fixed direction at right angles where
/// nothing is left.
pub(super) fn across(v: DVec3, axis: DVec3) -> DVec3 {
    let rest = v - axis * axis.dot(v);
    if rest.length_squared() > 1e-16 * v.length_squared().max(1e-300) {
        // Twice: what is left of a vector nearly along the axis is not quite at right angles.
        let first = rest.normalize();
        return (first - axis * axis.dot(first)).normalize();
    }
    frame(axis).0
}

/// Two unit vectors at right angles to the unit vector `t` and to each other (Duff et al.,
/// "Building an orthonormal basis, revisited", 2017).
#[inline]
pub(super) fn frame(t: DVec3) -> (DVec3, DVec3) {
    let sign = 1.0_f64.copysign(t.z);
    let a = -1.0 / (sign + t.z);
    let b = t.x * t.y * a;
    (
        DVec3::new(1.0 + sign * t.x * t.x * a, sign * b, -sign * t.x),
        DVec3::new(b, sign + t.y * t.y * a, -t.y),
    )
}
