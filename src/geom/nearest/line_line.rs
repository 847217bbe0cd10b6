//! Two straights.

use glam::DVec3;

/// How far along each the nearest places lie; exact but for rounding, also where the straights are
/// parallel or have no length (Ericson, Real-Time Collision Detection, §5.1.9). Directions are unit
/// vectors.
pub(super) fn line_line(
    (p, u, length_u): (DVec3, DVec3, f64),
    (q, v, length_v): (DVec3, DVec3, f64),
) -> (f64, f64) {
    let apart = p - q;
    let (b, c, f) = (u.dot(v), u.dot(apart), v.dot(apart));
    // sin², taken from the cross product: near parallel 1 − b² has lost its digits.
    let skew = u.cross(v).length_squared();
    let mut s = if skew > 1e-24 { ((b * f - c) / skew).clamp(0.0, length_u) } else { 0.0 };
    let mut t = b * s + f;
    if t < 0.0 {
        t = 0.0;
        s = (-c).clamp(0.0, length_u);
    } else if t > length_v {
        t = length_v;
        s = (b * length_v - c).clamp(0.0, length_u);
    } else {
        // Once more from the other side: near parallel the first answer is only roughly right.
        s = (b * t - c).clamp(0.0, length_u);
        t = (b * s + f).clamp(0.0, length_v);
    }
    (s, t)
}
