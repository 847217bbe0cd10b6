//! Shapes and words onto a page of the PDF.

use glam::DVec2;
use krilla::color::rgb::Color;
use krilla::geom::{Path, PathBuilder, Point};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke as Line, StrokeDash};
use krilla::surface::Surface;
use krilla::text::TextDirection;

use super::face::{Faces, needs_shaping};
use super::text::PT;
use crate::drawing::{Anchor, Item, Rect, Shade, Stroke};
use crate::export::look::{pattern_mm, rgb};
use crate::units::is_plain;

/// Handles of a circle's four curves, so that their middles lie on the circle.
const KAPPA: f64 = 0.552_284_75;

/// PDF points of a length on paper.
pub(super) fn points(mm: f64) -> f32 {
    (mm / PT) as f32
}

pub(super) fn item(surface: &mut Surface<'_>, faces: &Faces, item: &Item) {
    match item {
        Item::Path { lines, is_closed, fill, stroke } => {
            draw(surface, path(lines, *is_closed), *fill, *stroke);
        }
        Item::Circle { at, radius_mm, fill, stroke } => {
            draw(surface, circle(*at, *radius_mm), *fill, *stroke);
        }
        Item::Text { .. } => words(surface, faces, item),
        Item::Clipped { within, items } => clipped(surface, faces, *within, items),
    }
}

fn clipped(surface: &mut Surface<'_>, faces: &Faces, within: Rect, items: &[Item]) {
    let (a, b) = (within.min, within.max);
    let corners = vec![a, DVec2::new(b.x, a.y), b, DVec2::new(a.x, b.y)];
    let Some(outline) = path(&[corners], true) else { return };
    surface.push_clip_path(&outline, &FillRule::NonZero);
    for inner in items {
        item(surface, faces, inner);
    }
    surface.pop();
}

fn draw(
    surface: &mut Surface<'_>,
    path: Option<Path>,
    fill: Option<Shade>,
    stroke: Option<Stroke>,
) {
    let stroke = stroke.filter(|stroke| stroke.width_mm > 0.0);
    let Some(path) = path.filter(|_| fill.is_some() || stroke.is_some()) else { return };
    surface.set_fill(fill.map(filling));
    surface.set_stroke(stroke.map(line));
    surface.draw_path(&path);
}

fn words(surface: &mut Surface<'_>, faces: &Faces, item: &Item) {
    let Item::Text { at, text, size_mm, anchor, is_bold, shade } = item else { return };
    let text: String = text.chars().map(printable).collect();
    if text.trim().is_empty() {
        return;
    }
    let face = faces.of(*is_bold);
    let back = match anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => face.width_mm(&text, *size_mm) / 2.0,
        Anchor::End => face.width_mm(&text, *size_mm),
    };
    let mut x = at.x - back;
    let size = points(*size_mm);
    surface.set_fill(Some(filling(*shade)));
    surface.set_stroke(None);
    // A script that is read from the right must not turn the figures beside it round.
    for run in runs(&text) {
        let (start, font) = (Point::from_xy(points(x), points(at.y)), face.font.clone());
        match face.glyphs(run) {
            Some(glyphs) => surface.draw_glyphs(start, &glyphs, font, run, size, false),
            None => surface.draw_text(start, font, size, run, false, TextDirection::Auto),
        }
        x += face.width_mm(run, *size_mm);
    }
}

/// Parts that stand as typed and parts that want more, in turn; what is between two of the latter
/// and no letter belongs to them.
fn runs(text: &str) -> Vec<&str> {
    let mut runs = Vec::new();
    let (mut begin, mut rest) = (0, text);
    while let Some(from) = rest.find(needs_shaping) {
        let from = text.len() - rest.len() + from;
        let mut to = from;
        for (i, c) in text[from..].char_indices() {
            if needs_shaping(c) {
                to = from + i + c.len_utf8();
            } else if !c.is_whitespace() {
                break;
            }
        }
        runs.extend([&text[begin..from], &text[from..to]]);
        (begin, rest) = (to, &text[to..]);
    }
    runs.push(&text[begin..]);
    runs.retain(|run| !run.is_empty());
    runs
}

/// Controls and text-direction marks would end up in the text that is read out.
fn printable(c: char) -> char {
    if is_plain(c) { c } else { '\u{fffd}' }
}

fn path(lines: &[Vec<DVec2>], is_closed: bool) -> Option<Path> {
    let mut builder = PathBuilder::new();
    for line in lines.iter().filter(|line| line.len() > 1) {
        for (i, point) in line.iter().enumerate() {
            let (x, y) = (points(point.x), points(point.y));
            if i == 0 { builder.move_to(x, y) } else { builder.line_to(x, y) }
        }
        if is_closed {
            builder.close();
        }
    }
    builder.finish()
}

fn circle(at: DVec2, radius: f64) -> Option<Path> {
    let mut builder = PathBuilder::new();
    let (right, up) = (DVec2::new(radius, 0.0), DVec2::new(0.0, radius));
    let quarters = [(right, up), (up, -right), (-right, -up), (-up, right)];
    let start = at + right;
    builder.move_to(points(start.x), points(start.y));
    for (from, to) in quarters {
        let [a, b, end] = [at + from + to * KAPPA, at + to + from * KAPPA, at + to];
        let [ax, ay, bx, by, x, y] = [a.x, a.y, b.x, b.y, end.x, end.y].map(points);
        builder.cubic_to(ax, ay, bx, by, x, y);
    }
    builder.close();
    builder.finish()
}

fn colour(shade: Shade) -> Color {
    let [red, green, blue] = rgb(shade);
    Color::new(red, green, blue)
}

fn filling(shade: Shade) -> Fill {
    Fill { paint: colour(shade).into(), opacity: NormalizedF32::ONE, rule: FillRule::NonZero }
}

fn line(stroke: Stroke) -> Line {
    let pattern = pattern_mm(stroke.dash);
    let array: Vec<f32> = pattern.iter().map(|mm| points(*mm)).collect();
    Line {
        paint: colour(stroke.shade).into(),
        width: points(stroke.width_mm),
        miter_limit: 4.0,
        line_cap: LineCap::Butt,
        line_join: LineJoin::Round,
        opacity: NormalizedF32::ONE,
        dash: (!array.is_empty()).then_some(StrokeDash { array, offset: 0.0 }),
    }
}

#[cfg(test)]
mod tests {
    use super::runs;

    #[test]
    fn figures_stand_apart_from_letters_that_join() {
        assert_eq!(runs("4 1/4 in"), ["4 1/4 in"]);
        assert_eq!(runs("A خرطوم الوقود: 31 in"), ["A ", "خرطوم الوقود", ": 31 in"]);
        assert_eq!(runs("خط"), ["خط"]);
        assert!(runs("").is_empty());
    }
}
