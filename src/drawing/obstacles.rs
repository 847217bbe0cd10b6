//! What is near the hose, lightly: outline by nature, hot things hatched.

use std::collections::BTreeMap;

use glam::{DVec2, DVec3};

use crate::geom::hull;
use crate::model::{Mesh, Nature, Obstacle, Shape};

use super::hatch::hatch;
use super::labels::{Label, Labels};
use super::layout::Panel;
use super::{Dash, Item, Rect, Shade, Stroke};

/// Chords in a circle.
const CHORDS: u32 = 48;
/// Between hatch lines, mm on paper.
const HATCH_MM: f64 = 2.2;
/// A mesh of more triangles in one panel is outlined, but not filled: the sheet stays small.
const MOST_FILLED: usize = 4000;
/// Size of the names, mm.
const NAME_MM: f64 = 2.3;

/// How an obstacle looks in one panel.
struct Outline {
    /// Closed; together they cover it.
    filled: Vec<Vec<DVec2>>,
    /// Open; its visible edge.
    edges: Vec<Vec<DVec2>>,
    /// The hatching follows these.
    hatched: Vec<Vec<DVec2>>,
    bounds: Rect,
}

/// The shapes of an obstacle in a panel; none where it is not in it.
pub(super) fn draw(obstacle: &Obstacle, panel: &Panel) -> Vec<Item> {
    let Some(outline) = outline(&obstacle.shape, panel) else { return Vec::new() };
    if !outline.bounds.overlaps(panel.rect) {
        return Vec::new();
    }
    let mut items = Vec::new();
    if !outline.filled.is_empty() {
        items.push(Item::Path {
            lines: outline.filled,
            is_closed: true,
            fill: Some(Shade::Obstacle),
            stroke: None,
        });
    }
    if obstacle.nature == Nature::Hot {
        let lines = hatch(&outline.hatched, panel.rect, HATCH_MM);
        let stroke = Some(Stroke::obstacle(Shade::Soft, 0.18));
        items.push(Item::Path { lines, is_closed: false, fill: None, stroke });
    }
    let stroke = Some(edge(obstacle.nature));
    items.push(Item::Path { lines: outline.edges, is_closed: false, fill: None, stroke });
    items
}

/// Its name and nature inside its outline, where there is room.
pub(super) fn name(obstacle: &Obstacle, panel: &Panel, labels: &mut Labels) -> Option<Item> {
    let bounds = outline(&obstacle.shape, panel)?.bounds;
    let name = obstacle.shown_name();
    let text = match obstacle.nature {
        Nature::Plain => name.to_owned(),
        nature => format!("{name}, {}", nature.word()),
    };
    let label = Label { text: &text, size_mm: NAME_MM, is_bold: false, shade: Shade::Soft };
    labels.inside(bounds, &label)
}

fn edge(nature: Nature) -> Stroke {
    match nature {
        Nature::Plain => Stroke::obstacle(Shade::Soft, 0.18),
        Nature::Hot => Stroke::obstacle(Shade::Soft, 0.3),
        Nature::Moving => Stroke::dashed(Shade::Soft, 0.3, Dash::Dashed),
        Nature::Sharp => Stroke::dashed(Shade::Soft, 0.4, Dash::Dotted),
    }
}

fn outline(shape: &Shape, panel: &Panel) -> Option<Outline> {
    let on_paper = &|p| panel.on_paper(p);
    match shape {
        Shape::Box { min, max } => {
            let (a, b) = (panel.on_paper(*min), panel.on_paper(*max));
            Some(plain(Rect { min: a.min(b), max: a.max(b) }.outline()))
        }
        Shape::Sphere { at, radius } => {
            // The largest circle as the eye sees it: through two directions of the panel.
            let (across, up) = in_panel(panel);
            Some(plain(circle(*at, across * *radius, up * *radius, CHORDS, on_paper)))
        }
        Shape::Cylinder { from, to, radius } => {
            let axis = (*to - *from).normalize_or(DVec3::X);
            let (u, v) = axis.any_orthonormal_pair();
            let mut points = circle(*from, u * *radius, v * *radius, CHORDS, on_paper);
            points.extend(circle(*to, u * *radius, v * *radius, CHORDS, on_paper));
            Some(plain(hull(points)))
        }
        Shape::Mesh { mesh, .. } => of_mesh(mesh, panel),
    }
}

fn plain(outline: Vec<DVec2>) -> Outline {
    let bounds = Rect::of(outline.iter().copied());
    let mut edge = outline.clone();
    edge.extend(outline.first());
    Outline { filled: vec![outline.clone()], edges: vec![edge], hatched: vec![outline], bounds }
}

/// The bay's directions across and up the panel.
fn in_panel(panel: &Panel) -> (DVec3, DVec3) {
    let mut axes = [DVec3::X, DVec3::Y, DVec3::Z]
        .into_iter()
        .filter(|axis| panel.direction_on_paper(*axis) != DVec2::ZERO);
    (axes.next().unwrap_or(DVec3::X), axes.next().unwrap_or(DVec3::Z))
}

/// Points round the circle through `at + u` and `at + v`, as they come to lie.
pub(crate) fn circle(
    at: DVec3,
    u: DVec3,
    v: DVec3,
    chords: u32,
    flat: &dyn Fn(DVec3) -> DVec2,
) -> Vec<DVec2> {
    let turn = std::f64::consts::TAU / f64::from(chords);
    (0..chords)
        .map(|k| {
            let (sin, cos) = (f64::from(k) * turn).sin_cos();
            flat(at + u * cos + v * sin)
        })
        .collect()
}

/// Triangles that are seen, and the edges where the surface turns away from the eye.
fn of_mesh(mesh: &Mesh, panel: &Panel) -> Option<Outline> {
    let points: Vec<DVec2> = mesh.vertices().map(|v| panel.on_paper(v)).collect();
    let mut filled: Vec<Vec<DVec2>> = mesh
        .triangles()
        .iter()
        .filter_map(|places| flat_triangle(&points, *places))
        .filter(|(area, _)| *area != 0.0)
        .map(|(area, [p, q, r])| if area > 0.0 { vec![p, q, r] } else { vec![p, r, q] })
        .filter(|triangle| Rect::of(triangle.iter().copied()).overlaps(panel.rect))
        .collect();
    if filled.len() > MOST_FILLED {
        filled.clear();
    }
    let edges = mesh_edges(mesh, &points).into_iter().map(Vec::from).collect();
    let hatched = vec![hull(points.clone())];
    (!points.is_empty()).then(|| Outline {
        filled,
        edges,
        hatched,
        bounds: Rect::of(points.iter().copied()),
    })
}

/// A triangle laid flat, and twice its area; negative where it is seen from behind.
fn flat_triangle(points: &[DVec2], places: [u32; 3]) -> Option<(f64, [DVec2; 3])> {
    let [p, q, r] = places.map(|i| points.get(i as usize).copied());
    let (p, q, r) = (p?, q?, r?);
    Some(((q - p).perp_dot(r - p), [p, q, r]))
}

/// The edges where the surface turns away from the eye, and those of its holes; `points` are the
/// corners of the mesh laid flat.
pub(crate) fn mesh_edges(mesh: &Mesh, points: &[DVec2]) -> Vec<[DVec2; 2]> {
    let mut facing: BTreeMap<(u32, u32), i32> = BTreeMap::new();
    for places in mesh.triangles() {
        let Some((area, _)) = flat_triangle(points, *places) else { continue };
        let side = if area > 0.0 { 1 } else { -1 };
        let [a, b, c] = *places;
        for (i, j) in [(a, b), (b, c), (c, a)] {
            // Both sides the same way: ±2. One way and the other, or an open edge: 0 or ±1.
            *facing.entry((i.min(j), i.max(j))).or_insert(0) += side;
        }
    }
    facing
        .iter()
        .filter(|(_, sum)| sum.abs() < 2)
        .filter_map(|((i, j), _)| Some([*points.get(*i as usize)?, *points.get(*j as usize)?]))
        .collect()
}
