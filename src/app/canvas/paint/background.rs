//! Photos and outlines under everything else, and the points being picked on them.

use eframe::egui::{Align2, Color32, Mesh, Painter, Rect, Shape, Stroke, vec2};
use glam::DVec2;

use super::super::layout::background::edge;
use super::super::layout::{ViewLayout, net};
use super::super::scene::BackgroundMark;
use super::super::{Looking, Under};
use super::{at, dashed, on_paper};
use crate::app::background::picking::Picking;
use crate::app::background::store::{Content, Picture};
use crate::app::canvas::camera::View;
use crate::app::theme::Palette;
use crate::app::theme::icons::{self, State};
use crate::document::file::{OutlineDrawing, resolve};

/// Everything that lies under this view.
pub(super) fn backgrounds(
    painter: &Painter,
    layout: &ViewLayout,
    marks: &[BackgroundMark],
    under: &Under<'_>,
    colours: &Palette,
) {
    for mark in marks.iter().filter(|mark| View::of(mark.plane) == layout.view) {
        let path = resolve(under.folder, &mark.file);
        match under.store.get(&path, mark.kind) {
            Some(Content::Photo(picture)) => photo(painter, layout, mark, picture),
            Some(Content::Outline(drawing)) => outline(painter, layout, mark, drawing, colours),
            Some(Content::Missing(_)) => {
                let what = if mark.size_px.is_some() { "Photo" } else { "Outline" };
                let said = format!("{what} missing: {}", mark.file);
                let place = stand_in(painter, layout, mark, &said, colours.warn, colours);
                let icon = place.left_center() - vec2(12.0, 0.0);
                icons::paint(painter, icon, 4.5, State::Warn, colours);
            }
            Some(Content::Loading | Content::Mesh(_)) | None => {
                let said = format!("Reading {}\u{2026}", mark.title);
                stand_in(painter, layout, mark, &said, colours.soft, colours);
            }
        }
        if under.selected == Some(&*mark.id)
            && let Some(corners) = corners(layout, mark)
        {
            painter.extend(dashed(&corners, Stroke::new(1.0, colours.accent), 4.0, 4.0));
        }
    }
}

fn corners(layout: &ViewLayout, mark: &BackgroundMark) -> Option<[DVec2; 4]> {
    let corners = edge(&mark.map, mark.size_px?)?;
    Some(corners.map(|p| layout.camera.to_screen(layout.area, p)))
}

fn photo(painter: &Painter, layout: &ViewLayout, mark: &BackgroundMark, picture: &Picture) {
    let Some(size_px) = mark.size_px else { return };
    let net = net(&mark.map, size_px);
    let own = f64::from(picture.size_px[0]) / size_px.x;
    let wide = mark.mm_per_pixel / own * layout.camera.points_per_mm;
    let pixels = wide * f64::from(painter.ctx().pixels_per_point());
    let Some(texture) = picture.level(pixels) else { return };
    let mut mesh = Mesh::with_texture(texture.id());
    let tint = Color32::WHITE.gamma_multiply(mark.opacity as f32);
    for (share, place) in &net.knots {
        let pos = at(layout.camera.to_screen(layout.area, *place));
        mesh.vertices.push(eframe::egui::epaint::Vertex { pos, uv: at(*share), color: tint });
    }
    mesh.indices.extend(net.triangles.iter().flatten());
    painter.add(Shape::mesh(mesh));
}

fn outline(
    painter: &Painter,
    layout: &ViewLayout,
    mark: &BackgroundMark,
    drawing: &OutlineDrawing,
    colours: &Palette,
) {
    /// Points nearer than this to the one before are not to be told apart, screen points.
    const STEP: f64 = 0.6;
    let stroke = Stroke::new(1.0, colours.ink.gamma_multiply(mark.opacity as f32));
    let view = layout.area.grown(4.0);
    for line in &drawing.lines {
        let mut path: Vec<DVec2> = Vec::with_capacity(line.len());
        let (mut lo, mut hi) = (DVec2::INFINITY, DVec2::NEG_INFINITY);
        for (i, point) in line.iter().enumerate() {
            let Some(place) = mark.map.apply(*point) else { continue };
            let p = layout.camera.to_screen(layout.area, place);
            (lo, hi) = (lo.min(p), hi.max(p));
            let last = i + 1 == line.len();
            if last || path.last().is_none_or(|before| before.distance(p) > STEP) {
                path.push(p);
            }
        }
        if lo.cmple(view.max).all() && hi.cmpge(view.min).all() {
            painter.add(Shape::line(path.into_iter().map(at).collect(), stroke));
        }
    }
}

/// Where something would be, with the words that say why it is not.
fn stand_in(
    painter: &Painter,
    layout: &ViewLayout,
    mark: &BackgroundMark,
    said: &str,
    colour: Color32,
    colours: &Palette,
) -> Rect {
    let place = if let Some(corners) = corners(layout, mark) {
        painter.extend(dashed(&corners, Stroke::new(1.0, colours.soft), 6.0, 5.0));
        corners.iter().sum::<DVec2>() / 4.0
    } else {
        let origin = mark.map.apply(DVec2::ZERO).unwrap_or_default();
        layout.camera.to_screen(layout.area, origin)
    };
    // In sight, where part of it is.
    let inside = layout.area.grown(-40.0);
    let place = place.clamp(inside.min.min(inside.max), inside.max.max(inside.min));
    on_paper(painter, at(place), Align2::CENTER_CENTER, said, colour, colours)
}

/// The points picked so far, with the line on to the pointer.
pub(in super::super) fn picked(
    painter: &Painter,
    layout: &ViewLayout,
    looking: &Looking<'_>,
    colours: &Palette,
) {
    let Some(picking) = looking.under.picking.filter(|p| View::of(p.plane) == layout.view) else {
        return;
    };
    let points: Vec<DVec2> =
        picking.points.iter().map(|p| layout.camera.to_screen(layout.area, *p)).collect();
    let stroke = Stroke::new(1.5, colours.accent);
    let pointer = painter.ctx().input(|i| i.pointer.hover_pos());
    let mut path: Vec<_> = points.iter().map(|p| at(*p)).collect();
    path.extend(pointer.filter(|_| !points.is_empty()));
    if closes(picking) {
        path.extend(points.first().map(|p| at(*p)));
    }
    painter.extend(Shape::dashed_line(&path, stroke, 5.0, 4.0));
    for (number, point) in points.iter().enumerate() {
        let p = at(*point);
        painter.circle(p, 4.0, colours.sheet.gamma_multiply(0.5), stroke);
        painter.circle_filled(p, 1.2, colours.accent);
        let place = p + vec2(8.0, -8.0);
        let text = (number + 1).to_string();
        on_paper(painter, place, Align2::LEFT_BOTTOM, &text, colours.accent_text, colours);
    }
}

fn closes(picking: &Picking) -> bool {
    picking.points.len() + 1 == picking.task.needs() && picking.task.needs() == 4
}
