//! Solids by nature: plain ones filled, hot ones hatched, moving ones hatched the other way with
//! broken lines, sharp ones with teeth along their edge; all with the distance to keep, dashed.

use eframe::egui::{Color32, Mesh, Painter, Shape, Stroke};
use glam::{DVec2, dvec2};

use super::super::layout::{SolidShape, ViewLayout};
use super::super::outline::{Outline, clip_line};
use super::{at, dashed};
use crate::app::theme::Palette;
use crate::model::Nature;

struct Inks {
    fill: Color32,
    edge: Color32,
}

fn inks(nature: Nature, colours: &Palette) -> Inks {
    let (fill, edge) = match nature {
        Nature::Plain => (colours.body, colours.body_edge),
        Nature::Hot => (colours.hot, colours.hot_edge),
        Nature::Moving => (colours.moving, colours.moving_edge),
        Nature::Sharp => (colours.sharp, colours.sharp_edge),
    };
    Inks { fill, edge }
}

pub(super) fn keep_off(painter: &Painter, layout: &ViewLayout, colours: &Palette) {
    for solid in layout.solids.iter().filter(|solid| solid.keep_off_points > 0.0) {
        let edge = inks(solid.nature, colours).edge;
        if let Outline::Triangles { edges, .. } = &solid.outline {
            // Everything within the distance of the silhouette, as one faint band: opaque, so that
            // it does not darken where it overlaps itself.
            let faint = blend(colours.sheet, edge, 0.12);
            let half = solid.keep_off_points as f32;
            for [a, b] in edges {
                painter.line_segment([at(*a), at(*b)], Stroke::new(2.0 * half, faint));
                painter.circle_filled(at(*a), half, faint);
                painter.circle_filled(at(*b), half, faint);
            }
        } else {
            painter.extend(dashed(&solid.keep_off, Stroke::new(1.0, edge), 5.0, 4.0));
        }
    }
}

pub(super) fn bodies(painter: &Painter, layout: &ViewLayout, colours: &Palette) {
    for solid in &layout.solids {
        let inks = inks(solid.nature, colours);
        match &solid.outline {
            Outline::Convex(points) => convex(painter, solid, points, &inks),
            Outline::Triangles { triangles, edges } => {
                let mut mesh = Mesh::default();
                for triangle in triangles {
                    let first = mesh.vertices.len() as u32;
                    for p in triangle {
                        mesh.colored_vertex(at(*p), inks.fill);
                    }
                    mesh.add_triangle(first, first + 1, first + 2);
                }
                painter.add(Shape::mesh(mesh));
                for triangle in triangles {
                    hatch(painter, solid.nature, triangle, &inks);
                }
                for edge in edges {
                    painter.line_segment(edge.map(at), Stroke::new(1.0, inks.edge));
                }
            }
        }
    }
}

fn convex(painter: &Painter, solid: &SolidShape, points: &[DVec2], inks: &Inks) {
    let stroke = Stroke::new(1.0, inks.edge);
    let path = points.iter().map(|p| at(*p)).collect();
    painter.add(Shape::convex_polygon(path, inks.fill, Stroke::NONE));
    hatch(painter, solid.nature, points, inks);
    if solid.nature == Nature::Sharp {
        teeth(painter, points, inks);
    }
    painter.add(Shape::closed_line(points.iter().map(|p| at(*p)).collect(), stroke));
}

/// Lines of one family across the whole screen, so that neighbouring triangles continue each other.
fn hatch(painter: &Painter, nature: Nature, screen_polygon: &[DVec2], inks: &Inks) {
    let (direction, gap) = match nature {
        Nature::Hot => (dvec2(1.0, -1.0), 9.0),
        Nature::Moving => (dvec2(1.0, 1.0), 9.0),
        Nature::Plain | Nature::Sharp => return,
    };
    let direction = direction.normalize_or(DVec2::X);
    let normal = direction.perp();
    // Y down on the screen turns the polygon round; clipping wants it the other way.
    let mut polygon: Vec<DVec2> = screen_polygon.to_vec();
    if area_of(&polygon) < 0.0 {
        polygon.reverse();
    }
    let reach = polygon.iter().map(|p| p.dot(normal));
    let (lo, hi) = reach.fold((f64::MAX, f64::MIN), |(lo, hi), d| (lo.min(d), hi.max(d)));
    if !(hi - lo).is_finite() || hi - lo > 20_000.0 {
        return;
    }
    let stroke = Stroke::new(1.0, inks.edge.gamma_multiply(0.4));
    let mut d = (lo / gap).ceil() * gap;
    while d < hi {
        if let Some(ends) = clip_line(&polygon, normal * d, direction) {
            let ends = ends.map(at);
            if nature == Nature::Moving {
                painter.extend(Shape::dashed_line(&ends, stroke, 6.0, 4.0));
            } else {
                painter.line_segment(ends, stroke);
            }
        }
        d += gap;
    }
}

fn area_of(polygon: &[DVec2]) -> f64 {
    let n = polygon.len();
    (0..n).map(|i| polygon[i].perp_dot(polygon[(i + 1) % n])).sum()
}

/// Teeth that point outwards along the edge.
fn teeth(painter: &Painter, points: &[DVec2], inks: &Inks) {
    const STEP: f64 = 7.0;
    let n = points.len();
    let middle = points.iter().sum::<DVec2>() / n.max(1) as f64;
    for i in 0..n {
        let (a, b) = (points[i], points[(i + 1) % n]);
        let length = a.distance(b);
        let count = (length / STEP).floor().min(400.0) as u32;
        let along = (b - a).normalize_or_zero();
        let outward = if along.perp().dot(a - middle) > 0.0 { along.perp() } else { -along.perp() };
        for k in 0..count {
            let from = a + along * (length * f64::from(k) / f64::from(count));
            let tip = from + along * STEP / 2.0 + outward * 4.0;
            let path = vec![at(from), at(tip), at(from + along * STEP)];
            painter.add(Shape::convex_polygon(path, inks.edge, Stroke::NONE));
        }
    }
}

fn blend(ground: Color32, ink: Color32, share: f32) -> Color32 {
    ground.lerp_to_gamma(ink, share)
}
