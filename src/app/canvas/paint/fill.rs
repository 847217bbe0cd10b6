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
    if loops.iter().map(Vec::len).sum::<usize>() > MOST_POINTS {
        return by_rows(loops, colour);
    }
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

/// More points than this are filled row by row: cutting what crosses itself tens of thousands of times into
/// triangles takes minutes.
const MOST_POINTS: usize = 20_000;
/// Height of a row, points: its steps are hardly seen.
const ROW: f64 = 1.0;
/// Rows are filled between these, points: no screen is larger.
const SCREEN: (f64, f64) = (-1000.0, 9000.0);

/// The same as strips across, each as wide as what its middle line meets.
fn by_rows(loops: &[Vec<DVec2>], colour: Color32) -> Mesh {
    let mut rows: Vec<Vec<(f64, i32)>> = vec![Vec::new(); ((SCREEN.1 - SCREEN.0) / ROW) as usize];
    for line in loops.iter().filter(|line| line.iter().all(|p| p.is_finite())) {
        let next = line.iter().cycle().skip(1);
        for (a, b) in line.iter().zip(next) {
            cross(&mut rows, *a, *b);
        }
    }
    let mut mesh = Mesh::default();
    for (k, row) in rows.iter_mut().enumerate() {
        row.sort_by(|a, b| a.0.total_cmp(&b.0));
        let top = SCREEN.0 + ROW * k as f64;
        let mut winding = 0;
        let mut from = 0.0;
        for (x, way) in row {
            if winding == 0 {
                from = *x;
            }
            winding += *way;
            if winding == 0 && *x > from {
                strip(&mut mesh, DVec2::new(from, top), DVec2::new(*x, top + ROW), colour);
            }
        }
    }
    mesh
}

/// Notes where a side crosses the middle lines of rows, and which way.
fn cross(rows: &mut [Vec<(f64, i32)>], a: DVec2, b: DVec2) {
    let (low, high, way) = if a.y < b.y { (a, b, 1) } else { (b, a, -1) };
    let row = |y: f64| ((y - SCREEN.0) / ROW - 0.5).ceil().max(0.0) as usize;
    for k in row(low.y)..row(high.y).min(rows.len()) {
        let y = SCREEN.0 + ROW * (k as f64 + 0.5);
        rows[k].push((low.x + (high.x - low.x) * (y - low.y) / (high.y - low.y), way));
    }
}

fn strip(mesh: &mut Mesh, min: DVec2, max: DVec2, colour: Color32) {
    let first = mesh.vertices.len() as u32;
    for corner in [min, DVec2::new(max.x, min.y), max, DVec2::new(min.x, max.y)] {
        mesh.colored_vertex(at(corner), colour);
    }
    mesh.add_triangle(first, first + 1, first + 2);
    mesh.add_triangle(first, first + 2, first + 3);
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
    fn what_has_very_many_points_is_filled_by_rows_the_same() {
        let ring = |radius: f64, turn: f64| -> Vec<DVec2> {
            let count = MOST_POINTS;
            let angle = |k: usize| turn * std::f64::consts::TAU * k as f64 / count as f64;
            (0..count).map(|k| dvec2(200.0, 300.0) + radius * DVec2::from_angle(angle(k))).collect()
        };
        // A hole goes round the other way; what is off every screen is left out.
        let far = vec![dvec2(0.0, 1e7), dvec2(50.0, 1e7), dvec2(50.0, 2e7)];
        let found = area(&fill(&[ring(100.0, 1.0), ring(50.0, -1.0), far], Color32::BLACK));
        let exact = std::f64::consts::PI * (1e4 - 2.5e3);
        assert!((found / exact - 1.0).abs() < 2e-3, "{found} {exact}");
    }

    #[test]
    fn what_is_not_finite_is_left_out() {
        let line = vec![dvec2(f64::NAN, 0.0), dvec2(1.0, 0.0), dvec2(1.0, 1.0)];
        assert!(fill(&[line], Color32::BLACK).is_empty());
        assert!(fill(&[], Color32::BLACK).is_empty());
    }
}
