//! Outlines of obstacles in a view, in bay millimetres: silhouettes and what lies at a distance from
//! them.

use glam::{DVec2, DVec3};

mod cloud;
mod contour;
mod shadow;

pub use cloud::{Cloud, cloud};
pub use shadow::{Shadow, shadow};

use super::camera::View;
use crate::geom::hull;
use crate::model::Shape;

/// Chords round a full circle: they stray from it by less than 0.2 % of its radius.
const ROUND: u32 = 64;

/// The projection of an obstacle.
#[derive(Debug, Clone, PartialEq)]
pub enum Outline {
    /// A convex polygon, counter-clockwise with Y up.
    Convex(Vec<DVec2>),
    /// Of a mesh.
    Shadow(Shadow),
}

/// The projection of an obstacle in a view.
pub fn outline(view: View, shape: &Shape) -> Outline {
    match shape {
        Shape::Box { min, max } => {
            let (lo, hi) = (view.project(*min), view.project(*max));
            Outline::Convex(vec![lo, DVec2::new(hi.x, lo.y), hi, DVec2::new(lo.x, hi.y)])
        }
        Shape::Sphere { at, radius } => {
            let at = view.project(*at);
            Outline::Convex(unit_circle().map(|d| at + *radius * d).collect())
        }
        Shape::Cylinder { from, to, radius } => {
            Outline::Convex(cylinder(view, *from, *to, *radius))
        }
        Shape::Mesh { mesh, .. } => Outline::Shadow(shadow(mesh, &|p| view.project(p))),
    }
}

/// The shadow of a cylinder is the hull of the shadows of its two end circles.
fn cylinder(view: View, from: DVec3, to: DVec3, radius: f64) -> Vec<DVec2> {
    hull(rims(from, to, radius).map(|p| view.project(p)).collect())
}

/// Points of the two end circles of a cylinder.
fn rims(from: DVec3, to: DVec3, radius: f64) -> impl Iterator<Item = DVec3> {
    let (a, b) = (to - from).normalize_or(DVec3::Z).any_orthonormal_pair();
    let rim = unit_circle().map(move |d| radius * (d.x * a + d.y * b));
    rim.flat_map(move |d| [from + d, to + d])
}

/// Points round a circle of radius 1.
pub(super) fn unit_circle() -> impl Iterator<Item = DVec2> {
    (0..ROUND).map(|k| DVec2::from_angle(std::f64::consts::TAU * f64::from(k) / f64::from(ROUND)))
}

/// What tells a line between two points from others, whichever way it goes.
pub(super) fn edge_key(a: DVec3, b: DVec3) -> [u64; 6] {
    // Adding zero makes one of the two zeros.
    let bits = |p: DVec3| p.to_array().map(|x| (x + 0.0).to_bits());
    let (a, b) = (bits(a), bits(b));
    let (first, second) = if a <= b { (a, b) } else { (b, a) };
    [first[0], first[1], first[2], second[0], second[1], second[2]]
}

/// The outlines at a distance, closed: of a convex one a single line.
pub fn at_distance(outline: &Outline, distance: f64) -> Vec<Vec<DVec2>> {
    match outline {
        _ if distance <= 0.0 => Vec::new(),
        Outline::Convex(points) => {
            let mut line = offset_convex(points, distance);
            line.extend(line.first().copied());
            vec![line]
        }
        Outline::Shadow(shadow) => contour::at_distance(shadow, distance),
    }
}

impl Outline {
    /// The same in other coordinates.
    #[must_use]
    pub fn mapped(&self, map: &dyn Fn(DVec2) -> DVec2) -> Self {
        match self {
            Self::Convex(points) => Self::Convex(points.iter().map(|p| map(*p)).collect()),
            Self::Shadow(shadow) => Self::Shadow(shadow.mapped(map)),
        }
    }
}

/// The outline of everything within `distance` of a convex polygon, round at its corners.
pub fn offset_convex(polygon: &[DVec2], distance: f64) -> Vec<DVec2> {
    let n = polygon.len();
    let mut found = Vec::with_capacity(n + ROUND as usize);
    for i in 0..n {
        let at = polygon[i];
        let before = outward(polygon[(i + n - 1) % n], at);
        let after = outward(at, polygon[(i + 1) % n]);
        let turn = before.angle_to(after).rem_euclid(std::f64::consts::TAU);
        let steps = (turn / std::f64::consts::TAU * f64::from(ROUND)).ceil().max(1.0) as u32;
        for k in 0..=steps {
            let part = turn * f64::from(k) / f64::from(steps);
            found.push(at + distance * DVec2::from_angle(part).rotate(before));
        }
    }
    found
}

fn outward(from: DVec2, to: DVec2) -> DVec2 {
    -(to - from).perp().normalize_or(DVec2::NEG_Y)
}

/// The part of a straight line `at + t·direction` in a convex polygon.
pub fn clip_line(polygon: &[DVec2], at: DVec2, direction: DVec2) -> Option<[DVec2; 2]> {
    let (mut enter, mut leave) = (f64::NEG_INFINITY, f64::INFINITY);
    for (i, a) in polygon.iter().enumerate() {
        let normal = outward(*a, polygon[(i + 1) % polygon.len()]);
        let (speed, room) = (normal.dot(direction), normal.dot(*a - at));
        if speed.abs() < 1e-12 {
            if room < 0.0 {
                return None;
            }
        } else if speed > 0.0 {
            leave = leave.min(room / speed);
        } else {
            enter = enter.max(room / speed);
        }
    }
    let inside = enter.is_finite() && leave.is_finite() && enter < leave;
    inside.then(|| [at + enter * direction, at + leave * direction])
}

#[cfg(test)]
mod tests {
    use glam::{dvec2, dvec3};

    use super::*;

    fn extent(points: &[DVec2]) -> (DVec2, DVec2) {
        points.iter().fold((DVec2::MAX, DVec2::MIN), |(lo, hi), p| (lo.min(*p), hi.max(*p)))
    }

    #[test]
    fn a_cylinder_from_its_end_is_a_circle_and_from_its_side_a_rectangle() {
        let shape = Shape::Cylinder { from: DVec3::ZERO, to: dvec3(100.0, 0.0, 0.0), radius: 20.0 };
        let Outline::Convex(end_on) = outline(View::Front, &shape) else { panic!("convex") };
        for p in &end_on {
            assert!((p.length() - 20.0).abs() < 1e-9);
        }
        let Outline::Convex(side_on) = outline(View::Plan, &shape) else { panic!("convex") };
        let (lo, hi) = extent(&side_on);
        assert!(
            lo.abs_diff_eq(dvec2(0.0, -20.0), 0.05) && hi.abs_diff_eq(dvec2(100.0, 20.0), 0.05)
        );
    }

    #[test]
    fn a_slanted_cylinder_reaches_as_far_as_its_bounds() {
        let shape = Shape::Cylinder {
            from: dvec3(3.0, 5.0, -7.0),
            to: dvec3(90.0, 60.0, 44.0),
            radius: 25.0,
        };
        let (min, max) = shape.bounds();
        for view in View::ALL {
            let Outline::Convex(points) = outline(view, &shape) else { panic!("convex") };
            let (lo, hi) = extent(&points);
            assert!(lo.abs_diff_eq(view.project(min), 0.05), "{view:?} {lo} {min}");
            assert!(hi.abs_diff_eq(view.project(max), 0.05), "{view:?} {hi} {max}");
        }
    }

    #[test]
    fn the_offset_of_a_square_is_its_distance_away() {
        let square = [dvec2(0.0, 0.0), dvec2(10.0, 0.0), dvec2(10.0, 10.0), dvec2(0.0, 10.0)];
        for p in offset_convex(&square, 4.0) {
            let nearest = p.clamp(DVec2::ZERO, DVec2::splat(10.0));
            assert!((p.distance(nearest) - 4.0).abs() < 1e-9, "{p}");
        }
    }

    #[test]
    fn a_line_is_clipped_to_the_polygon() {
        let square = [dvec2(0.0, 0.0), dvec2(10.0, 0.0), dvec2(10.0, 10.0), dvec2(0.0, 10.0)];
        let [a, b] = clip_line(&square, dvec2(-5.0, 3.0), DVec2::X).unwrap();
        assert!(a.abs_diff_eq(dvec2(0.0, 3.0), 1e-9) && b.abs_diff_eq(dvec2(10.0, 3.0), 1e-9));
        assert_eq!(clip_line(&square, dvec2(0.0, 11.0), DVec2::X), None);
    }
}
