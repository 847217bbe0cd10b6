//! A piece of centre line against a mesh.

use glam::DVec3;
use parry3d_f64::partitioning::BvhNode;
use parry3d_f64::shape::TriMesh;

use super::convex::TriangleField;
use super::{MeshField, Near, piece_convex, point_piece};
use crate::geom::{Bounds, Piece};

/// Certified for depths; distances outside are those of the triangles.
const ACCURACY: f64 = 1e-5;
/// Nearer than this the piece touches the surface, and may go through it.
const TOUCH: f64 = 1e-7;

impl MeshField {
    /// The nearest places; `None` where nothing is nearer than `enough`.
    pub(super) fn nearest(&self, piece: &Piece, enough: f64) -> Option<Near> {
        let mesh = self.mesh.as_ref()?;
        let around = Bounds::of_piece(piece);
        let starts_inside = self.is_closed()
            && self.bounds().distance_to(piece.point_at(0.0)) <= 0.0
            && self.distance(piece.point_at(0.0)).0 < 0.0;
        if starts_inside {
            return self.deepest(piece, enough);
        }
        // Also where only depths are asked for: what touches may go through.
        let near = to_surface(mesh, piece, &around, enough.max(2.0 * TOUCH))?;
        if self.is_closed() && near.distance <= TOUCH {
            return self.deepest(piece, enough);
        }
        (near.distance < enough).then_some(near)
    }

    /// The least signed distance of a piece that comes inside.
    fn deepest(&self, piece: &Piece, enough: f64) -> Option<Near> {
        let probe = |along: f64| {
            let point = piece.point_at(along);
            let (distance, nearest) = self.distance(point);
            Probe { along, point, distance, nearest }
        };
        let (first, last) = (probe(0.0), probe(piece.length()));
        let mut best = if last.distance < first.distance { last } else { first };
        let mut open = vec![(first, last)];
        while let Some((a, b)) = open.pop() {
            let wanted = (best.distance - ACCURACY).min(enough);
            if floor(piece, &a, &b) >= wanted {
                continue;
            }
            let middle = probe(f64::midpoint(a.along, b.along));
            if middle.along <= a.along || middle.along >= b.along {
                continue;
            }
            if middle.distance < best.distance {
                best = middle;
            }
            let mut halves = [(a, middle), (middle, b)];
            if halves[0].1.distance.min(a.distance) < halves[1].1.distance.min(middle.distance) {
                halves.reverse();
            }
            open.extend(halves);
        }
        (best.distance < enough).then_some(Near {
            distance: best.distance,
            along: best.along,
            on_piece: best.point,
            on_other: best.nearest,
        })
    }
}

#[derive(Clone, Copy)]
struct Probe {
    along: f64,
    point: DVec3,
    distance: f64,
    nearest: DVec3,
}

/// No signed distance between `a` and `b` is less. It changes no faster than the place; and inside, no
/// depth is greater than the distance to any one place of the surface, which is greatest at an end of
/// the chord, give or take the sagitta.
fn floor(piece: &Piece, a: &Probe, b: &Probe) -> f64 {
    let width = b.along - a.along;
    let by_slope = 0.5 * (a.distance + b.distance - width);
    let sagitta = 0.125 * width * width * piece.curvature();
    let to = |place: DVec3| a.point.distance(place).max(b.point.distance(place)) + sagitta;
    let by_place = -to(a.nearest).min(to(b.nearest));
    by_slope.max(by_place)
}

/// The nearest triangle, by the tree.
fn to_surface(mesh: &TriMesh, piece: &Piece, around: &Bounds, enough: f64) -> Option<Near> {
    let least = |node: &BvhNode, _: f64| {
        let bounds = Bounds { min: node.mins(), max: node.maxs() };
        let middle = bounds.middle();
        let by_ball =
            piece.point_at(point_piece(middle, piece)).distance(middle) - bounds.half_diagonal();
        by_ball.max(around.distance(&bounds))
    };
    let nearest = |triangle: u32, best: f64| {
        let corners = mesh.triangle(triangle);
        let field = TriangleField { corners: [corners.a, corners.b, corners.c] };
        piece_convex(piece, &field, best).map(|near| (near.distance, near))
    };
    mesh.bvh().find_best(enough, least, nearest).map(|(_, (_, near))| near)
}
