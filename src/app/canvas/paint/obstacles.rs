//! Obstacles by nature: plain ones filled, hot ones hatched, moving ones hatched the other way and closer,
//! sharp ones with teeth along their edge; all with the distance to keep, dashed.

use eframe::egui::{Color32, Mesh, Shape, Stroke};
use glam::{DVec2, dvec2};

use super::super::layout::{Behind, IN_FRONT, ObstacleShape, ViewLayout};
use super::super::outline::{Outline, Shadow, clip_line};
use super::at;
use super::fill::fill;
use super::hoses::faintness;
use crate::app::theme::Palette;
use crate::model::Nature;

pub(super) struct Inks {
    pub(super) fill: Color32,
    pub(super) edge: Color32,
}

impl Inks {
    /// So far back into the paper.
    fn back(self, share: f32, colours: &Palette) -> Self {
        let back = |ink: Color32| ink.lerp_to_gamma(colours.sheet, share);
        Self { fill: back(self.fill), edge: back(self.edge) }
    }
}

/// The inks of an obstacle in a view: fainter where it lies behind.
fn inks_of(obstacle: &ObstacleShape, behind: Behind, colours: &Palette) -> Inks {
    let step = behind.step(obstacle.depth);
    let inks = inks(obstacle.nature, colours).back(faintness(step), colours);
    // What is seen through is an outline.
    if step == IN_FRONT { Inks { fill: Color32::TRANSPARENT, ..inks } } else { inks }
}

/// The colours of a nature.
pub(super) fn inks(nature: Nature, colours: &Palette) -> Inks {
    let (fill, edge) = match nature {
        Nature::Plain => (colours.plain, colours.plain_edge),
        Nature::Hot => (colours.hot, colours.hot_edge),
        Nature::Moving => (colours.moving, colours.moving_edge),
        Nature::Sharp => (colours.sharp, colours.sharp_edge),
    };
    Inks { fill, edge }
}

pub(super) fn min_clearance(
    shapes: &mut Vec<Shape>,
    layout: &ViewLayout,
    behind: Behind,
    colours: &Palette,
) {
    for obstacle in &layout.obstacles {
        let stroke = Stroke::new(1.0, inks_of(obstacle, behind, colours).edge);
        for line in &obstacle.min_clearance {
            shapes.extend(min_clearance_line(line, stroke));
        }
    }
}

/// The dashes of a line at the minimum clearance distance.
pub(super) fn min_clearance_line(
    line: &[DVec2],
    stroke: Stroke,
) -> impl Iterator<Item = Shape> + use<> {
    super::dash::shapes(line, stroke, 11.0, 8.0)
}

pub(super) fn groups(
    shapes: &mut Vec<Shape>,
    layout: &ViewLayout,
    behind: Behind,
    colours: &Palette,
    pixel: f64,
) {
    for obstacle in &layout.obstacles {
        let inks = inks_of(obstacle, behind, colours);
        match &obstacle.outline {
            Outline::Convex(points) => convex(shapes, obstacle, points, &inks, pixel),
            Outline::Shadow(shadow) => of_mesh(shapes, obstacle.nature, shadow, &inks),
        }
    }
}

fn convex(
    shapes: &mut Vec<Shape>,
    obstacle: &ObstacleShape,
    points: &[DVec2],
    inks: &Inks,
    pixel: f64,
) {
    let mut mesh = Mesh::default();
    surface(&mut mesh, points, inks, pixel);
    shapes.push(Shape::mesh(mesh));
    hatch(shapes, obstacle.nature, points.iter(), &across_convex(points), inks);
    if obstacle.nature == Nature::Sharp {
        let middle = points.iter().sum::<DVec2>() / points.len().max(1) as f64;
        let next = points.iter().cycle().skip(1);
        let sides = points.iter().zip(next).map(|(a, b)| [*a, *b]);
        teeth(shapes, sides, &|p, out| (p - middle).dot(out) > 0.0, inks);
    }
}

/// A convex surface with a line of one pixel round it, as one piece: half as many points as a surface and a
/// line of its own.
fn surface(mesh: &mut Mesh, points: &[DVec2], inks: &Inks, pixel: f64) {
    let (n, first) = (points.len() as u32, mesh.vertices.len() as u32);
    if n < 3 {
        return;
    }
    let outwards = if area_of(points) < 0.0 { -1.0 } else { 1.0 };
    for (i, p) in points.iter().enumerate() {
        let before = points[(i + points.len() - 1) % points.len()];
        let after = points[(i + 1) % points.len()];
        let sides =
            [*p - before, after - *p].map(|side| -side.perp().normalize_or_zero() * outwards);
        let out = (sides[0] + sides[1]).normalize_or_zero();
        // Mitred, but never to a spike.
        let out = out * pixel / out.dot(sides[0]).max(0.5);
        mesh.colored_vertex(at(*p - out), inks.fill);
        mesh.colored_vertex(at(*p), inks.edge);
        mesh.colored_vertex(at(*p + out), Color32::TRANSPARENT);
    }
    for k in 0..n {
        let (a, b) = (first + 3 * k, first + 3 * ((k + 1) % n));
        if k > 0 && k + 1 < n {
            mesh.add_triangle(first, a, b);
        }
        for ring in 0..2 {
            mesh.add_triangle(a + ring, b + ring, a + ring + 1);
            mesh.add_triangle(b + ring, b + ring + 1, a + ring + 1);
        }
    }
}

/// Filled as one surface, its border strong and the folds within it faint.
fn of_mesh(shapes: &mut Vec<Shape>, nature: Nature, shadow: &Shadow, inks: &Inks) {
    shapes.push(Shape::mesh(fill(&shadow.loops, inks.fill)));
    let across = |at, direction| across_shadow(shadow, at, direction);
    hatch(shapes, nature, shadow.border.iter().flatten(), &across, inks);
    for fold in &shadow.folds {
        let faint = Stroke::new(1.0, inks.edge.gamma_multiply(0.35));
        shapes.push(Shape::line_segment(fold.map(at), faint));
    }
    for side in &shadow.border {
        shapes.push(Shape::line_segment(side.map(at), Stroke::new(1.25, inks.edge)));
    }
    if nature == Nature::Sharp {
        let outside = |p: DVec2, out: DVec2| !shadow.contains(p + 0.5 * out);
        teeth(shapes, shadow.border.iter().copied(), &outside, inks);
    }
}

/// Where a straight line runs over a surface: pieces of it.
type Across<'a> = dyn Fn(DVec2, DVec2) -> Vec<[DVec2; 2]> + 'a;

fn across_convex(points: &[DVec2]) -> impl Fn(DVec2, DVec2) -> Vec<[DVec2; 2]> {
    // Y down on the screen turns the polygon round; clipping wants it the other way.
    let mut polygon = points.to_vec();
    if area_of(&polygon) < 0.0 {
        polygon.reverse();
    }
    move |at, direction| clip_line(&polygon, at, direction).into_iter().collect()
}

fn across_shadow(shadow: &Shadow, at: DVec2, direction: DVec2) -> Vec<[DVec2; 2]> {
    let normal = direction.perp();
    let mut cuts: Vec<f64> = Vec::new();
    for [a, b] in &shadow.border {
        let (from, to) = ((*a - at).dot(normal), (*b - at).dot(normal));
        if (from <= 0.0) != (to <= 0.0) {
            cuts.push((a.lerp(*b, from / (from - to)) - at).dot(direction));
        }
    }
    cuts.sort_by(f64::total_cmp);
    let pieces = cuts.windows(2).map(|w| [at + w[0] * direction, at + w[1] * direction]);
    pieces.filter(|[a, b]| shadow.contains((*a + *b) / 2.0)).collect()
}

/// Lines of one family across the whole screen, so that neighbouring surfaces continue each other.
fn hatch<'a>(
    shapes: &mut Vec<Shape>,
    nature: Nature,
    points: impl Iterator<Item = &'a DVec2>,
    across: &Across<'_>,
    inks: &Inks,
) {
    let (direction, gap) = match nature {
        Nature::Hot => (dvec2(1.0, -1.0), 9.0),
        Nature::Moving => (dvec2(1.0, 1.0), 6.0),
        Nature::Plain | Nature::Sharp => return,
    };
    let direction = direction.normalize_or(DVec2::X);
    let normal = direction.perp();
    let stroke = Stroke::new(1.0, inks.edge.gamma_multiply(0.4));
    let reach = points.map(|p| p.dot(normal));
    let (lo, hi) = reach.fold((f64::MAX, f64::MIN), |(lo, hi), d| (lo.min(d), hi.max(d)));
    if !(hi - lo).is_finite() || hi - lo > 20_000.0 {
        return;
    }
    for k in (lo / gap).ceil() as i32..=(hi / gap).floor() as i32 {
        for ends in across(normal * gap * f64::from(k), direction) {
            shapes.push(Shape::line_segment(ends.map(at), stroke));
        }
    }
}

fn area_of(polygon: &[DVec2]) -> f64 {
    let n = polygon.len();
    (0..n).map(|i| polygon[i].perp_dot(polygon[(i + 1) % n])).sum()
}

/// Teeth that point outwards along the sides; `outside` tells whether a way from a place leads out.
fn teeth(
    shapes: &mut Vec<Shape>,
    sides: impl Iterator<Item = [DVec2; 2]>,
    outside: &dyn Fn(DVec2, DVec2) -> bool,
    inks: &Inks,
) {
    const STEP: f64 = 7.0;
    for [a, b] in sides {
        let length = a.distance(b);
        let count = (length / STEP).floor().min(400.0) as u32;
        let along = (b - a).normalize_or_zero();
        let normal = along.perp();
        let outward = if outside((a + b) / 2.0, normal) { normal } else { -normal };
        for k in 0..count {
            let from = a + along * (length * f64::from(k) / f64::from(count));
            let tip = from + along * STEP / 2.0 + outward * 4.0;
            let path = vec![at(from), at(tip), at(from + along * STEP)];
            shapes.push(Shape::convex_polygon(path, inks.edge, Stroke::NONE));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_surface_is_filled_inside_its_line_whichever_way_it_goes_round() {
        let inks = Inks { fill: Color32::RED, edge: Color32::BLACK };
        let square = [dvec2(10.0, 10.0), dvec2(40.0, 10.0), dvec2(40.0, 30.0), dvec2(10.0, 30.0)];
        let mut other_way = square;
        other_way.reverse();
        for points in [square, other_way] {
            let mut mesh = Mesh::default();
            surface(&mut mesh, &points, &inks, 1.0);
            assert!(mesh.is_valid());
            for v in &mesh.vertices {
                let is_inside =
                    v.pos.x > 10.5 && v.pos.x < 39.5 && v.pos.y > 10.5 && v.pos.y < 29.5;
                assert_eq!(v.color == inks.fill, is_inside, "{v:?}");
                let is_outside = v.pos.x < 9.5 || v.pos.x > 40.5 || v.pos.y < 9.5 || v.pos.y > 30.5;
                assert_eq!(v.color == Color32::TRANSPARENT, is_outside, "{v:?}");
            }
        }
    }
}
