//! A point and a piece of centre line.

use glam::DVec3;

use crate::geom::Piece;

/// How far along the piece its place nearest to `p` lies; exact but for rounding. Where all of an arc
/// is equally near (a point on its axis), its start.
#[inline]
pub fn point_piece(p: DVec3, piece: &Piece) -> f64 {
    match *piece {
        Piece::Line { start, direction, length } => (p - start).dot(direction).clamp(0.0, length),
        Piece::Arc { start, direction, inward, radius, angle } => {
            let from_centre = p - start - radius * inward;
            let (x, y) = (-from_centre.dot(inward), from_centre.dot(direction));
            let turned = y.atan2(x);
            if (0.0..=angle).contains(&turned) {
                return turned * radius;
            }
            // The nearer end: cos φ is greater for it.
            let (sin, cos) = angle.sin_cos();
            if x >= x * cos + y * sin { 0.0 } else { angle * radius }
        }
    }
}
