//! A drawing as SVG to stand inside an HTML page.

use std::fmt::Write;

use glam::DVec2;

use super::html::escape::escape;
use super::look::{pattern_mm, rgb};
use crate::drawing::{Anchor, Dash, Drawing, Item, Shade, Stroke};

/// The drawing as one `<svg>` element, sized in millimetres; it refers to nothing outside itself.
pub(super) fn svg(drawing: &Drawing) -> String {
    let (w, h) = (number(drawing.width_mm), number(drawing.height_mm));
    let title = escape(&drawing.title);
    let mut out = format!(
        "<svg viewBox=\"0 0 {w} {h}\" width=\"{w}mm\" height=\"{h}mm\" role=\"img\" aria-label=\"{title}\">\n"
    );
    for item in &drawing.items {
        push(&mut out, item);
    }
    out.push_str("</svg>\n");
    out
}

fn push(out: &mut String, item: &Item) {
    // Writing to a String cannot fail.
    let _ = match item {
        Item::Path { lines, is_closed, fill, stroke } => {
            let d = path(lines, *is_closed);
            if d.is_empty() {
                Ok(())
            } else {
                writeln!(out, "<path d=\"{d}\"{}/>", look(*fill, *stroke))
            }
        }
        Item::Circle { at, radius_mm, fill, stroke } => writeln!(
            out,
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}/>",
            number(at.x),
            number(at.y),
            number(*radius_mm),
            look(*fill, *stroke)
        ),
        Item::Text { at, text, size_mm, anchor, is_bold, shade } => writeln!(
            out,
            "<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}{} fill=\"{}\">{}</text>",
            number(at.x),
            number(at.y),
            number(*size_mm),
            anchored(*anchor),
            if *is_bold { " font-weight=\"700\"" } else { "" },
            colour(*shade),
            escape(text)
        ),
        Item::Clipped { within, items } => {
            let size = within.size();
            let (x, y) = (number(within.min.x), number(within.min.y));
            let (w, h) = (number(size.x), number(size.y));
            // An inner <svg> shows nothing outside its box.
            let _ = writeln!(
                out,
                "<svg x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\" viewBox=\"{x} {y} {w} {h}\" overflow=\"hidden\">"
            );
            for item in items {
                push(out, item);
            }
            writeln!(out, "</svg>")
        }
    };
}

fn path(lines: &[Vec<DVec2>], is_closed: bool) -> String {
    let mut d = String::new();
    for line in lines.iter().filter(|line| line.len() > 1) {
        for (i, p) in line.iter().enumerate() {
            let step = if i == 0 { 'M' } else { 'L' };
            let _ = write!(d, "{step}{} {}", number(p.x), number(p.y));
        }
        if is_closed {
            d.push('Z');
        }
    }
    d
}

fn look(fill: Option<Shade>, stroke: Option<Stroke>) -> String {
    let mut look = format!(" fill=\"{}\"", fill.map_or("none".to_owned(), colour));
    if let Some(stroke) = stroke.filter(|stroke| stroke.width_mm > 0.0) {
        let (shade, width) = (colour(stroke.shade), number(stroke.width_mm));
        let _ = write!(look, " stroke=\"{shade}\" stroke-width=\"{width}\"{}", dashed(stroke.dash));
    }
    look
}

fn dashed(dash: Dash) -> String {
    let pattern: Vec<String> = pattern_mm(dash).iter().map(|mm| number(*mm)).collect();
    if pattern.is_empty() {
        " stroke-linejoin=\"round\"".to_owned()
    } else {
        format!(" stroke-dasharray=\"{}\"", pattern.join(" "))
    }
}

pub(super) fn anchored(anchor: Anchor) -> &'static str {
    match anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    }
}

pub(super) fn colour(shade: Shade) -> String {
    let [r, g, b] = rgb(shade);
    format!("#{r:02x}{g:02x}{b:02x}")
}

/// To a hundredth of a millimetre, without zeros at the end.
fn number(value: f64) -> String {
    let hundredths = (value * 100.0).round();
    // Adding nothing turns −0 into 0.
    format!("{}", (hundredths + 0.0) / 100.0)
}

#[cfg(test)]
mod tests {
    use super::number;

    #[test]
    fn numbers_are_short() {
        for (value, text) in [(1.0, "1"), (0.126, "0.13"), (-0.001, "0"), (12.5, "12.5")] {
            assert_eq!(number(value), text);
        }
    }
}
