//! Obstacles as they are seen: their outlines, and where a hose's side may not come.

use glam::{DVec2, DVec3};

use crate::drawing::{View, circle, mesh_edges};
use crate::geom::{Corner, around, hull};
use crate::model::{Bay, Obstacle, Shape as Form};

use super::chain::{Chain, Vertex, chords, grown};
use super::{Layer, Shape};

/// Seen so squarely from its end, a cylinder is a circle.
const END_ON: f64 = 1e-9;

/// All obstacles, those of one nature on one layer.
pub(super) fn obstacles(bay: &Bay, view: View) -> Vec<(Layer, Shape)> {
    let mut shapes = Vec::new();
    for obstacle in &bay.obstacles {
        let outline = outline(obstacle, view);
        let min_clearance = obstacle.min_clearance_in_force_mm();
        if min_clearance > 0.0 {
            let around = outline.at_distance(min_clearance);
            shapes.extend(around.into_iter().map(|shape| (Layer::MinClearance, shape)));
        }
        let layer = Layer::of_obstacle(obstacle.nature);
        shapes.extend(outline.shapes().into_iter().map(|shape| (layer, shape)));
    }
    shapes
}

enum Outline {
    Circle {
        at: DVec2,
        radius: f64,
    },
    /// Counter-clockwise.
    Convex(Vec<DVec2>),
    Mesh {
        /// Where its surface turns away from the eye.
        edges: Vec<[DVec2; 2]>,
        points: Vec<DVec2>,
        triangles: Vec<[u32; 3]>,
    },
}

fn outline(obstacle: &Obstacle, view: View) -> Outline {
    match &obstacle.shape {
        Form::Box { min, max } => {
            let (lo, hi) = (view.flat(*min), view.flat(*max));
            Outline::Convex(vec![lo, DVec2::new(hi.x, lo.y), hi, DVec2::new(lo.x, hi.y)])
        }
        Form::Sphere { at, radius } => Outline::Circle { at: view.flat(*at), radius: *radius },
        Form::Cylinder { from, to, radius } => cylinder(*from, *to, *radius, view),
        Form::Mesh { mesh, .. } => {
            let points: Vec<DVec2> = mesh.vertices().map(|v| view.flat(v)).collect();
            let edges = mesh_edges(mesh, &points);
            Outline::Mesh { edges, points, triangles: mesh.triangles().to_vec() }
        }
    }
}

/// A circle from its end, a rectangle from its side, else the hull of its two rims.
fn cylinder(from: DVec3, to: DVec3, radius: f64, view: View) -> Outline {
    let axis = (to - from).normalize_or(DVec3::X);
    let flat = view.flat(axis);
    if flat.length() < END_ON {
        return Outline::Circle { at: view.flat(from), radius };
    }
    let place = |p| view.flat(p);
    // Across as the eye sees it: then the ends of the rims' longer axes are among the points.
    let across = axis.cross(view.towards_eye()).normalize_or_zero();
    let (u, v) = (across * radius, axis.cross(across) * radius);
    let rim = |at| {
        if view.nearness(axis).abs() < END_ON {
            vec![place(at + u), place(at - u)]
        } else {
            circle(at, u, v, rounded_up_to_fours(chords(radius, std::f64::consts::TAU)), &place)
        }
    };
    Outline::Convex(hull([rim(from), rim(to)].concat()))
}

fn rounded_up_to_fours(count: u32) -> u32 {
    count.div_ceil(4) * 4
}

impl Outline {
    fn shapes(&self) -> Vec<Shape> {
        match self {
            Self::Circle { at, radius } => vec![Shape::Circle { at: *at, radius: *radius }],
            Self::Convex(points) => {
                vec![Shape::Chain(Chain::straight(points.iter().copied(), true))]
            }
            Self::Mesh { edges, .. } => edges.iter().map(|[a, b]| Shape::line(*a, *b)).collect(),
        }
    }

    /// The outline at a distance: of a mesh one of each part by itself, and one of each hole that is
    /// wide enough.
    fn at_distance(&self, distance: f64) -> Vec<Shape> {
        match self {
            Self::Circle { at, radius } => {
                vec![Shape::Circle { at: *at, radius: radius + distance }]
            }
            Self::Convex(points) => vec![Shape::Chain(grown(points, distance))],
            Self::Mesh { points, triangles, .. } => {
                let outlines = around(points, triangles, distance);
                outlines.into_iter().map(|outline| Shape::Chain(closed(&outline))).collect()
            }
        }
    }
}

fn closed(outline: &[Corner]) -> Chain {
    let vertices =
        outline.iter().map(|corner| Vertex { at: corner.at, bulge: corner.bulge }).collect();
    Chain { vertices, is_closed: true }
}

#[cfg(test)]
mod tests {
    use glam::dvec3;

    use super::*;
    use crate::model::{Extra, Nature};

    fn of(shape: Form) -> Obstacle {
        Obstacle {
            id: "s".into(),
            name: String::new(),
            nature: Nature::Plain,
            min_clearance_mm: Some(10.0),
            group: None,
            shape,
            locked: None,
            extra: Extra::default(),
        }
    }

    #[test]
    fn a_cylinder_is_a_circle_a_rectangle_or_reaches_as_far_as_its_bounds() {
        let upright = of(Form::Cylinder { from: DVec3::ZERO, to: DVec3::Z * 90.0, radius: 20.0 });
        let Outline::Circle { radius, .. } = outline(&upright, View::Plan) else { panic!() };
        assert_eq!(radius, 20.0);
        let Outline::Convex(points) = outline(&upright, View::Side) else { panic!() };
        assert_eq!(points.len(), 4, "{points:?}");

        let from = dvec3(3.0, 5.0, -7.0);
        let slanted = of(Form::Cylinder { from, to: dvec3(90.0, 60.0, 44.0), radius: 25.0 });
        let (min, max) = slanted.shape.bounds();
        for view in View::ALL {
            let Outline::Convex(points) = outline(&slanted, view) else { panic!() };
            let lo = points.iter().copied().fold(DVec2::INFINITY, DVec2::min);
            let hi = points.iter().copied().fold(DVec2::NEG_INFINITY, DVec2::max);
            let off = [lo - view.flat(min), hi - view.flat(max)];
            assert!(
                off.iter().all(|d| d.abs().max_element() <= super::super::ACCURACY_MM),
                "{off:?}"
            );
        }
    }

    #[test]
    fn the_min_clearance_of_a_sphere_is_a_larger_circle() {
        let ball =
            outline(&of(Form::Sphere { at: dvec3(1.0, 2.0, 3.0), radius: 40.0 }), View::Side);
        let around = ball.at_distance(10.0);
        assert_eq!(around, [Shape::Circle { at: DVec2::new(1.0, 3.0), radius: 50.0 }]);
    }

    // A box as a mesh keeps hoses off as the box does.
    #[test]
    fn the_min_clearance_of_a_mesh_is_that_of_its_silhouette() {
        let (min, max) = (dvec3(-10.0, 5.0, 0.0), dvec3(30.0, 25.0, 60.0));
        let obstacle = of(Form::Box { min, max });
        let vertices: Vec<DVec3> = (0..8)
            .map(|i| {
                let pick =
                    |bit: u32, axis: usize| if i >> bit & 1 == 1 { max[axis] } else { min[axis] };
                dvec3(pick(0, 0), pick(1, 1), pick(2, 2))
            })
            .collect();
        let quads =
            [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]];
        let triangles: Vec<[u32; 3]> =
            quads.iter().flat_map(|[a, b, c, d]| [[*a, *b, *c], [*a, *c, *d]]).collect();
        for view in View::ALL {
            let points: Vec<DVec2> = vertices.iter().map(|v| view.flat(*v)).collect();
            let mesh = Outline::Mesh { edges: Vec::new(), points, triangles: triangles.clone() };
            let [Shape::Chain(of_mesh)] = &mesh.at_distance(10.0)[..] else { panic!("{view:?}") };
            let [Shape::Chain(of_box)] = &outline(&obstacle, view).at_distance(10.0)[..] else {
                panic!()
            };
            let near = |p: DVec2, chain: &Chain| {
                chain.flattened().into_iter().map(|q| q.distance(p)).fold(f64::INFINITY, f64::min)
            };
            assert_eq!(of_mesh.vertices.len(), of_box.vertices.len(), "{view:?}");
            assert!(of_box.vertices.iter().all(|v| near(v.at, of_mesh) < 1e-6), "{view:?}");
        }
    }
}
