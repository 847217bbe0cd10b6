//! Why a thing stands where it is put: thin lines to what it is in line with, and a word beside it.

use eframe::egui::{Align2, Painter, Pos2, Rect, Stroke, StrokeKind, Vec2, vec2};
use glam::DVec3;

use super::super::layout::ViewLayout;
use super::super::snap::{Cause, Kind, Snapped};
use super::{at, rect};
use crate::app::theme::{self, Palette, size};

/// A circle round what was snapped to.
const RING: f32 = 5.0;
/// Between the thing and the word.
const GAP: f32 = 16.0;

/// Paints the causes in the view in which the thing is moved; `painter` is clipped to it. The word
/// stands clear of the thing, of `taken` (what rides with the pointer) and of the guide lines.
pub(in super::super) fn guides(
    painter: &Painter,
    layout: &ViewLayout,
    snapped: &Snapped,
    taken: &[Rect],
    colours: &Palette,
) {
    if snapped.causes.is_empty() {
        return;
    }
    let place = |p: DVec3| at(layout.camera.to_screen(layout.area, layout.view.project(p)));
    let mut lines = Vec::new();
    for cause in &snapped.causes {
        let ends = cause.guides.iter().map(|ends| ends.map(place));
        lines.extend(ends.clone());
        for line in ends {
            painter.line_segment(line, Stroke::new(1.0, colours.accent));
        }
        if let Some(target) = ringed(cause) {
            painter.circle_stroke(place(target), RING, Stroke::new(1.5, colours.accent));
        }
    }
    word(painter, layout, (place(snapped.place), &lines), &snapped.words(), taken, colours);
}

/// Where the guide begins, but for the grid: there is nothing.
fn ringed(cause: &Cause) -> Option<DVec3> {
    match cause.kind {
        Kind::Grid | Kind::CutLength => None,
        // The second line of a right angle is the stretch itself.
        _ => cause.guides.last().map(|ends| ends[0]),
    }
}

fn word(
    painter: &Painter,
    layout: &ViewLayout,
    (thing, lines): (Pos2, &[[Pos2; 2]]),
    text: &str,
    taken: &[Rect],
    colours: &Palette,
) {
    let font = theme::font(size::SMALL);
    let galley = painter.layout_no_wrap(text.to_owned(), font, colours.accent_text);
    let size = galley.size() + vec2(10.0, 4.0);
    let frame = beside(thing, size, rect(layout.area).shrink(6.0), lines, taken);
    painter.rect_filled(frame, 3.0, colours.sheet.gamma_multiply(0.92));
    painter.rect_stroke(frame, 3.0, Stroke::new(1.0, colours.accent_faint), StrokeKind::Inside);
    painter.galley(
        Align2::CENTER_CENTER.anchor_size(frame.center(), galley.size()).min,
        galley,
        colours.accent_text,
    );
}

/// Above the thing, since figures ride below the pointer; else where it covers least.
fn beside(thing: Pos2, size: Vec2, view: Rect, lines: &[[Pos2; 2]], taken: &[Rect]) -> Rect {
    const SIDES: [Vec2; 8] = [
        vec2(1.0, -1.0),
        vec2(-1.0, -1.0),
        vec2(0.0, -1.0),
        vec2(-1.0, 1.0),
        vec2(1.0, 1.0),
        vec2(0.0, 1.0),
        vec2(-1.0, 0.0),
        vec2(1.0, 0.0),
    ];
    let frames = [1.0, 2.5, 5.0].into_iter().flat_map(|far| {
        SIDES.map(|side| {
            let middle = thing + side * (size / 2.0 + Vec2::splat(GAP) * far);
            Rect::from_center_size(middle, size)
        })
    });
    let cost = |frame: &Rect| {
        let about = Rect::from_center_size(thing, Vec2::splat(2.0 * GAP - 4.0));
        let covered = taken.iter().filter(|other| other.intersects(*frame)).count();
        let crossed = lines.iter().filter(|line| crosses(line, frame)).count();
        let out = !view.contains_rect(*frame);
        100 * usize::from(out) + 50 * usize::from(frame.intersects(about)) + 10 * covered + crossed
    };
    frames.min_by_key(cost).unwrap_or(Rect::from_center_size(thing, size))
}

/// Whether a line runs through a frame: looked at in steps no longer than the frame is high.
fn crosses(line: &[Pos2; 2], frame: &Rect) -> bool {
    let steps = (line[0].distance(line[1]) / frame.height()).ceil().clamp(1.0, 400.0) as u16;
    (0..=steps).any(|k| frame.contains(line[0].lerp(line[1], f32::from(k) / f32::from(steps))))
}

#[cfg(test)]
mod tests {
    use eframe::egui::pos2;

    use super::*;

    #[test]
    fn the_word_stands_clear_of_thing_lines_and_figures() {
        let view = Rect::from_min_max(pos2(0.0, 0.0), pos2(600.0, 400.0));
        let size = vec2(150.0, 18.0);
        for thing in [pos2(300.0, 200.0), pos2(5.0, 5.0), pos2(595.0, 395.0), pos2(300.0, 2.0)] {
            let lines = [[thing, pos2(300.0, -50.0)], [thing, pos2(-80.0, thing.y)]];
            let figures = Rect::from_min_size(thing + vec2(18.0, 18.0), vec2(160.0, 50.0));
            let frame = beside(thing, size, view, &lines, &[figures]);
            assert!(view.contains_rect(frame), "{frame}");
            assert!(!frame.contains(thing) && !frame.intersects(figures), "{thing} {frame}");
            assert!(!lines.iter().any(|line| crosses(line, &frame)), "{thing} {frame}");
        }
    }
}
