//! The plane in which a thing is moved, and lines in it.

use glam::{DVec2, DVec3};

use crate::app::canvas::camera::{Axis, View};
use crate::units::EPS_MM;

/// The axis that a view does not show.
pub fn third_axis(view: View) -> Axis {
    let [right, up] = view.axes();
    3 - right - up
}

/// What lies at one distance from the viewer.
#[derive(Debug, Clone, Copy)]
pub(super) struct Plane {
    pub(super) view: View,
    pub(super) third: f64,
}

/// A straight line, or the half of it that begins at `at`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line {
    pub(super) at: DVec2,
    /// Unit vector.
    pub(super) along: DVec2,
    pub(super) is_ray: bool,
}

/// How a line of the bay meets the plane.
#[derive(Debug, Clone, Copy)]
pub(super) struct Meeting {
    /// As it is seen, and whether it really lies in the plane.
    pub(super) line: Option<(Line, bool)>,
    /// Where it really goes through the plane.
    pub(super) point: Option<DVec2>,
}

/// Directions flatter than this to the plane lie in it; steeper ones pierce it.
const FLAT: f64 = 1e-9;
/// A direction that is seen shorter than this is seen as a point.
const SEEN: f64 = 1e-3;

impl Plane {
    pub(super) fn point(self, flat: DVec2) -> DVec3 {
        self.view.with(DVec3::splat(self.third), flat)
    }

    pub(super) fn flat(self, point: DVec3) -> DVec2 {
        self.view.project(point)
    }

    /// How far off the plane a point is.
    pub(super) fn off(self, point: DVec3) -> f64 {
        point[third_axis(self.view)] - self.third
    }

    pub(super) fn holds(self, point: DVec3) -> bool {
        self.off(point).abs() <= EPS_MM
    }

    /// A ray of the bay from `at` along the unit vector `along`.
    pub(super) fn ray(self, at: DVec3, along: DVec3) -> Meeting {
        let seen = self.flat(along);
        let steep = along[third_axis(self.view)];
        let installed = steep.abs() <= FLAT && self.holds(at);
        let line = (seen.length() > SEEN)
            .then(|| (Line::new(self.flat(at), seen).beginning_at_its_start(), installed));
        let ahead = -self.off(at) / steep;
        let point = (steep.abs() > FLAT && ahead > EPS_MM).then(|| self.flat(at + along * ahead));
        Meeting { line, point }
    }

    /// Where the plane through `at` square to the unit vector `normal` meets this one.
    pub(super) fn square(self, at: DVec3, normal: DVec3) -> Option<Line> {
        let across = self.flat(normal);
        let steep = normal[third_axis(self.view)];
        (across.length() > SEEN).then(|| {
            let shift = across * (steep * self.off(at) / across.length_squared());
            Line::new(self.flat(at) + shift, across.perp())
        })
    }
}

impl Line {
    /// Through `at` along any vector but zero.
    pub(super) fn new(at: DVec2, along: DVec2) -> Self {
        let mut along = along.normalize_or(DVec2::X);
        // Exactly along an axis: a coordinate that it decides comes out exactly.
        for axis in 0..2 {
            if along[axis].abs() < 1e-12 {
                along = DVec2::AXES[1 - axis] * along[1 - axis].signum();
            }
        }
        Self { at, along, is_ray: false }
    }

    pub(super) fn beginning_at_its_start(self) -> Self {
        Self { is_ray: true, ..self }
    }

    /// All points whose coordinate `axis` is `value`.
    pub(super) fn of_equal(axis: usize, value: f64) -> Self {
        let mut at = DVec2::ZERO;
        at[axis] = value;
        Self::new(at, DVec2::AXES[1 - axis])
    }

    pub(super) fn distance(self, p: DVec2) -> f64 {
        self.along.perp_dot(p - self.at).abs()
    }

    /// The nearest point to `p`; none where that lies before the start of a ray.
    pub(super) fn nearest(self, p: DVec2) -> Option<DVec2> {
        let ahead = self.along.dot(p - self.at);
        self.reaches(ahead).then(|| self.exactly(self.at + self.along * ahead))
    }

    /// Where two lines cross, unless they run nearly alike.
    pub(super) fn crossing(self, other: Self) -> Option<DVec2> {
        const SHARP: f64 = 0.25;
        let sine = self.along.perp_dot(other.along);
        if sine.abs() < SHARP {
            return None;
        }
        let between = other.at - self.at;
        let ahead = between.perp_dot(other.along) / sine;
        let ahead_other = between.perp_dot(self.along) / sine;
        (self.reaches(ahead) && other.reaches(ahead_other))
            .then(|| other.exactly(self.exactly(self.at + self.along * ahead)))
    }

    fn reaches(self, ahead: f64) -> bool {
        !self.is_ray || ahead > EPS_MM
    }

    /// A point of the line with the coordinate that the line decides without rounding.
    fn exactly(self, mut p: DVec2) -> DVec2 {
        for axis in 0..2 {
            if self.along[axis] == 0.0 {
                p[axis] = self.at[axis];
            }
        }
        p
    }
}

#[cfg(test)]
mod tests {
    use glam::{dvec2, dvec3};

    use super::*;

    const PLANE: Plane = Plane { view: View::Plan, third: 10.0 };

    #[test]
    fn square_holds_in_space_not_only_as_seen() {
        let (at, normal) = (dvec3(3.0, 4.0, 25.0), dvec3(0.6, 0.48, 0.64));
        let line = PLANE.square(at, normal).unwrap();
        for t in [-100.0, 0.0, 40.0] {
            let p = PLANE.point(line.at + line.along * t);
            assert!((p - at).dot(normal).abs() < 1e-9, "{p}");
        }
        assert!(PLANE.square(at, DVec3::Z).is_none());
    }

    #[test]
    fn a_ray_that_pierces_the_plane_tells_where() {
        let (at, along) = (dvec3(0.0, 0.0, 0.0), dvec3(0.6, 0.0, 0.8));
        let meeting = PLANE.ray(at, along);
        assert!(meeting.point.unwrap().abs_diff_eq(dvec2(7.5, 0.0), 1e-12));
        assert!(!meeting.line.unwrap().1);
        assert!(PLANE.ray(at, -along).point.is_none(), "behind it");
        let installed = PLANE.ray(dvec3(0.0, 0.0, 10.0), DVec3::Y);
        assert!(installed.line.unwrap().1 && installed.point.is_none());
        let end_on = PLANE.ray(at, DVec3::Z);
        assert!(end_on.line.is_none() && end_on.point.unwrap() == DVec2::ZERO);
    }

    #[test]
    fn crossings_are_exact_on_axis_lines() {
        let (a, b) = (Line::of_equal(0, 0.1), Line::of_equal(1, 0.3));
        assert_eq!(a.crossing(b), Some(dvec2(0.1, 0.3)));
        assert_eq!(a.crossing(Line::of_equal(0, 5.0)), None);
        let slanted = Line::new(DVec2::ZERO, dvec2(1.0, 1.0));
        assert_eq!(slanted.crossing(a).unwrap().x, 0.1);
        let ray = Line::new(DVec2::ZERO, dvec2(-1.0, -1.0)).beginning_at_its_start();
        assert_eq!(ray.crossing(a), None);
        assert_eq!(ray.nearest(dvec2(3.0, 3.0)), None);
    }
}
