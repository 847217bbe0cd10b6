//! The form of an obstacle, and the obstacle as it stands.

use std::sync::Arc;

use glam::{DQuat, DVec3};

use super::convex::{BoxField, Convex, CylinderField};
use super::{Chord, MeshField, Near, piece_convex, point_piece};
use crate::geom::{Bounds, Piece, Rigid};

/// A form in its own axes, its middle at the origin.
#[derive(Debug, Clone)]
pub enum Form {
    /// A box along the axes, by half its sides.
    Box {
        /// Half its sides.
        half: DVec3,
    },
    /// A cylinder with flat ends about Z.
    Cylinder {
        /// Half its length.
        half: f64,
        /// Its radius.
        radius: f64,
    },
    /// A ball.
    Ball {
        /// Its radius.
        radius: f64,
    },
    /// A mesh, as its points stand.
    Mesh(Arc<MeshField>),
}

/// A form in its place.
#[derive(Debug, Clone)]
pub struct Placed {
    form: Form,
    /// From the form's own axes to where it stands.
    position: Rigid,
    bounds: Bounds,
    middle: DVec3,
    reach: f64,
}

impl Placed {
    /// The form moved by `position`.
    pub fn new(form: Form, position: Rigid) -> Self {
        let own = match &form {
            Form::Box { half } => Bounds { min: -*half, max: *half },
            Form::Cylinder { half, radius } => {
                let reach = DVec3::new(*radius, *radius, *half);
                Bounds { min: -reach, max: reach }
            }
            Form::Ball { radius } => {
                Bounds { min: DVec3::splat(-radius), max: DVec3::splat(*radius) }
            }
            Form::Mesh(mesh) => mesh.bounds(),
        };
        let middle = position.point(own.middle());
        let half = 0.5 * (own.max - own.min);
        let turned = position.turn.x_axis.abs() * half.x
            + position.turn.y_axis.abs() * half.y
            + position.turn.z_axis.abs() * half.z;
        let (turned, reach) = match form {
            Form::Ball { radius } => (DVec3::splat(radius), radius),
            Form::Cylinder { half, radius } => {
                let axis = position.turn.z_axis;
                let across = (DVec3::ONE - axis * axis).max(DVec3::ZERO).map(f64::sqrt) * radius;
                (axis.abs() * half + across, half.hypot(radius))
            }
            Form::Box { .. } | Form::Mesh(_) => (turned, half.length()),
        };
        let bounds = Bounds { min: middle - turned, max: middle + turned };
        Self { form, position, bounds, middle, reach }
    }

    /// The box around it.
    pub fn bounds(&self) -> &Bounds {
        &self.bounds
    }

    /// The form.
    pub fn form(&self) -> &Form {
        &self.form
    }

    /// Its own axes in the bay, and where its middle is.
    pub(in crate::geom) fn turn_and_shift(&self) -> (DQuat, DVec3) {
        (DQuat::from_mat3(&self.position.turn), self.position.shift)
    }

    /// No place of the piece with this chord is nearer; quickly told.
    #[inline]
    pub fn least(&self, chord: &Chord) -> f64 {
        chord.least(self.middle) - self.reach
    }

    /// The nearest places of `piece` and this; `None` where nothing is nearer than `enough`. Certified
    /// to 1e-9 mm for straights, 5e-7 mm for arcs; in a mesh (where it is closed, and the piece comes
    /// inside) 1e-5 mm.
    pub fn nearest(&self, piece: &Piece, enough: f64) -> Option<Near> {
        let own = |near: Near| Near {
            on_piece: piece.point_at(near.along),
            on_other: self.position.point(near.on_other),
            ..near
        };
        let back = || self.position.piece_back(piece);
        match &self.form {
            Form::Ball { radius } => self.nearest_of_ball(*radius, piece, enough),
            Form::Box { half } => piece_convex(&back(), &BoxField { half: *half }, enough).map(own),
            Form::Cylinder { half, radius } => {
                let obstacle = CylinderField { half: *half, radius: *radius };
                piece_convex(&back(), &obstacle, enough).map(own)
            }
            Form::Mesh(mesh) => mesh.nearest(&back(), enough).map(own),
        }
    }

    fn nearest_of_ball(&self, radius: f64, piece: &Piece, enough: f64) -> Option<Near> {
        let along = point_piece(self.middle, piece);
        let on_piece = piece.point_at(along);
        let out = on_piece - self.middle;
        let distance = out.length() - radius;
        let way = out.try_normalize().unwrap_or(DVec3::Z);
        let on_other = self.middle + radius * way;
        (distance < enough).then_some(Near { distance, along, on_piece, on_other })
    }

    /// The signed distance from a point, and the nearest place of the surface.
    pub fn distance(&self, p: DVec3) -> (f64, DVec3) {
        let own = self.position.point_back(p);
        let (distance, nearest) = match &self.form {
            Form::Ball { radius } => {
                let way = own.try_normalize().unwrap_or(DVec3::Z);
                (own.length() - radius, *radius * way)
            }
            Form::Box { half } => of_convex(&BoxField { half: *half }, own),
            Form::Cylinder { half, radius } => {
                of_convex(&CylinderField { half: *half, radius: *radius }, own)
            }
            Form::Mesh(mesh) => mesh.distance(own),
        };
        (distance, self.position.point(nearest))
    }
}

fn of_convex(obstacle: &impl Convex, p: DVec3) -> (f64, DVec3) {
    let (distance, normal) = obstacle.distance(p);
    (distance, p - normal * distance)
}
