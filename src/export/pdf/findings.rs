//! What was found, each with its word in a box: black for a fail, dotted for a note.

use glam::DVec2;

use super::block::{Block, rect};
use super::face::Faces;
use super::text::{Span, Style, aligned, paragraph};
use crate::export::drawing::{Anchor, Dash, Shade, Stroke};
use crate::export::sheet::FindingLine;

const WORD_WIDTH: f64 = 11.5;
const TEXT_AT: f64 = 14.0;

/// One finding in full: message, hint, rule, place and source.
pub(super) fn full(faces: &Faces, line: &FindingLine, width: f64) -> Block {
    let place = if line.place.is_empty() { String::new() } else { format!(", {}", line.place) };
    let source =
        if line.source.is_empty() { String::new() } else { format!(" Source: {}", line.source) };
    let hint = format!(" {}", line.hint);
    let rest = format!(" [{}{place}]{source}", line.rule);
    let spans =
        [Span(&line.message, Style::STRONG), Span(&hint, Style::BODY), Span(&rest, Style::SOFT)];
    with_word(faces, line.severity, &spans, width)
}

/// One finding in short, with the hose that it is about.
pub(super) fn short(faces: &Faces, hose: &str, line: &FindingLine, width: f64) -> Block {
    let hose = format!("{hose}: ");
    let spans = [Span(&hose, Style::STRONG), Span(&line.message, Style::BODY)];
    with_word(faces, line.severity, &spans, width)
}

fn with_word(faces: &Faces, severity: &str, spans: &[Span<'_>], width: f64) -> Block {
    let mut block = Block::default();
    block.put(word(faces, severity), DVec2::new(0.0, 0.25));
    block.put(paragraph(faces, spans, width - TEXT_AT), DVec2::new(TEXT_AT, 0.0));
    block.height += 0.6;
    block
}

fn word(faces: &Faces, severity: &str) -> Block {
    let size = DVec2::new(WORD_WIDTH, 3.5);
    let (fill, ink, dash) = match severity {
        "fail" => (Some(Shade::Ink), Shade::Paper, Dash::Solid),
        "note" => (None, Shade::Ink, Dash::Dotted),
        _ => (None, Shade::Ink, Dash::Solid),
    };
    let style = if severity == "note" { Style::SOFT } else { Style::STRONG.sized(7.4) };
    let mut block = Block::default();
    let stroke = Stroke { shade: Shade::Ink, width_mm: 0.3, dash };
    block.items.push(rect(DVec2::ZERO, size, fill, Some(stroke)));
    let letters = aligned(faces, &[Span(severity, style.shaded(ink))], WORD_WIDTH, Anchor::Middle);
    block.put(letters, DVec2::new(0.0, 0.05));
    block
}
