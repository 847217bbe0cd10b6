//! Thin projection lines that tie a place in one view to the same place in the others.

use std::sync::Arc;

use eframe::egui::{Painter, Shape, Stroke, vec2};
use glam::{DVec2, DVec3};

use super::super::camera::View;
use super::super::layout::ViewLayout;
use super::{at, rect};
use crate::app::theme::Palette;

/// Where a place of the bay is in a view.
fn place(layout: &ViewLayout, point: DVec3) -> DVec2 {
    layout.camera.to_screen(layout.area, layout.view.project(point))
}

/// A small cross at the place in one view; `painter` is clipped to it.
pub(in super::super) fn cross(
    painter: &Painter,
    layout: &ViewLayout,
    point: DVec3,
    colours: &Palette,
) {
    let middle = at(place(layout, point));
    let stroke = Stroke::new(1.5, colours.accent);
    painter.line_segment([middle - vec2(7.0, 0.0), middle + vec2(7.0, 0.0)], stroke);
    painter.line_segment([middle - vec2(0.0, 7.0), middle + vec2(0.0, 7.0)], stroke);
}

/// Dotted lines from plan down to side and from side across to front, where the views are in line.
pub(in super::super) fn tie(
    painter: &Painter,
    layouts: &[Arc<ViewLayout>],
    point: DVec3,
    colours: &Palette,
) {
    let find = |view: View| layouts.iter().find(|layout| layout.view == view);
    for (a, b) in [(View::Plan, View::Side), (View::Side, View::Front)] {
        let (Some(a), Some(b)) = (find(a), find(b)) else { continue };
        let (from, to) = (place(a, point), place(b, point));
        let both = rect(a.area).union(rect(b.area));
        if both.contains(at(from)) && both.contains(at(to)) {
            let stroke = Stroke::new(1.0, colours.accent);
            painter.extend(Shape::dashed_line(&[at(from), at(to)], stroke, 2.0, 3.0));
        }
    }
}
