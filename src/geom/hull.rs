//! Convex hulls in a plane.

use glam::DVec2;

/// The convex hull, counter-clockwise; fewer than three points where they span no area.
/// Monotone chain (A. M. Andrew, 1979).
pub fn hull(mut points: Vec<DVec2>) -> Vec<DVec2> {
    points.retain(|p| p.is_finite());
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    points.dedup();
    if points.len() < 3 {
        return points;
    }
    let half = |points: &mut dyn Iterator<Item = DVec2>| {
        let mut chain: Vec<DVec2> = Vec::new();
        for p in points {
            while let [.., a, b] = chain[..]
                && (b - a).perp_dot(p - a) <= 0.0
            {
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut lower = half(&mut points.iter().copied());
    lower.extend(half(&mut points.iter().rev().copied()));
    lower
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_in_line_span_nothing() {
        assert!(hull(vec![DVec2::ZERO, DVec2::X, DVec2::X * 2.0]).len() < 3);
    }

    #[test]
    fn it_keeps_the_corners_only_counter_clockwise() {
        let square = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)].map(DVec2::from);
        let others = [(2.0, 2.0), (2.0, 0.0), (4.0, 4.0)].map(DVec2::from);
        let found = hull(square.into_iter().chain(others).collect());
        assert_eq!(found, square);
    }

    #[test]
    fn what_lies_inside_is_left_out() {
        let p = DVec2::new;
        let around = hull(vec![p(0.0, 0.0), p(2.0, 0.0), p(1.0, 1.0), p(2.0, 2.0), p(0.0, 2.0)]);
        assert_eq!(around.len(), 4);
        assert!(!around.contains(&p(1.0, 1.0)));
    }
}
