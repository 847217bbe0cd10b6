//! Carrying a direction along the hose without twist, and the clock angle between two elbow ends.

use glam::DVec3;

use super::{Polyline, turning_angle};
use crate::geom::fillet::STRAIGHT_RAD;

/// `normal` carried along `line` without twist (parallel transport): at every corner it turns with
/// the line, about the axis of the bend, and by the angle of the bend. The radius of the bend does
/// not matter.
///
/// None where the line turns straight back: the axis of that bend is not defined.
pub fn transport(line: &Polyline, normal: DVec3) -> Option<DVec3> {
    line.stretches
        .windows(2)
        .try_fold(normal, |carried, pair| turn_with(carried, pair[0].direction, pair[1].direction))
}

/// `normal` turned by the least rotation that takes unit vector `u` to unit vector `v`.
fn turn_with(normal: DVec3, u: DVec3, v: DVec3) -> Option<DVec3> {
    if turning_angle(u, v) > std::f64::consts::PI - STRAIGHT_RAD {
        return None;
    }
    // Rodrigues with sin θ · axis = u × v and cos θ = u · v.
    let (axis, cos) = (u.cross(v), u.dot(v));
    Some(normal * cos + axis.cross(normal) + axis * (axis.dot(normal) / (1.0 + cos)))
}

/// The clock angle between two elbow ends: from `nose_a`, carried along `line` to its end, to
/// `nose_b`, counter-clockwise as seen from A looking along the hose towards B
/// (MIL-DTL-83796/5: near elbow at 6 o'clock, counter-clockwise to the far elbow). Degrees, in
/// [0, 360).
///
/// None where the carrying-over is not defined ([`transport`]) or the line has no stretch.
pub fn clock_between_deg(line: &Polyline, nose_a: DVec3, nose_b: DVec3) -> Option<f64> {
    let away = line.stretches.last()?.direction;
    let carried = transport(line, nose_a)?;
    let counter_clockwise = -carried.cross(nose_b).dot(away);
    let degrees = counter_clockwise.atan2(carried.dot(nose_b)).to_degrees().rem_euclid(360.0);
    // A hair below a full turn is rounding of 0.
    Some(if degrees > 360.0 - 1e-9 { 0.0 } else { degrees })
}
