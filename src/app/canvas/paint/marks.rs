//! Ports, clamps, handles, findings and what they say.

use eframe::egui::epaint::Vertex;
use eframe::egui::{Mesh, Painter, Rect, Shape, Stroke, vec2};
use glam::DVec2;

use super::super::layout::{Behind, MARKER_RADIUS, Marker, PortShape, ViewLayout};
use super::hoses::{BESIDE, faintness};
use super::ribbon::{Profile, dot, polygon};
use super::{Emphasis, at};
use crate::app::theme::icons::{self, State};
use crate::app::theme::{self, Palette, size};
use crate::checks::Severity;

/// Paints the ports; `lit` is the place among them of the one that stands out, `steps` how faint each is.
pub(super) fn ports(
    layout: &ViewLayout,
    lit: Option<usize>,
    steps: &[u8],
    colours: &Palette,
    pixel: f64,
) -> Vec<Shape> {
    let mut shapes = Vec::new();
    // What is strong over what is faint, and what is lit over all.
    let mut order: Vec<(&PortShape, u8)> = layout.ports.iter().zip(steps.iter().copied()).collect();
    order.sort_by_key(|(port, step)| (lit == Some(port.index), std::cmp::Reverse(*step)));
    for (port, step) in order {
        let is_lit = lit == Some(port.index);
        let back = colours.ink.lerp_to_gamma(colours.sheet, faintness(step));
        let ink = if is_lit { colours.accent } else { back };
        let stroke = Stroke::new(if is_lit { 2.0 } else { 1.5 }, ink);
        port_shapes(&mut shapes, port, stroke, colours, pixel);
    }
    shapes
}

/// A ring smaller than this, points, is painted with fewer corners: there may be hundreds.
const SMALL: f64 = 9.0;

fn port_shapes(
    shapes: &mut Vec<Shape>,
    port: &PortShape,
    stroke: Stroke,
    colours: &Palette,
    pixel: f64,
) {
    let (middle, radius) = (at(port.at), port.radius as f32);
    let tick = port.toward * (port.radius + 6.0);
    if port.toward.length() > 0.5 {
        shapes.push(Shape::line_segment([middle, at(port.at + tick)], stroke));
    }
    if port.radius < SMALL {
        let half = f64::from(stroke.width) / 2.0;
        let layers = [(port.radius - half, colours.sheet), (port.radius + half, stroke.color)];
        let mut mesh = Mesh::default();
        dot(&mut mesh, port.at, &Profile::layered(&layers, pixel));
        shapes.push(Shape::mesh(mesh));
    } else {
        shapes.push(Shape::circle_filled(middle, radius, colours.sheet));
        shapes.push(Shape::circle_stroke(middle, radius, stroke));
    }
    // An arrow seen from its point is a dot, from its feathers a cross.
    match port.faces_viewer {
        Some(true) => shapes.push(Shape::circle_filled(middle, radius * 0.3, stroke.color)),
        Some(false) => {
            let d = radius * 0.62;
            for d in [vec2(d, d), vec2(d, -d)] {
                shapes.push(Shape::line_segment([middle - d, middle + d], stroke));
            }
        }
        None => {}
    }
}

pub(super) fn clamps(
    painter: &Painter,
    layout: &ViewLayout,
    emphasis: Emphasis<'_>,
    behind: Behind,
    colours: &Palette,
) {
    let pixel = f64::from(painter.pixels_per_point()).recip();
    let mut mesh = Mesh::default();
    for via in &layout.vias {
        let Some([across, along]) = via.clamp else { continue };
        let lit = emphasis.thing == Some(&via.thing);
        let step = match emphasis.run {
            Some(run) if via.thing.run() == Some(run) => 0,
            Some(_) => behind.step(via.depth).max(BESIDE),
            None => behind.step(via.depth),
        };
        let ink = colours.ink.lerp_to_gamma(colours.sheet, faintness(step));
        let (fill, edge) =
            if lit { (colours.accent, colours.accent) } else { (colours.sheet, ink) };
        for (by, colour) in [(CLAMP_EDGE / 2.0, edge), (-CLAMP_EDGE / 2.0, fill)] {
            let [across, along] = [across, along].map(|half| half + by * half.normalize_or_zero());
            let corners = [across + along, across - along, -across - along, -across + along];
            polygon(&mut mesh, &corners.map(|corner| via.at + corner), colour, pixel);
        }
    }
    painter.add(Shape::mesh(mesh));
}

/// Width of the line round a clamp's bar, points.
const CLAMP_EDGE: f64 = 1.5;

/// Corners of the selected hose, and a ring about its clamps.
pub(super) fn handles(
    painter: &Painter,
    layout: &ViewLayout,
    emphasis: Emphasis<'_>,
    colours: &Palette,
) {
    for via in &layout.vias {
        if via.thing.run() != emphasis.run || emphasis.run.is_none() {
            continue;
        }
        let lit = emphasis.thing == Some(&via.thing);
        let (radius, width) = if lit { (5.0, 2.25) } else { (4.0, 1.5) };
        let stroke = Stroke::new(width, colours.accent);
        if via.clamp.is_some() {
            painter.circle_stroke(at(via.at), radius + 2.0, stroke);
        } else {
            diamond(painter, via.at, radius, stroke, colours);
        }
    }
}

fn diamond(painter: &Painter, middle: DVec2, radius: f32, stroke: Stroke, colours: &Palette) {
    let middle = at(middle);
    let path = [vec2(0.0, -1.2), vec2(1.2, 0.0), vec2(0.0, 1.2), vec2(-1.2, 0.0)];
    let path = path.into_iter().map(|d| middle + radius * d).collect();
    painter.add(Shape::convex_polygon(path, colours.sheet, stroke));
}

/// Half the size of a finding's mark, points, and how far the paper goes about it.
const RADIUS: f64 = 4.0;
const HALO: f64 = MARKER_RADIUS;

pub(super) fn findings(
    painter: &Painter,
    layout: &ViewLayout,
    emphasis: Emphasis<'_>,
    colours: &Palette,
) {
    let pixel = f64::from(painter.pixels_per_point()).recip();
    let stamps = [Severity::Fail, Severity::Warn, Severity::Note]
        .map(|severity| (severity, stamp(severity, colours, pixel)));
    // There may be hundreds: one mesh, painted cheaply.
    let mut mesh = Mesh::default();
    mesh.reserve_vertices(layout.markers.len() * stamps[0].1.vertices.len());
    mesh.indices.reserve(layout.markers.len() * stamps[0].1.indices.len());
    // Worst on top.
    let shown = || layout.markers.iter().rev().filter(|m| m.is_shown(emphasis.finding));
    for marker in shown().filter(|marker| marker.place != marker.at) {
        let colour = State::from(marker.severity).colour(colours);
        painter.line_segment([at(marker.place), at(marker.at)], Stroke::new(1.0, colour));
    }
    for marker in shown() {
        let lit = emphasis.finding == Some(marker.finding);
        let state = State::from(marker.severity);
        if lit {
            painter.add(Shape::mesh(std::mem::take(&mut mesh)));
            painter.circle_filled(at(marker.at), HALO as f32 + 1.5, colours.sheet);
            icons::paint(painter, at(marker.at), RADIUS as f32 + 1.0, state, colours);
            continue;
        }
        let stamp = &stamps.iter().find(|(of, _)| *of == marker.severity).unwrap_or(&stamps[0]).1;
        print(&mut mesh, stamp, marker.at);
    }
    painter.add(Shape::mesh(mesh));
    for marker in shown().filter(|marker| marker.beside > 0 && !marker.is_hidden) {
        count(painter, marker, colours);
    }
}

/// How many findings a mark stands for.
fn count(painter: &Painter, marker: &Marker, colours: &Palette) {
    let text = format!("{}", marker.beside + 1);
    let colour = State::from(marker.severity).colour(colours);
    let galley = painter.layout_no_wrap(text, theme::font(size::SMALL), colour);
    let place = at(marker.at) + vec2(COUNT_FROM, -galley.size().y / 2.0);
    let behind = Rect::from_min_size(place, galley.size()).expand2(vec2(1.0, -2.0));
    painter.rect_filled(behind, 3.0, colours.sheet.gamma_multiply(0.85));
    painter.galley(place, galley, colour);
}

/// From the middle of a mark to the figure beside it, points.
const COUNT_FROM: f32 = 6.0;

/// The mark of a severity about the origin.
fn stamp(severity: Severity, colours: &Palette, pixel: f64) -> Mesh {
    let mut mesh = Mesh::default();
    dot(&mut mesh, DVec2::ZERO, &Profile::plain(HALO, colours.sheet, pixel));
    let state = State::from(severity);
    if let Some(corners) = icons::corners(state, RADIUS) {
        let corners: Vec<DVec2> = corners.into_iter().map(DVec2::from).collect();
        polygon(&mut mesh, &corners, state.colour(colours), pixel);
    }
    mesh
}

/// Paints a stamp at a place.
fn print(mesh: &mut Mesh, stamp: &Mesh, place: DVec2) {
    let (first, by) = (mesh.vertices.len() as u32, at(place).to_vec2());
    mesh.indices.extend(stamp.indices.iter().map(|index| first + index));
    let moved = |vertex: &Vertex| Vertex { pos: vertex.pos + by, ..*vertex };
    mesh.vertices.extend(stamp.vertices.iter().map(moved));
}
