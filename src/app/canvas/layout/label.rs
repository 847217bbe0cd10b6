//! Names on the drawing, set where they cover least.

use glam::{DVec2, dvec2};

use super::super::camera::Area;
use super::super::outline::Outline;
use super::super::scene::Scene;
use super::{PortShape, ViewLayout};
use crate::model::Nature;

/// How names are set.
pub struct Naming<'a> {
    /// Tells the size of a text.
    pub measure: &'a dyn Fn(&str) -> DVec2,
    /// Ports that are named before others and in any case, by their place in the scene.
    pub first: &'a [usize],
}

/// A name on the drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// What it says.
    pub text: String,
    /// Where.
    pub area: Area,
    /// Whether it names a solid: those are quieter.
    pub quiet: bool,
    /// Whether it needs paper behind it: it does not stand inside a plain surface.
    pub on_paper: bool,
}

pub(super) fn lay_out(scene: &Scene, layout: &ViewLayout, naming: &Naming<'_>) -> Vec<Label> {
    let measure = naming.measure;
    let mut labels: Vec<Label> = Vec::new();
    let mut rings: Vec<Area> = layout.ports.iter().map(ring).collect();
    rings.extend(corners(layout));
    rings.extend(layout.markers.iter().map(|m| Area { min: m.at, max: m.at }.grown(MARKER_POINTS)));
    rings.extend(layout.vias.iter().map(|via| Area { min: via.at, max: via.at }.grown(VIA_POINTS)));
    let mut ports: Vec<&PortShape> = layout.ports.iter().collect();
    ports.sort_by_key(|port| {
        naming.first.iter().position(|first| *first == port.index).unwrap_or(usize::MAX)
    });
    for port in ports {
        if !layout.area.contains(port.at) {
            continue;
        }
        let text = &scene.ports[port.index].label;
        let (area, cost) = best(port, measure(text), layout.area, &rings, &labels, layout);
        // Rather no name than one over another; pointing at the port tells it.
        if cost <= 1 || naming.first.contains(&port.index) {
            labels.push(Label { text: text.clone(), area, quiet: false, on_paper: true });
        }
    }
    // Solids are in the layout's order, farthest first; names come from the scene by the same rule.
    for (text, nature, outline) in solid_names(scene, layout) {
        let size = measure(&text);
        // What is merely there is named where there is room; what can hurt a hose, always.
        let beside = nature != Nature::Plain;
        let found = inside(outline, size, layout.area, beside, &labels, &rings);
        if let Some(area) = found {
            labels.push(Label { text, area, quiet: true, on_paper: beside });
        }
    }
    labels
}

/// The cost of a place that covers another name or a port.
const COVERS: usize = 100;
/// Paper left between two names, points.
const APART_POINTS: f64 = 6.0;
/// What a finding's mark takes round its place, points.
const MARKER_POINTS: f64 = 9.0;
/// What a corner or a clamp takes round its place, points.
const VIA_POINTS: f64 = 5.0;

/// The corners of the view that its own title and its scale bar take.
fn corners(layout: &ViewLayout) -> [Area; 2] {
    let Area { min, max } = layout.area;
    let foot = dvec2(min.x, max.y);
    [
        Area { min, max: min + dvec2(130.0, 30.0) },
        Area {
            min: foot - dvec2(0.0, 34.0),
            max: foot + dvec2(layout.scale_bar.points + 26.0, 0.0),
        },
    ]
}

fn ring(port: &PortShape) -> Area {
    Area { min: port.at, max: port.at }.grown(port.radius + 1.0)
}

/// Of eight places about the port, the first that covers the least.
fn best(
    port: &PortShape,
    size: DVec2,
    view: Area,
    rings: &[Area],
    labels: &[Label],
    layout: &ViewLayout,
) -> (Area, usize) {
    let gap = port.radius + 4.0;
    let away = -port.toward.normalize_or_zero();
    let mut places: Vec<DVec2> = [
        dvec2(0.0, 1.0),
        dvec2(1.0, 0.0),
        dvec2(-1.0, 0.0),
        dvec2(0.0, -1.0),
        dvec2(1.0, 1.0),
        dvec2(-1.0, 1.0),
        dvec2(1.0, -1.0),
        dvec2(-1.0, -1.0),
    ]
    .into();
    places.sort_by(|a, b| b.normalize().dot(away).total_cmp(&a.normalize().dot(away)));
    let area_at = |place: DVec2| {
        let middle = port.at + place * (dvec2(gap, gap) + size / 2.0);
        Area { min: middle - size / 2.0, max: middle + size / 2.0 }
    };
    let cost = |area: &Area| {
        let covered = labels.iter().filter(|l| l.area.grown(APART_POINTS).meets(*area)).count()
            * COVERS
            + rings.iter().filter(|r| r.meets(*area)).count() * COVERS;
        let hoses = [0.1, 0.3, 0.5, 0.7, 0.9]
            .iter()
            .filter(|t| {
                let at = dvec2(area.min.x + **t * size.x, area.centre().y);
                layout.hose_at(at).is_some()
            })
            .count();
        let outside = !(view.contains(area.min) && view.contains(area.max));
        covered + hoses + 2 * COVERS * usize::from(outside)
    };
    let areas = places.into_iter().map(area_at).map(|area| (area, cost(&area)));
    areas.min_by_key(|(_, cost)| *cost).unwrap_or_else(|| (area_at(DVec2::Y), usize::MAX))
}

fn solid_names<'a>(
    scene: &Scene,
    layout: &'a ViewLayout,
) -> impl Iterator<Item = (String, Nature, &'a Outline)> {
    let nearest = |k: &usize| {
        let (lo, hi) = scene.solids[*k].shape.bounds();
        layout.view.depth(lo).max(layout.view.depth(hi))
    };
    let mut order: Vec<usize> = (0..scene.solids.len()).collect();
    order.sort_by(|a, b| nearest(a).total_cmp(&nearest(b)));
    let names: Vec<String> = order.into_iter().map(|k| scene.solids[k].label.clone()).collect();
    let shapes = layout.solids.iter();
    names.into_iter().zip(shapes).map(|(name, solid)| (name, solid.nature, &solid.outline))
}

/// Inside the solid at its lower left, or else at one of its other corners; nowhere where it would
/// cover another name.
fn inside(
    outline: &Outline,
    size: DVec2,
    view: Area,
    beside: bool,
    labels: &[Label],
    rings: &[Area],
) -> Option<Area> {
    let (min, max) = extent(outline)?;
    let (min, max) = (min.max(view.min), max.min(view.max));
    let pad = dvec2(7.0, 5.0);
    let (lo, hi) = (min + pad, max - pad - size);
    // A solid smaller than its name carries it across its middle.
    let places = if hi.cmpge(lo).all() {
        vec![dvec2(lo.x, hi.y), dvec2(lo.x, lo.y), dvec2(hi.x, hi.y), dvec2(hi.x, lo.y)]
    } else if !beside {
        return None;
    } else {
        let middle = (min + max - size) / 2.0;
        vec![middle, dvec2(middle.x, max.y + 2.0), dvec2(middle.x, min.y - size.y - 2.0)]
    };
    let areas = places.into_iter().map(|min| Area { min, max: min + size });
    let mut free = areas.filter(|area| {
        view.contains(area.min)
            && view.contains(area.max)
            && !labels.iter().any(|l| l.area.grown(APART_POINTS).meets(*area))
            && !rings.iter().any(|r| r.meets(*area))
    });
    free.next()
}

fn extent(outline: &Outline) -> Option<(DVec2, DVec2)> {
    let mut points: Box<dyn Iterator<Item = DVec2>> = match outline {
        Outline::Convex(points) => Box::new(points.iter().copied()),
        Outline::Triangles { triangles, .. } => Box::new(triangles.iter().flatten().copied()),
    };
    let first = points.next()?;
    Some(points.fold((first, first), |(lo, hi), p| (lo.min(p), hi.max(p))))
}
