//! DXF R12 as text, written here: the reader's crate puts the clock into every file that it writes,
//! and the same bay is to give the same bytes.
//!
//! Group codes after the published DXF reference, from memory; the format of R12 wants no handles.

use std::fmt::Write;

use glam::DVec2;

use crate::drawing::{Anchor, Dash};
use crate::export::ours::IN_DRAWING;
use crate::units::is_plain;

use super::chain::Chain;
use super::{Layer, Shape, ViewDrawing};

/// Names of line types, by the look of a line.
const LINE_TYPES: [(Dash, &str); 4] = [
    (Dash::Obstacle, "CONTINUOUS"),
    (Dash::Dashed, "DASHED"),
    (Dash::Dotted, "DOT"),
    (Dash::DashDot, "DASHDOT"),
];

/// R12 has room for 255 characters in a value.
const MOST_CHARACTERS: usize = 250;

pub(super) fn dxf(drawing: &ViewDrawing) -> String {
    let mut out = Pairs::default();
    out.comment(IN_DRAWING);
    header(&mut out, drawing);
    tables(&mut out, drawing);
    out.section("BLOCKS");
    out.word(0, "ENDSEC");
    out.section("ENTITIES");
    for layer in Layer::ALL {
        for shape in drawing.of_layer(layer) {
            entity(&mut out, layer, shape);
        }
    }
    out.word(0, "ENDSEC");
    out.word(0, "EOF");
    out.text
}

fn header(out: &mut Pairs, drawing: &ViewDrawing) {
    out.section("HEADER");
    out.word(9, "$ACADVER");
    out.word(1, "AC1009");
    for (name, at) in [("$EXTMIN", drawing.bounds.min), ("$EXTMAX", drawing.bounds.max)] {
        out.word(9, name);
        out.point(10, at);
    }
    out.word(0, "ENDSEC");
}

fn tables(out: &mut Pairs, drawing: &ViewDrawing) {
    out.section("TABLES");
    out.table("LTYPE", LINE_TYPES.len());
    for (dash, name) in LINE_TYPES {
        line_type(out, name, &pattern(dash, drawing.pen.words));
    }
    out.word(0, "ENDTAB");
    out.table("LAYER", Layer::ALL.len() + 1);
    one_layer(out, "0", 7, "CONTINUOUS");
    for layer in Layer::ALL {
        let look = layer.look();
        let name = LINE_TYPES.iter().find(|(dash, _)| *dash == look.dash);
        one_layer(out, layer.name(), look.colour, name.map_or("CONTINUOUS", |(_, name)| name));
    }
    out.word(0, "ENDTAB");
    out.table("STYLE", 1);
    out.word(0, "STYLE");
    out.word(2, "STANDARD");
    out.word(70, "0");
    // Any height, as wide as drawn, upright.
    for (code, value) in [(40, 0.0), (41, 1.0), (50, 0.0)] {
        out.number(code, value);
    }
    out.word(71, "0");
    out.number(42, drawing.pen.words);
    out.word(3, "txt");
    out.word(4, "");
    out.word(0, "ENDTAB");
    out.word(0, "ENDSEC");
}

fn one_layer(out: &mut Pairs, name: &str, colour: u8, line_type: &str) {
    out.word(0, "LAYER");
    out.word(2, name);
    out.word(70, "0");
    out.word(62, &colour.to_string());
    out.word(6, line_type);
}

fn line_type(out: &mut Pairs, name: &str, pattern: &[f64]) {
    out.word(0, "LTYPE");
    out.word(2, name);
    out.word(70, "0");
    out.word(3, "");
    out.word(72, "65");
    out.word(73, &pattern.len().to_string());
    out.number(40, pattern.iter().map(|part| part.abs()).sum());
    for part in pattern {
        out.number(49, *part);
    }
}

/// Strokes, and gaps as negative numbers, mm.
fn pattern(dash: Dash, size: f64) -> Vec<f64> {
    let parts: &[f64] = match dash {
        Dash::Obstacle => &[],
        Dash::Dashed => &[0.8, -0.45],
        Dash::Dotted => &[0.0, -0.35],
        Dash::DashDot => &[1.2, -0.35, 0.0, -0.35],
    };
    parts.iter().map(|part| part * size).collect()
}

fn entity(out: &mut Pairs, layer: Layer, shape: &Shape) {
    match shape {
        Shape::Chain(chain) => chain_entity(out, layer, chain),
        Shape::Circle { at, radius } => {
            out.entity("CIRCLE", layer);
            out.point(10, *at);
            out.number(40, *radius);
        }
        Shape::Words { at, text, height, anchor } => {
            out.entity("TEXT", layer);
            out.point(10, *at);
            out.number(40, *height * CAPITAL);
            out.word(1, &plain(text));
            let justified = match anchor {
                Anchor::Start => return,
                Anchor::Middle => "1",
                Anchor::End => "2",
            };
            out.word(72, justified);
            out.point(11, *at);
        }
    }
}

/// Text in DXF is as high as its capitals: about so much of the group of a letter.
const CAPITAL: f64 = 0.72;

fn chain_entity(out: &mut Pairs, layer: Layer, chain: &Chain) {
    if let ([a, b], false) = (&chain.vertices[..], chain.is_closed)
        && a.bulge == 0.0
    {
        out.entity("LINE", layer);
        out.point(10, a.at);
        out.point(11, b.at);
        return;
    }
    if chain.vertices.len() < 2 {
        return;
    }
    out.entity("POLYLINE", layer);
    out.word(66, "1");
    out.point(10, DVec2::ZERO);
    out.word(70, if chain.is_closed { "1" } else { "0" });
    for vertex in &chain.vertices {
        out.entity("VERTEX", layer);
        out.point(10, vertex.at);
        if vertex.bulge != 0.0 {
            out.number(42, vertex.bulge);
        }
    }
    out.entity("SEQEND", layer);
}

/// ASCII alone, for the code page of the reader is not known: other characters as `\U+XXXX`, and so
/// those that the format would take for an order. Degrees, plus-minus and diameter have the
/// format's own signs, dashes and minus signs are plain. What four digits cannot hold is a question mark.
fn plain(text: &str) -> String {
    let mut out = String::new();
    let mut before = ' ';
    for c in text.chars() {
        let written = match c {
            '%' if before == '%' => escaped(c),
            '\\' => escaped(c),
            ' '..='~' => c.to_string(),
            '\u{b0}' => "%%d".to_owned(),
            '\u{b1}' => "%%p".to_owned(),
            '\u{2300}' => "%%c".to_owned(),
            '\u{2010}'..='\u{2015}' | '\u{2212}' => "-".to_owned(),
            _ if !is_plain(c) => " ".to_owned(),
            _ => escaped(c),
        };
        if out.len() + written.len() > MOST_CHARACTERS {
            out.push_str("...");
            break;
        }
        out.push_str(&written);
        before = c;
    }
    out
}

fn escaped(c: char) -> String {
    let code = u32::from(c);
    if code > 0xffff { "?".to_owned() } else { format!("\\U+{code:04X}") }
}

/// Group codes and values, a line each.
#[derive(Default)]
struct Pairs {
    text: String,
}

impl Pairs {
    fn word(&mut self, code: u32, value: &str) {
        // Writing to a String cannot fail.
        let _ = writeln!(self.text, "{code:>3}\n{value}");
    }

    fn comment(&mut self, words: &str) {
        let _ = writeln!(self.text, "999\n{words}");
    }

    fn number(&mut self, code: u32, value: f64) {
        // Adding nothing turns −0 into 0.
        self.word(code, &format!("{:?}", (value * 1e9).round() / 1e9 + 0.0));
    }

    /// At height 0.
    fn point(&mut self, code: u32, at: DVec2) {
        self.number(code, at.x);
        self.number(code + 10, at.y);
        self.number(code + 20, 0.0);
    }

    fn section(&mut self, name: &str) {
        self.word(0, "SECTION");
        self.word(2, name);
    }

    fn table(&mut self, name: &str, count: usize) {
        self.word(0, "TABLE");
        self.word(2, name);
        self.word(70, &count.to_string());
    }

    fn entity(&mut self, name: &str, layer: Layer) {
        self.word(0, name);
        self.word(8, layer.name());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_ascii_and_give_no_orders() {
        assert_eq!(plain("90\u{b0} \u{d6}l"), "90%%d \\U+00D6l");
        assert_eq!(plain("5 % and 50%%d"), "5 % and 50%\\U+0025d");
        assert_eq!(plain("a\\U+0041\nb"), "a\\U+005CU+0041 b");
        assert_eq!(plain("\u{1f600} \u{2212}3"), "? -3");
        let long = plain(&"\u{e4}".repeat(100));
        assert!(long.len() <= 255 && long.ends_with("..."), "{}", long.len());
    }

    #[test]
    fn numbers_have_no_exponent_where_coordinates_are_usual() {
        for (value, text) in [(-0.0, "0.0"), (1234.5, "1234.5"), (0.1 + 0.2, "0.3"), (1e-12, "0.0")]
        {
            let mut out = Pairs::default();
            out.number(40, value);
            assert_eq!(out.text, format!(" 40\n{text}\n"));
        }
    }
}
