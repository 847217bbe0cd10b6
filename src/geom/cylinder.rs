//! Cylinders with flat ends: whether and how deep they cut into each other and into obstacles.

use glam::{DQuat, DVec3};
use parry3d_f64::math::Pose;
use parry3d_f64::query::{contact, intersection_test};
use parry3d_f64::shape::{Ball, Cuboid, Cylinder as Drum, Shape};

use super::{Bounds, Form, Placed};

/// A cylinder with flat ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cylinder {
    /// The middle of one end.
    pub from: DVec3,
    /// The middle of the other.
    pub to: DVec3,
    /// Its radius.
    pub radius: f64,
}

impl Cylinder {
    /// The middle of it.
    pub fn middle(&self) -> DVec3 {
        self.from.midpoint(self.to)
    }

    /// The box around it.
    pub fn bounds(&self) -> Bounds {
        let axis = (self.to - self.from).normalize_or_zero();
        let across = (DVec3::ONE - axis * axis).max(DVec3::ZERO).map(f64::sqrt) * self.radius;
        Bounds { min: self.from.min(self.to) - across, max: self.from.max(self.to) + across }
    }

    /// How deep the two cut into each other; none where they do not.
    pub fn depth_in(&self, other: &Self) -> Option<f64> {
        let (one, two) = (self.shape()?, other.shape()?);
        depth(&self.position(), &one, &other.position(), &two)
    }

    /// Whether the two cut into each other or touch.
    pub fn meets(&self, other: &Self) -> bool {
        let shapes = self.shape().zip(other.shape());
        shapes.is_some_and(|(one, two)| meet(&self.position(), &one, &other.position(), &two))
    }

    /// How deep it cuts into an obstacle; none where it does not.
    pub fn depth_in_obstacle(&self, obstacle: &Placed) -> Option<f64> {
        let (position, shape) = shape_of(obstacle)?;
        let cut = depth(&self.position(), &self.shape()?, &position, shape.as_shape());
        cut.or_else(|| self.swallowed(obstacle))
    }

    /// Whether it cuts into an obstacle or touches it.
    pub fn meets_obstacle(&self, obstacle: &Placed) -> bool {
        let shapes = self.shape().zip(shape_of(obstacle));
        shapes.is_some_and(|(own, (position, shape))| {
            meet(&self.position(), &own, &position, shape.as_shape())
        }) || self.swallowed(obstacle).is_some()
    }

    /// A mesh is a skin to the library: wholly inside a closed one no skin is cut.
    fn swallowed(&self, obstacle: &Placed) -> Option<f64> {
        let Form::Mesh(_) = obstacle.form() else { return None };
        let (distance, _) = obstacle.distance(self.middle());
        (distance < 0.0).then_some(-distance)
    }

    /// None where it has no extent.
    fn shape(&self) -> Option<Drum> {
        let half = 0.5 * self.from.distance(self.to);
        let is_sound =
            half > 0.0 && self.radius > 0.0 && half.is_finite() && self.radius.is_finite();
        is_sound.then(|| Drum::new(half, self.radius))
    }

    fn position(&self) -> Pose {
        let axis = (self.to - self.from).normalize_or(DVec3::Y);
        Pose::from_parts(self.middle(), DQuat::from_rotation_arc(DVec3::Y, axis))
    }
}

/// An obstacle as the library has it.
enum Other<'a> {
    Box(Cuboid),
    Drum(Drum),
    Ball(Ball),
    Skin(&'a dyn Shape),
}

impl Other<'_> {
    fn as_shape(&self) -> &dyn Shape {
        match self {
            Self::Box(shape) => shape,
            Self::Drum(shape) => shape,
            Self::Ball(shape) => shape,
            Self::Skin(shape) => *shape,
        }
    }
}

fn shape_of(obstacle: &Placed) -> Option<(Pose, Other<'_>)> {
    let (turn, at) = obstacle.turn_and_shift();
    let upright = DQuat::from_rotation_arc(DVec3::Y, DVec3::Z);
    let (turn, shape) = match obstacle.form() {
        Form::Box { half } => (turn, Other::Box(Cuboid::new(*half))),
        Form::Cylinder { half, radius } => (turn * upright, Other::Drum(Drum::new(*half, *radius))),
        Form::Ball { radius } => (turn, Other::Ball(Ball::new(*radius))),
        Form::Mesh(mesh) => (turn, Other::Skin(mesh.skin()?)),
    };
    Some((Pose::from_parts(at, turn), shape))
}

fn meet(a: &Pose, one: &dyn Shape, b: &Pose, two: &dyn Shape) -> bool {
    intersection_test(a, one, b, two).is_ok_and(|found| found.intersecting)
}

fn depth(a: &Pose, one: &dyn Shape, b: &Pose, two: &dyn Shape) -> Option<f64> {
    if !meet(a, one, b, two) {
        return None;
    }
    let found = contact(a, one, b, two, 0.0).ok().flatten()?;
    (found.dist < 0.0).then_some(-found.dist)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Rigid;

    fn upright(x: f64, radius: f64) -> Cylinder {
        Cylinder { from: DVec3::X * x, to: DVec3::new(x, 0.0, 20.0), radius }
    }

    #[test]
    fn side_by_side_they_meet_where_the_radii_reach() {
        let (one, near, far) = (upright(0.0, 10.0), upright(17.0, 8.0), upright(18.5, 8.0));
        assert!((one.depth_in(&near).unwrap() - 1.0).abs() < 1e-6);
        assert_eq!(one.depth_in(&far), None);
        assert!(one.meets(&near) && !one.meets(&far));
    }

    #[test]
    fn flat_ends_do_not_reach_past_themselves() {
        let one = upright(0.0, 10.0);
        let above = Cylinder { from: DVec3::Z * 20.1, to: DVec3::Z * 30.0, radius: 10.0 };
        assert_eq!(one.depth_in(&above), None);
        let below = Cylinder { from: DVec3::Z * 19.0, ..above };
        assert!((one.depth_in(&below).unwrap() - 1.0).abs() < 1e-6);
    }

    #[test]
    fn depth_in_each_kind_of_obstacle() {
        let one = upright(0.0, 10.0);
        let side = |form, x: f64| {
            one.depth_in_obstacle(&Placed::new(form, Rigid::shifted(DVec3::new(x, 0.0, 10.0))))
        };
        let half = DVec3::splat(5.0);
        assert!((side(Form::Box { half }, 14.0).unwrap() - 1.0).abs() < 1e-6);
        assert_eq!(side(Form::Box { half }, 15.5), None);
        assert!((side(Form::Ball { radius: 4.0 }, 12.0).unwrap() - 2.0).abs() < 1e-6);
        let drum = Form::Cylinder { half: 50.0, radius: 4.0 };
        assert!((side(drum.clone(), 13.0).unwrap() - 1.0).abs() < 1e-6);
        assert_eq!(side(drum, 14.5), None);
    }

    #[test]
    fn the_box_around_it() {
        let bounds = upright(3.0, 10.0).bounds();
        assert!((bounds.min - DVec3::new(-7.0, -10.0, 0.0)).length() < 1e-9);
        assert!((bounds.max - DVec3::new(13.0, 10.0, 20.0)).length() < 1e-9);
    }
}
