//! Obstacles as facets and edges, in bay millimetres.

use std::f64::consts::TAU;

use glam::{DVec2, DVec3};

use crate::model::{Mesh, Shape};

/// An obstacle's skin.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Surface {
    /// Its triangles, counter-clockwise from outside.
    pub facets: Vec<Facet>,
    /// Where two facets meet.
    pub edges: Vec<Edge>,
    /// Whether nothing of the far side is ever seen: true but for a mesh, which may be open or
    /// wound either way.
    pub is_closed: bool,
    /// A ball's middle and radius: its outline is a circle, whatever its facets say.
    pub ball: Option<(DVec3, f64)>,
}

/// A triangle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Facet {
    /// Its corners.
    pub corners: [DVec3; 3],
    /// Unit normals there, outwards; those of a round surface are its own, not the facet's.
    pub normals: [DVec3; 3],
}

/// A line between two facets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Its ends.
    pub ends: [DVec3; 2],
    /// The normals of the facets beside it.
    pub normals: [DVec3; 2],
    /// Whether it is one of the obstacle itself, not only of its facets.
    pub is_sharp: bool,
}

impl Edge {
    /// Whether it belongs to the drawing, seen from `to_viewer`: sharp with one side in sight, or
    /// where the sight leaves a round surface.
    pub fn is_drawn(&self, to_viewer: DVec3, is_closed: bool) -> bool {
        let [a, b] = self.normals.map(|normal| normal.dot(to_viewer) > 1e-9);
        (a != b) || (self.is_sharp && (a || !is_closed))
    }
}

const ROUND: u32 = 32;
/// Facets of a mesh that meet at less than this are taken for one round surface (ours): 30°.
const SHARP_COS: f64 = 0.866;

/// The skin of a shape.
pub fn surface(shape: &Shape) -> Surface {
    match shape {
        Shape::Box { min, max } => cuboid(*min, *max),
        Shape::Cylinder { from, to, radius } => cylinder(*from, *to, *radius),
        Shape::Sphere { at, radius } => ball(*at, *radius),
        Shape::Mesh { mesh, .. } => of_mesh(mesh),
    }
}

impl Surface {
    /// The same elsewhere.
    #[must_use]
    pub fn moved(&self, by: DVec3) -> Self {
        let facet = |f: &Facet| Facet { corners: f.corners.map(|p| p + by), ..*f };
        let edge = |e: &Edge| Edge { ends: e.ends.map(|p| p + by), ..*e };
        Self {
            facets: self.facets.iter().map(facet).collect(),
            edges: self.edges.iter().map(edge).collect(),
            is_closed: self.is_closed,
            ball: self.ball.map(|(at, radius)| (at + by, radius)),
        }
    }

    /// A plane four-sided facet, its corners in order; the normals one a corner.
    fn quad(&mut self, p: [DVec3; 4], n: [DVec3; 4]) {
        for [a, b, c] in [[0, 1, 2], [0, 2, 3]] {
            self.facets.push(Facet { corners: [p[a], p[b], p[c]], normals: [n[a], n[b], n[c]] });
        }
    }
}

fn cuboid(min: DVec3, max: DVec3) -> Surface {
    let mut found = Surface { is_closed: true, ..Surface::default() };
    let (middle, half) = ((min + max) / 2.0, (max - min) / 2.0);
    for axis in 0..3 {
        let [out, across, up] = [0, 1, 2].map(|k| DVec3::AXES[(axis + k) % 3]);
        for sign in [1.0, -1.0] {
            let (normal, across) = (out * sign, across * sign);
            let corner = |x: f64, y: f64| middle + half * (normal + across * x + up * y);
            let corners =
                [corner(-1.0, -1.0), corner(1.0, -1.0), corner(1.0, 1.0), corner(-1.0, 1.0)];
            found.quad(corners, [normal; 4]);
        }
        // The four edges along this axis.
        for (a, b) in [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)] {
            let normals = [across * a, up * b];
            let at = middle + half * (normals[0] + normals[1]);
            let along = half * out;
            found.edges.push(Edge { ends: [at - along, at + along], normals, is_sharp: true });
        }
    }
    found
}

/// Directions round an axis, the first once more at the end.
fn round(axis: DVec3) -> Vec<DVec3> {
    let (a, b) = axis.any_orthonormal_pair();
    let turn = |k: u32| DVec2::from_angle(TAU * f64::from(k) / f64::from(ROUND));
    (0..=ROUND).map(|k| turn(k).x * a + turn(k).y * b).collect()
}

fn cylinder(from: DVec3, to: DVec3, radius: f64) -> Surface {
    let mut found = Surface { is_closed: true, ..Surface::default() };
    let axis = (to - from).normalize_or(DVec3::Z);
    let rim = round(axis);
    for (i, pair) in rim.windows(2).enumerate() {
        let [n, m] = [pair[0], pair[1]];
        let [a, b, c, d] = [from + n * radius, from + m * radius, to + m * radius, to + n * radius];
        found.quad([a, b, c, d], [n, m, m, n]);
        found.facets.push(Facet { corners: [to, d, c], normals: [axis; 3] });
        found.facets.push(Facet { corners: [from, b, a], normals: [-axis; 3] });
        let side = (n + m).normalize_or(n);
        found.edges.push(Edge { ends: [d, c], normals: [axis, side], is_sharp: true });
        found.edges.push(Edge { ends: [a, b], normals: [-axis, side], is_sharp: true });
        let after = rim[(i + 2) % (rim.len() - 1)];
        let next = (m + after).normalize_or(m);
        found.edges.push(Edge { ends: [b, c], normals: [side, next], is_sharp: false });
    }
    found
}

fn ball(at: DVec3, radius: f64) -> Surface {
    let mut found = Surface { is_closed: true, ball: Some((at, radius)), ..Surface::default() };
    let rim = round(DVec3::Z);
    let rows = ROUND / 2;
    let normal = |row: u32, k: usize| {
        let (sin, cos) = (std::f64::consts::PI * f64::from(row) / f64::from(rows)).sin_cos();
        rim[k] * sin - DVec3::Z * cos
    };
    for row in 0..rows {
        for k in 0..rim.len() - 1 {
            let n =
                [normal(row, k), normal(row, k + 1), normal(row + 1, k + 1), normal(row + 1, k)];
            found.quad(n.map(|n| at + radius * n), n);
        }
    }
    found
}

fn of_mesh(mesh: &Mesh) -> Surface {
    let corner = |place: u32| mesh.vertex(place).unwrap_or_default();
    let mut found = Surface::default();
    let mut sides: Vec<([u64; 6], [DVec3; 2], DVec3)> = Vec::new();
    for triangle in mesh.triangles() {
        let corners = triangle.map(corner);
        let normal = (corners[1] - corners[0]).cross(corners[2] - corners[0]).normalize_or_zero();
        if normal == DVec3::ZERO {
            continue;
        }
        found.facets.push(Facet { corners, normals: [normal; 3] });
        for (a, b) in [(0, 1), (1, 2), (2, 0)] {
            let ends = [corners[a], corners[b]];
            sides.push((super::super::outline::edge_key(ends[0], ends[1]), ends, normal));
        }
    }
    // Sides of equal places meet when sorted, though a mesh file shares no corners.
    sides.sort_by_key(|side| side.0);
    for same in sides.chunk_by(|a, b| a.0 == b.0) {
        let ends = same[0].1;
        let (normals, is_sharp) = match same {
            [(_, _, a), (_, _, b)] => ([*a, *b], a.dot(*b) < SHARP_COS),
            // A border, or more than two that meet in one line.
            _ => ([same[0].2, -same[0].2], true),
        };
        found.edges.push(Edge { ends, normals, is_sharp });
    }
    found
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use glam::dvec3;

    use super::*;

    fn shapes() -> [Shape; 3] {
        [
            Shape::Box { min: dvec3(-10.0, 0.0, 5.0), max: dvec3(40.0, 30.0, 25.0) },
            Shape::Cylinder {
                from: dvec3(3.0, 4.0, 5.0),
                to: dvec3(60.0, -20.0, 30.0),
                radius: 12.0,
            },
            Shape::Sphere { at: dvec3(7.0, 8.0, 9.0), radius: 20.0 },
        ]
    }

    fn volume(surface: &Surface) -> f64 {
        let six = |f: &Facet| f.corners[0].dot(f.corners[1].cross(f.corners[2]));
        surface.facets.iter().map(six).sum::<f64>() / 6.0
    }

    #[test]
    fn closed_skins_hold_their_volume_so_every_facet_is_wound_outwards() {
        let pi = std::f64::consts::PI;
        let [a, b, c] = shapes();
        let axis = dvec3(57.0, -24.0, 25.0).length();
        for (shape, exact) in
            [(a, 50.0 * 30.0 * 20.0), (b, pi * 144.0 * axis), (c, 4.0 / 3.0 * pi * 8000.0)]
        {
            let found = volume(&surface(&shape));
            assert!((found / exact - 1.0).abs() < 0.02, "{shape:?}: {found} of {exact}");
        }
    }

    #[test]
    fn normals_point_out() {
        for shape in shapes() {
            let (lo, hi) = shape.bounds();
            let middle = (lo + hi) / 2.0;
            for facet in surface(&shape).facets {
                let [a, b, c] = facet.corners;
                let flat = (b - a).cross(c - a);
                if flat.length() < 1e-9 {
                    continue;
                }
                for (corner, normal) in facet.corners.iter().zip(facet.normals) {
                    assert!(normal.dot(flat) > 0.0 && (*corner - middle).dot(normal) > 0.0);
                }
            }
        }
    }

    #[test]
    fn a_box_from_its_corner_shows_nine_edges_and_from_its_face_four() {
        let [cuboid, ..] = shapes();
        let surface = surface(&cuboid);
        let drawn = |from: DVec3| surface.edges.iter().filter(|e| e.is_drawn(from, true)).count();
        assert_eq!(drawn(DVec3::ONE.normalize()), 9);
        assert_eq!(drawn(DVec3::Z), 4);
    }

    #[test]
    fn a_cylinder_from_its_side_shows_its_rims_and_two_lines() {
        let shape = Shape::Cylinder { from: DVec3::ZERO, to: 50.0 * DVec3::X, radius: 10.0 };
        let surface = surface(&shape);
        let from = dvec3(0.0, 0.3, 1.0).normalize();
        let lines = surface.edges.iter().filter(|e| !e.is_sharp && e.is_drawn(from, true)).count();
        assert_eq!(lines, 2);
    }

    #[test]
    fn the_flat_sides_of_a_mesh_hide_the_lines_between_their_triangles() {
        let corner = |k: u32| dvec3(f64::from(k & 1), f64::from(k >> 1 & 1), f64::from(k >> 2));
        let quads =
            [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]];
        let triangles =
            quads.iter().flat_map(|q| [[q[0], q[1], q[2]], [q[0], q[2], q[3]]]).collect();
        let mesh = Mesh::new((0..8).map(corner).collect(), triangles);
        let surface = surface(&Shape::Mesh {
            file: "cube.stl".into(),
            mesh: Arc::new(mesh),
            scale: 1.0,
            at: DVec3::ZERO,
        });
        assert_eq!(surface.edges.len(), 18);
        assert_eq!(surface.edges.iter().filter(|edge| edge.is_sharp).count(), 12);
    }
}
