//! How it looks. The only place of the canvas that knows colours and pixels.

mod call_out;
mod chosen;
mod guides;
mod hoses;
mod marks;
mod solids;
mod tie;
mod under_way;
mod underlay;

pub(super) use call_out::CallOut;
pub(super) use chosen::chosen;
pub(super) use guides::guides;
pub(super) use tie::{cross, tie};
pub(super) use under_way::under_way;
pub(super) use underlay::picked;

use eframe::egui::{
    Align2, Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, pos2, vec2,
};
use glam::DVec2;

use super::Under;
use super::camera::Area;
use super::layout::ViewLayout;
use super::scene::Scene;
use super::thing::Thing;
use crate::app::theme::{self, Palette, size};

/// What stands out just now.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Emphasis<'a> {
    /// The hose whose card is shown.
    pub(super) run: Option<&'a str>,
    /// What is under the pointer, or taken hold of.
    pub(super) thing: Option<&'a Thing>,
    /// The finding that is looked at.
    pub(super) finding: Option<usize>,
}

/// To a place of the painter.
pub(super) fn at(p: DVec2) -> Pos2 {
    pos2(p.x as f32, p.y as f32)
}

/// To a rectangle of the painter.
pub(super) fn rect(area: Area) -> Rect {
    Rect::from_min_max(at(area.min), at(area.max))
}

/// From a rectangle of the painter.
pub(super) fn area(rect: Rect) -> Area {
    Area {
        min: DVec2::new(f64::from(rect.min.x), f64::from(rect.min.y)),
        max: DVec2::new(f64::from(rect.max.x), f64::from(rect.max.y)),
    }
}

/// Paints one view; `painter` is clipped to it.
pub(super) fn view(
    painter: &Painter,
    scene: &Scene,
    layout: &ViewLayout,
    under: &Under<'_>,
    emphasis: Emphasis<'_>,
    call_out: Option<&CallOut>,
    colours: &Palette,
) {
    let frame = rect(layout.area);
    painter.rect_filled(frame, 4.0, colours.sheet);
    grid(painter, layout, colours);
    underlay::underlays(painter, layout, &scene.underlays, under, colours);
    solids::keep_off(painter, layout, colours);
    solids::bodies(painter, layout, colours);
    hoses::hoses(painter, scene, layout, emphasis, colours);
    marks::clamps(painter, layout, emphasis, colours);
    marks::ports(painter, scene, layout, emphasis, colours);
    marks::handles(painter, layout, emphasis, colours);
    labels(painter, layout, call_out, colours);
    marks::findings(painter, layout, emphasis, colours);
    title(painter, layout, colours);
    scale_bar(painter, layout, colours);
    painter.rect_stroke(frame, 4.0, Stroke::new(1.0, colours.hairline), StrokeKind::Inside);
}

fn grid(painter: &Painter, layout: &ViewLayout, colours: &Palette) {
    let frame = rect(layout.area);
    let stroke =
        |strong: bool| Stroke::new(1.0, if strong { colours.grid_major } else { colours.grid });
    for strong in [false, true] {
        for (x, _) in layout.grid.upright.iter().filter(|line| line.1 == strong) {
            painter.vline(*x as f32, frame.y_range(), stroke(strong));
        }
        for (y, _) in layout.grid.level.iter().filter(|line| line.1 == strong) {
            painter.hline(frame.x_range(), *y as f32, stroke(strong));
        }
    }
}

fn labels(painter: &Painter, layout: &ViewLayout, call_out: Option<&CallOut>, colours: &Palette) {
    for label in &layout.labels {
        // Half a name is worse than none.
        if call_out.is_some_and(|call_out| call_out.frame.intersects(rect(label.area))) {
            continue;
        }
        if let Some(ends) = label.leader {
            painter.line_segment(ends.map(at), Stroke::new(3.5, colours.sheet));
            painter.line_segment(ends.map(at), Stroke::new(1.25, colours.ink));
        }
        let colour = if label.quiet { colours.soft } else { colours.ink };
        if label.on_paper {
            let behind = rect(label.area.grown(1.0));
            painter.rect_filled(behind, 3.0, colours.sheet.gamma_multiply(0.7));
        }
        painter.text(
            at(label.area.min),
            Align2::LEFT_TOP,
            &label.text,
            theme::font(size::SMALL),
            colour,
        );
    }
}

fn title(painter: &Painter, layout: &ViewLayout, colours: &Palette) {
    let place = at(layout.area.min) + vec2(12.0, 10.0);
    let [right, up] = layout.view.axes().map(|axis| ["X", "Y", "Z"][axis]);
    let text = format!("{}   {right} \u{2192}  {up} \u{2191}", layout.view.name());
    on_paper(painter, place, Align2::LEFT_TOP, &text, colours.soft, colours);
}

fn scale_bar(painter: &Painter, layout: &ViewLayout, colours: &Palette) {
    let end = at(DVec2::new(layout.area.min.x + 14.0, layout.area.max.y - 12.0));
    let width = layout.scale_bar.points as f32;
    let stroke = Stroke::new(1.5, colours.ink);
    painter.line_segment([end, end + vec2(width, 0.0)], stroke);
    for x in [0.0, width] {
        painter.line_segment([end + vec2(x, -4.0), end + vec2(x, 0.75)], stroke);
    }
    let place = end + vec2(width / 2.0, -3.0);
    on_paper(painter, place, Align2::CENTER_BOTTOM, &layout.scale_bar.label, colours.ink, colours);
}

/// Text with the sheet behind it, for where lines may run. Tells where it is.
fn on_paper(
    painter: &Painter,
    place: Pos2,
    align: Align2,
    text: &str,
    colour: Color32,
    colours: &Palette,
) -> Rect {
    let font: FontId = theme::font(size::SMALL);
    let galley = painter.layout_no_wrap(text.to_owned(), font, colour);
    let frame = align.anchor_size(place, galley.size());
    painter.rect_filled(frame.expand2(vec2(4.0, 1.0)), 3.0, colours.sheet.gamma_multiply(0.85));
    painter.galley(frame.min, galley, colour);
    frame
}

/// A dashed closed border.
fn dashed(points: &[DVec2], stroke: Stroke, on: f32, off: f32) -> Vec<Shape> {
    let mut path: Vec<Pos2> = points.iter().map(|p| at(*p)).collect();
    path.extend(path.first().copied());
    Shape::dashed_line(&path, stroke, on, off)
}
