//! Points that an obstacle is the hull of, for outlines of it elsewhere than where it is drawn.

use glam::DVec3;

use super::rims;
use crate::model::{Mesh, Shape};

/// What an obstacle is the hull of, as far as its outline goes.
#[derive(Debug, Clone, PartialEq)]
pub enum Cloud {
    /// Points.
    Points(Vec<DVec3>),
    /// All of a sphere.
    Ball {
        /// Its middle.
        at: DVec3,
        /// Its radius.
        radius: f64,
    },
}

impl Cloud {
    /// The same elsewhere.
    #[must_use]
    pub fn moved(&self, by: DVec3) -> Self {
        match self {
            Self::Points(points) => Self::Points(points.iter().map(|p| *p + by).collect()),
            Self::Ball { at, radius } => Self::Ball { at: *at + by, radius: *radius },
        }
    }
}

/// The outermost points of a mesh are looked for in so many directions.
const DIRECTIONS: u32 = 256;

/// What an obstacle is the hull of; of a mesh it is the hull, seen from `DIRECTIONS` sides.
pub fn cloud(shape: &Shape) -> Cloud {
    match shape {
        Shape::Sphere { at, radius } => Cloud::Ball { at: *at, radius: *radius },
        Shape::Box { min, max } => Cloud::Points(corners(*min, *max)),
        Shape::Cylinder { from, to, radius } => Cloud::Points(rims(*from, *to, *radius).collect()),
        Shape::Mesh { mesh, .. } => Cloud::Points(outermost(mesh)),
    }
}

fn corners(min: DVec3, max: DVec3) -> Vec<DVec3> {
    let pick = |k: u32, bit: u32, low: f64, high: f64| if k >> bit & 1 == 1 { high } else { low };
    let corner = |k| {
        DVec3::new(pick(k, 0, min.x, max.x), pick(k, 1, min.y, max.y), pick(k, 2, min.z, max.z))
    };
    (0..8).map(corner).collect()
}

fn outermost(mesh: &Mesh) -> Vec<DVec3> {
    let farthest = |d: DVec3| mesh.vertices().max_by(|a, b| a.dot(d).total_cmp(&b.dot(d)));
    directions().filter_map(farthest).collect()
}

/// Evenly about a sphere: a spiral whose steps are the golden angle.
fn directions() -> impl Iterator<Item = DVec3> {
    let golden = std::f64::consts::PI * (3.0 - 5.0_f64.sqrt());
    (0..DIRECTIONS).map(move |k| {
        let z = 1.0 - (2.0 * f64::from(k) + 1.0) / f64::from(DIRECTIONS);
        let (y, x) = (golden * f64::from(k)).sin_cos();
        (1.0 - z * z).sqrt() * DVec3::new(x, y, 0.0) + z * DVec3::Z
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::canvas::camera::View;
    use crate::app::canvas::outline::{Outline, outline};
    use crate::geom::hull;
    use std::sync::Arc;

    #[test]
    fn the_hull_of_the_points_is_the_outline() {
        let from = DVec3::new(10.0, -5.0, 3.0);
        let shapes = [
            Shape::Box { min: from, max: from + DVec3::new(30.0, 20.0, 10.0) },
            Shape::Cylinder { from, to: from + DVec3::new(40.0, 10.0, -7.0), radius: 9.0 },
        ];
        for (shape, view) in shapes.iter().flat_map(|s| View::ALL.map(|view| (s, view))) {
            let Cloud::Points(points) = cloud(shape) else { panic!("points") };
            let Outline::Convex(known) = outline(view, shape) else { panic!("convex") };
            let mut found = hull(points.iter().map(|p| view.project(*p)).collect());
            let start = known.iter().min_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
            let turn = found.iter().position(|p| p == start.unwrap()).unwrap();
            found.rotate_left(turn);
            assert_eq!(found.len(), known.len(), "{shape:?}");
        }
    }

    #[test]
    fn a_mesh_has_its_corners() {
        let vertices = corners(DVec3::ZERO, DVec3::new(10.0, 20.0, 30.0));
        let inside = vertices.iter().map(|p| *p * 0.5 + DVec3::new(2.0, 5.0, 7.0));
        let all = vertices.iter().copied().chain(inside).collect();
        let mesh = Arc::new(Mesh::new(all, Vec::new()));
        let found = outermost(&mesh);
        assert!(vertices.iter().all(|corner| found.contains(corner)));
        assert!(found.iter().all(|p| vertices.contains(p)), "none from inside");
    }
}
