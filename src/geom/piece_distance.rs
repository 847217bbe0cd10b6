//! The place on a straight or an arc that is nearest to a point.

use glam::DVec3;

use super::Piece;

/// Where on `piece` (distance from its start, ends included) it is nearest to `point`, and how far
/// off. On the axis of an arc, where all its places are as near, its start.
pub fn nearest_on_piece(piece: &Piece, point: DVec3) -> (f64, f64) {
    match *piece {
        Piece::Line { start, direction, length } => {
            let s = direction.dot(point - start).clamp(0.0, length);
            (s, point.distance(start + direction * s))
        }
        Piece::Arc { start, direction, inward, radius, angle } => {
            let out = point - (start + radius * inward);
            // Angle from the arc's start, in its plane.
            let (x, y) = (-inward.dot(out), direction.dot(out));
            let around = y.atan2(x);
            let inside = if around < 0.0 { around + std::f64::consts::TAU } else { around };
            if inside <= angle {
                let flat = x.hypot(y);
                let height_squared = (out.length_squared() - flat * flat).max(0.0);
                return (radius * inside, (flat - radius).hypot(height_squared.sqrt()));
            }
            let end = radius * angle;
            let (first, last) = (point.distance(start), point.distance(piece.point_at(end)));
            if first <= last { (0.0, first) } else { (end, last) }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn quarter() -> Piece {
        // From the origin along +X, about (0, 10, 0).
        Piece::Arc {
            start: DVec3::ZERO,
            direction: DVec3::X,
            inward: DVec3::Y,
            radius: 10.0,
            angle: std::f64::consts::FRAC_PI_2,
        }
    }

    #[test]
    fn an_arc_from_within_from_without_and_past_its_ends() {
        let half = std::f64::consts::FRAC_1_SQRT_2;
        for (point, s, off) in [
            (DVec3::new(0.0, -5.0, 0.0), 0.0, 5.0),
            (DVec3::new(13.0, 10.0, 4.0), 5.0 * std::f64::consts::PI, 5.0),
            (DVec3::new(8.0 * half, 10.0 - 8.0 * half, 0.0), 2.5 * std::f64::consts::PI, 2.0),
            (DVec3::new(-3.0, 4.0, 0.0), 0.0, 5.0),
            (DVec3::new(7.0, 14.0, 0.0), 5.0 * std::f64::consts::PI, 5.0),
        ] {
            let (at, distance) = nearest_on_piece(&quarter(), point);
            assert!(
                (at - s).abs() < 1e-9 && (distance - off).abs() < 1e-9,
                "{point}: {at} {distance}"
            );
        }
    }

    #[test]
    fn a_straight_ends_where_it_ends() {
        let line = Piece::Line { start: DVec3::ZERO, direction: DVec3::X, length: 10.0 };
        assert_eq!(nearest_on_piece(&line, DVec3::new(4.0, 3.0, 0.0)), (4.0, 3.0));
        assert_eq!(nearest_on_piece(&line, DVec3::new(13.0, 4.0, 0.0)), (10.0, 5.0));
    }
}
