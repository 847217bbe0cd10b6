//! Surfaces with bays and holes as triangles.

use eframe::egui::{Color32, Mesh};
use glam::DVec2;
use lyon::math::point;
use lyon::path::Path;
use lyon::tessellation::{
    BuffersBuilder, FillOptions, FillRule, FillTessellator, FillVertex, VertexBuffers,
};

use super::at;

/// Fills where the winding number of closed lines is not zero. What cannot be filled (lines that
/// are not made of finite numbers) is left empty.
pub(super) fn fill(loops: &[Vec<DVec2>], colour: Color32) -> Mesh {
    let mut path = Path::builder();
    for line in loops.iter().filter(|line| line.iter().all(|p| p.is_finite())) {
        let mut points = line.iter().map(|p| point(p.x as f32, p.y as f32));
        let Some(first) = points.next() else { continue };
        path.begin(first);
        for p in points {
            path.line_to(p);
        }
        path.end(true);
    }
    let options = FillOptions::tolerance(0.1).with_fill_rule(FillRule::NonZero);
    let mut buffers: VertexBuffers<DVec2, u32> = VertexBuffers::new();
    let place = |vertex: FillVertex<'_>| {
        let p = vertex.position();
        DVec2::new(f64::from(p.x), f64::from(p.y))
    };
    let mut mesh = Mesh::default();
    let filled = FillTessellator::new().tessellate_path(
        &path.build(),
        &options,
        &mut BuffersBuilder::new(&mut buffers, place),
    );
    if filled.is_ok() {
        mesh.reserve_vertices(buffers.vertices.len());
        for p in buffers.vertices {
            mesh.colored_vertex(at(p), colour);
        }
        mesh.indices = buffers.indices;
    }
    mesh
}

#[cfg(test)]
mod tests {
    use glam::dvec2;

    use super::*;

    fn area(mesh: &Mesh) -> f64 {
        let corner = |i: u32| {
            let p = mesh.vertices[i as usize].pos;
            dvec2(f64::from(p.x), f64::from(p.y))
        };
        mesh.indices
            .chunks_exact(3)
            .map(|t| {
                (corner(t[1]) - corner(t[0])).perp_dot(corner(t[2]) - corner(t[0])).abs() / 2.0
            })
            .sum()
    }

    #[test]
    fn a_bay_stays_empty_and_an_overlap_counts_once() {
        let bracket = vec![
            dvec2(0.0, 0.0),
            dvec2(30.0, 0.0),
            dvec2(30.0, 10.0),
            dvec2(10.0, 10.0),
            dvec2(10.0, 40.0),
            dvec2(0.0, 40.0),
        ];
        assert!((area(&fill(std::slice::from_ref(&bracket), Color32::BLACK)) - 600.0).abs() < 1e-3);
        let over = vec![dvec2(20.0, -10.0), dvec2(50.0, -10.0), dvec2(50.0, 5.0), dvec2(20.0, 5.0)];
        assert!((area(&fill(&[bracket, over], Color32::BLACK)) - 1000.0).abs() < 1e-3);
    }

    #[test]
    fn what_is_not_finite_is_left_out() {
        let line = vec![dvec2(f64::NAN, 0.0), dvec2(1.0, 0.0), dvec2(1.0, 1.0)];
        assert!(fill(&[line], Color32::BLACK).is_empty());
        assert!(fill(&[], Color32::BLACK).is_empty());
    }
}
