//! SVG 1.1, a group a layer; millimetres throughout, Y turned down.

use std::fmt::Write;

use glam::DVec2;

use crate::drawing::Dash;
use crate::export::html::escape::escape;
use crate::export::ours::IN_DRAWING;
use crate::export::svg::{anchored, colour};

use super::chain::Chain;
use super::{Layer, Shape, ViewDrawing};

pub(super) fn svg(drawing: &ViewDrawing) -> String {
    let margin = 2.0 * drawing.pen.words;
    let field = drawing.bounds.grown(margin);
    let size = field.size();
    let (x, y) = (number(field.min.x), number(-field.max.y));
    let (w, h) = (number(size.x), number(size.y));
    let mut out = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!-- {IN_DRAWING} -->\n\
         <svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{w}mm\" height=\"{h}mm\" \
         viewBox=\"{x} {y} {w} {h}\">\n<title>{}</title>\n",
        escape(&drawing.title)
    );
    for layer in Layer::ALL {
        group(&mut out, drawing, layer);
    }
    out.push_str("</svg>\n");
    out
}

fn group(out: &mut String, drawing: &ViewDrawing, layer: Layer) {
    let look = layer.look();
    let width = look.width * drawing.pen.line;
    let (ink, id) = (colour(look.shade), layer.name());
    // Writing to a String cannot fail.
    let _ = writeln!(
        out,
        "<g id=\"{id}\" fill=\"none\" stroke=\"{ink}\" stroke-width=\"{}\"{}>",
        number(width),
        dashes(look.dash, drawing.pen.words)
    );
    for shape in drawing.of_layer(layer) {
        let _ = match shape {
            Shape::Chain(chain) => writeln!(out, "<path d=\"{}\"/>", path(chain)),
            Shape::Circle { at, radius } => {
                let (x, y, r) = (number(at.x), number(-at.y), number(*radius));
                writeln!(out, "<circle cx=\"{x}\" cy=\"{y}\" r=\"{r}\"/>")
            }
            Shape::Words { at, text, height, anchor } => writeln!(
                out,
                "<text x=\"{}\" y=\"{}\" font-family=\"sans-serif\" font-size=\"{}\"{} fill=\"{ink}\" \
                 stroke=\"none\">{}</text>",
                number(at.x),
                number(-at.y),
                number(*height),
                anchored(*anchor),
                escape(text)
            ),
        };
    }
    out.push_str("</g>\n");
}

fn path(chain: &Chain) -> String {
    let mut d = String::new();
    if let Some(first) = chain.vertices.first() {
        let _ = write!(d, "M{}", point(first.at));
    }
    for (vertex, next) in chain.steps() {
        let to = point(next);
        let _ = match vertex.arc_to(next) {
            None => write!(d, "L{to}"),
            Some(arc) => {
                // To the left is against the clock, which Y down calls the negative way.
                let (r, way) = (number(arc.radius), u8::from(arc.sweep < 0.0));
                write!(d, "A{r} {r} 0 0 {way} {to}")
            }
        };
    }
    if chain.is_closed {
        d.push('Z');
    }
    d
}

fn point(at: DVec2) -> String {
    format!("{} {}", number(at.x), number(-at.y))
}

fn dashes(dash: Dash, size: f64) -> String {
    let parts: &[f64] = match dash {
        Dash::Obstacle => return String::new(),
        Dash::Dashed => &[0.8, 0.45],
        Dash::Dotted => &[0.1, 0.35],
        Dash::DashDot => &[1.2, 0.35, 0.1, 0.35],
    };
    let lengths: Vec<String> = parts.iter().map(|part| number(part * size)).collect();
    format!(" stroke-dasharray=\"{}\"", lengths.join(" "))
}

/// To a thousandth of a millimetre.
fn number(value: f64) -> String {
    // Adding nothing turns −0 into 0.
    format!("{}", (value * 1000.0).round() / 1000.0 + 0.0)
}
