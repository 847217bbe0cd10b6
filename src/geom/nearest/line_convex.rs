//! A straight against a convex obstacle.

use glam::DVec3;

use super::Near;
use super::convex::Convex;

/// Least and certified: the tangents on both sides of the minimum bound it from below.
const ACCURACY: f64 = 1e-9;
/// Far more than is ever needed; what is left is within a rounding error.
const STEPS: usize = 80;

#[derive(Clone, Copy)]
struct Probe {
    along: f64,
    distance: f64,
    slope: f64,
    normal: DVec3,
}

/// The distance is convex along the straight: its slope grows, and the minimum lies where it changes
/// sign. Good to [`ACCURACY`]. `None` where nothing is nearer than `enough`.
pub(super) fn line_convex(
    start: DVec3,
    direction: DVec3,
    length: f64,
    obstacle: &impl Convex,
    enough: f64,
) -> Option<Near> {
    let probe = |along: f64| {
        let (distance, normal) = obstacle.distance(start + direction * along);
        Probe { along, distance, slope: normal.dot(direction), normal }
    };
    let answer = |at: Probe| {
        let on_piece = start + direction * at.along;
        (at.distance < enough).then(|| Near {
            distance: at.distance,
            along: at.along,
            on_piece,
            on_other: on_piece - at.normal * at.distance,
        })
    };
    let mut left = probe(0.0);
    if left.distance - length >= enough {
        return None;
    }
    if left.slope >= 0.0 {
        return answer(left);
    }
    let mut right = probe(length);
    if right.slope <= 0.0 {
        return answer(right);
    }
    let mut best = if left.distance < right.distance { left } else { right };
    for step in 0..STEPS {
        let (width, bend) = (right.along - left.along, left.slope - right.slope);
        // Where the two tangents cross.
        let cross = (right.distance - left.distance - right.slope * width) / bend;
        let floor = left.distance + left.slope * cross;
        if floor >= enough {
            return None;
        }
        if best.distance - floor <= ACCURACY {
            break;
        }
        let ahead = match step % 3 {
            // Best for kinks, for smooth minima, and for neither.
            0 => cross,
            1 => width * left.slope / bend,
            _ => 0.5 * width,
        };
        let ahead = if ahead > 0.0 && ahead < width { ahead } else { 0.5 * width };
        let at = probe(left.along + ahead);
        if at.distance < best.distance {
            best = at;
        }
        if at.slope < 0.0 && at.along > left.along {
            left = at;
        } else if at.slope > 0.0 && at.along < right.along {
            right = at;
        } else {
            break;
        }
    }
    answer(best)
}
