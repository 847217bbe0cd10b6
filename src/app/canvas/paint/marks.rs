//! Ports, clamps, handles, findings and what they say.

use eframe::egui::{Painter, Shape, Stroke, vec2};
use glam::DVec2;

use super::super::layout::{PortShape, ViewLayout};
use super::super::scene::Scene;
use super::super::thing::Thing;
use super::{Emphasis, at};
use crate::app::theme::Palette;
use crate::app::theme::icons::{self, State};
use crate::checks::Severity;

pub(super) fn ports(
    painter: &Painter,
    scene: &Scene,
    layout: &ViewLayout,
    emphasis: Emphasis<'_>,
    colours: &Palette,
) {
    for port in &layout.ports {
        let lit =
            matches!(emphasis.thing, Some(Thing::Port(id)) if *id == scene.ports[port.index].id);
        let ink = if lit { colours.accent } else { colours.ink };
        paint_port(painter, port, Stroke::new(if lit { 2.25 } else { 1.75 }, ink), colours);
    }
}

fn paint_port(painter: &Painter, port: &PortShape, stroke: Stroke, colours: &Palette) {
    let (middle, radius) = (at(port.at), port.radius as f32);
    let tick = port.toward * (port.radius + 9.0);
    if port.toward.length() > 0.5 {
        painter.line_segment([middle, at(port.at + tick)], stroke);
    }
    painter.circle(middle, radius, colours.sheet, stroke);
    // An arrow seen from its point is a dot, from its feathers a cross.
    match port.faces_viewer {
        Some(true) => {
            painter.circle_filled(middle, radius * 0.3, stroke.color);
        }
        Some(false) => {
            let d = radius * 0.62;
            for d in [vec2(d, d), vec2(d, -d)] {
                painter.line_segment([middle - d, middle + d], stroke);
            }
        }
        None => {}
    }
}

pub(super) fn clamps(
    painter: &Painter,
    layout: &ViewLayout,
    emphasis: Emphasis<'_>,
    colours: &Palette,
) {
    for via in &layout.vias {
        let Some([across, along]) = via.clamp else { continue };
        let lit = emphasis.thing == Some(&via.thing);
        let (fill, edge) =
            if lit { (colours.accent, colours.accent) } else { (colours.sheet, colours.ink) };
        let corners = [across + along, across - along, -across - along, -across + along];
        let path = corners.iter().map(|corner| at(via.at + *corner)).collect();
        painter.add(Shape::convex_polygon(path, fill, Stroke::new(1.5, edge)));
    }
}

/// Corners of the chosen hose, and a ring about its clamps.
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
        let (radius, width) = if lit { (6.5, 2.5) } else { (5.0, 1.75) };
        let stroke = Stroke::new(width, colours.accent);
        if via.clamp.is_some() {
            painter.circle_stroke(at(via.at), radius + 1.0, stroke);
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

pub(super) fn findings(
    painter: &Painter,
    layout: &ViewLayout,
    emphasis: Emphasis<'_>,
    colours: &Palette,
) {
    // Worst on top.
    for marker in layout.markers.iter().rev() {
        if marker.severity == Severity::Note && emphasis.finding != Some(marker.finding) {
            continue;
        }
        let lit = emphasis.finding == Some(marker.finding);
        let radius = if lit { 6.5 } else { 5.0 };
        painter.circle_filled(at(marker.at), radius + 3.5, colours.sheet);
        icons::paint(painter, at(marker.at), radius, State::from(marker.severity), colours);
    }
}
