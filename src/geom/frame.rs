//! The end fitting's frame: from a port to the place where the hose comes out (contract §2).

use glam::DVec3;

use super::sin_cos_deg;

/// Place and directions of an end fitting in the bay. All directions are unit vectors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndFrame {
    /// Centre of the sealing seat, `S`.
    pub seat: DVec3,
    /// The port's axis, `t`.
    pub toward: DVec3,
    /// The way the elbow turns, `s`; at right angles to `toward`.
    pub side: DVec3,
    /// Centre of the plane in which the hose was cut, `E`.
    pub exit: DVec3,
    /// The way the hose leaves, `e`.
    pub direction: DVec3,
    /// The elbow's nose, `n`: at right angles to the hose, towards the seat.
    pub nose: DVec3,
}

/// Within this of ±Z the clock is read from +X (contract §2).
const NEAR_VERTICAL_DEG: f64 = 1.0;

/// The frame of an end at `seat`, on a port that points `toward` (any length but zero), bent by
/// `angle_deg`, turned by `clock_deg`, with its exit `along` and `across`.
///
/// A zero or non-finite `toward` cannot be answered; +X stands in for it, so that nothing breaks
/// (the file refuses such a port).
pub fn end_frame(
    seat: DVec3,
    toward: DVec3,
    angle_deg: f64,
    clock_deg: f64,
    along: f64,
    across: f64,
) -> EndFrame {
    let t = unit_or_x(toward);
    let u = clock_zero(t);
    let (sin_c, cos_c) = sin_cos_deg(clock_deg);
    let side = u * cos_c + t.cross(u) * sin_c;
    let (sin_a, cos_a) = sin_cos_deg(angle_deg);
    EndFrame {
        seat,
        toward: t,
        side,
        exit: seat + along * t + across * side,
        direction: cos_a * t + sin_a * side,
        nose: cos_a * side - sin_a * t,
    }
}

/// Whether a port of this axis points so nearly up or down that its clock is read from +X.
pub fn is_upright(toward: DVec3) -> bool {
    toward.truncate().length().atan2(toward.z.abs()) <= NEAR_VERTICAL_DEG.to_radians()
}

/// The direction that clock angle 0 stands for on a port of axis `t` (unit): the part of +Z at
/// right angles to it; where `t` is within 1° of ±Z, the same of +X.
fn clock_zero(t: DVec3) -> DVec3 {
    let up = if is_upright(t) { DVec3::X } else { DVec3::Z };
    (up - t * up.dot(t)).normalize_or_zero()
}

/// Unit vector along `v`, scaled first so that neither huge nor tiny components overflow; +X where
/// `v` is zero or not finite.
pub fn unit_or_x(v: DVec3) -> DVec3 {
    let scale = v.abs().max_element();
    if scale.is_finite() && scale > 0.0 { (v / scale).normalize() } else { DVec3::X }
}
