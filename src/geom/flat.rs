//! How flat a curve lies, and the plane that it lies in.

use glam::DVec3;

/// The plane through points, as well as they have one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flatness {
    /// Square to the plane, a unit vector; none where the points lie on one straight line, which
    /// lies in many planes.
    pub normal: Option<DVec3>,
    /// How far the farthest point is off the plane, either way; off the straight line where there
    /// is no normal. Never less than in the best plane, at most about twice that.
    pub off: f64,
}

/// Below this off a straight line, points have no plane of their own, mm.
const STRAIGHT: f64 = 1e-6;

/// The plane through the point farthest from the first one and the point farthest from the line
/// between these two. Fewer than three points, or all in one place: straight.
pub fn flatness(points: &[DVec3]) -> Flatness {
    let Some(&first) = points.first() else { return Flatness { normal: None, off: 0.0 } };
    let away = farthest(points, |p| (p - first).length());
    let Some(along) = (away - first).try_normalize() else {
        return Flatness { normal: None, off: 0.0 };
    };
    let beside = |p: DVec3| {
        let from_first = p - first;
        from_first - along * along.dot(from_first)
    };
    let aside = beside(farthest(points, |p| beside(p).length()));
    let off_line = aside.length();
    if off_line <= STRAIGHT {
        return Flatness { normal: None, off: off_line };
    }
    let Some(normal) = along.cross(aside).try_normalize() else {
        return Flatness { normal: None, off: off_line };
    };
    let heights = points.iter().map(|p| normal.dot(*p - first));
    let (low, high) = heights.fold((0.0_f64, 0.0_f64), |(lo, hi), h| (lo.min(h), hi.max(h)));
    Flatness { normal: Some(normal), off: (high - low) / 2.0 }
}

fn farthest(points: &[DVec3], measure: impl Fn(DVec3) -> f64) -> DVec3 {
    let mut best = (f64::NEG_INFINITY, DVec3::ZERO);
    for point in points {
        let far = measure(*point);
        if far > best.0 {
            best = (far, *point);
        }
    }
    best.1
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_of_a_tilted_plane_have_its_normal() {
        let normal = DVec3::new(1.0, 2.0, -2.0) / 3.0;
        let (u, v) = (DVec3::new(2.0, 1.0, 2.0) / 3.0, DVec3::new(2.0, -2.0, -1.0) / 3.0);
        let at = |x: f64, y: f64| DVec3::new(400.0, -90.0, 1000.0) + u * x + v * y;
        let mut points = vec![at(0.0, 0.0), at(500.0, 20.0), at(300.0, -200.0), at(100.0, 50.0)];
        let flat = flatness(&points);
        assert!(flat.off < 1e-9);
        assert!((flat.normal.unwrap().dot(normal).abs() - 1.0).abs() < 1e-12);
        points.push(at(200.0, 0.0) + normal * 3.0);
        assert!((flatness(&points).off - 1.5).abs() < 1e-9, "half way on either side");
    }

    #[test]
    fn what_has_no_plane_is_straight() {
        let line: Vec<DVec3> = (0..5).map(|i| DVec3::new(1.0, 2.0, 3.0) * f64::from(i)).collect();
        assert_eq!(flatness(&line).normal, None);
        assert!(flatness(&line).off < 1e-9);
        for few in [vec![], vec![DVec3::ONE], vec![DVec3::ONE; 4]] {
            assert_eq!(flatness(&few), Flatness { normal: None, off: 0.0 });
        }
    }
}
