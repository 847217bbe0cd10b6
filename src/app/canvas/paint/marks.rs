//! Ports, clamps, handles, findings and what they say.

use eframe::egui::{
    CornerRadius, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, pos2, vec2,
};
use glam::DVec2;

use super::super::layout::{Marker, PortShape, ViewLayout};
use super::super::scene::{FindingMark, Scene};
use super::super::thing::Thing;
use super::{Emphasis, at, rect};
use crate::app::theme::icons::{self, State};
use crate::app::theme::{self, Palette, size};
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

/// What a finding says, in a box beside its place, kept inside the view.
pub(in super::super) fn call_out(
    painter: &Painter,
    layout: &ViewLayout,
    marker: &Marker,
    finding: &FindingMark,
    colours: &Palette,
) {
    const WIDTH: f32 = 250.0;
    let pad = vec2(10.0, 7.0);
    let colour = State::from(finding.severity).colour(colours);
    let said = painter.layout(finding.said.clone(), theme::font(size::BODY), colour, WIDTH);
    let limit =
        painter.layout(finding.limit.clone(), theme::font(size::SMALL), colours.soft, WIDTH);
    let below = if finding.limit.is_empty() { 0.0 } else { limit.size().y + 1.0 };
    let text = vec2(said.size().x.max(limit.size().x), said.size().y + below);
    let frame =
        place_beside(at(marker.at), text + 2.0 * pad, rect(layout.area).shrink(8.0), layout);
    let near = frame.clamp(at(marker.at));
    painter.line_segment([at(marker.at), near], Stroke::new(1.25, colour));
    icons::paint(painter, at(marker.at), 6.5, State::from(finding.severity), colours);
    painter.rect(
        frame,
        CornerRadius::same(4),
        colours.sheet,
        Stroke::new(1.25, colour),
        StrokeKind::Middle,
    );
    let place = frame.min + pad;
    let below = place + vec2(0.0, said.size().y + 1.0);
    painter.galley(place, said, colour);
    painter.galley(below, limit, colours.soft);
}

/// Of the places about a point, the one inside the view that covers the fewest hoses.
fn place_beside(point: Pos2, size: Vec2, view: Rect, layout: &ViewLayout) -> Rect {
    let gap = 26.0;
    let places = [
        pos2(point.x - size.x / 2.0, point.y + gap),
        pos2(point.x - size.x / 2.0, point.y - gap - size.y),
        pos2(point.x + gap, point.y - size.y / 2.0),
        pos2(point.x - gap - size.x, point.y - size.y / 2.0),
        pos2(point.x + gap, point.y + gap),
        pos2(point.x - gap - size.x, point.y + gap),
        pos2(point.x + gap, point.y - gap - size.y),
        pos2(point.x - gap - size.x, point.y - gap - size.y),
    ];
    let covered = |frame: &Rect| {
        let mut count = 0;
        for i in 0..=6_u8 {
            for j in 0..=2_u8 {
                let share = vec2(f32::from(i) / 6.0, f32::from(j) / 2.0);
                let p = frame.min + share * frame.size();
                let p = DVec2::new(f64::from(p.x), f64::from(p.y));
                count += u32::from(layout.hose_at(p).is_some());
            }
        }
        let hides = layout.ports.iter().filter(|port| frame.contains(at(port.at))).count() as u32
            + layout.labels.iter().filter(|l| frame.intersects(rect(l.area))).count() as u32;
        count + 3 * hides + 40 * u32::from(frame.contains(point))
    };
    let frames = places.map(|place| {
        let x = place.x.min(view.max.x - size.x).max(view.min.x);
        let y = place.y.min(view.max.y - size.y).max(view.min.y);
        Rect::from_min_size(pos2(x, y), size)
    });
    frames.into_iter().min_by_key(covered).unwrap_or(Rect::from_min_size(point, size))
}
