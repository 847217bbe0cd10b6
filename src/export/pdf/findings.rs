//! What was found, each with its word in a box: black for a fail, dotted for a note.

use glam::DVec2;

use super::block::{Block, rect};
use super::face::Faces;
use super::text::{Span, Style, aligned, paragraph};
use crate::drawing::{Anchor, Dash, Shade, Stroke};
use crate::report::sheet::FindingLine;

const WORD_WIDTH: f64 = 11.5;
const TEXT_AT: f64 = 14.0;

/// Findings in full: message, hint, rule, place and source. What several of one rule say alike stands
/// with the first of them.
pub(super) fn in_full(faces: &Faces, lines: &[FindingLine], width: f64) -> Vec<Block> {
    (0..lines.len())
        .map(|i| {
            let line = &lines[i];
            let same = lines[..i].iter().filter(|other| other.rule == line.rule);
            let (mut hint_is_told, mut source_is_told) = (false, false);
            for other in same {
                hint_is_told |= other.hint == line.hint;
                source_is_told |= other.source == line.source;
            }
            full(faces, line, hint_is_told, source_is_told, width)
        })
        .collect()
}

fn full(
    faces: &Faces,
    line: &FindingLine,
    hint_is_told: bool,
    source_is_told: bool,
    width: f64,
) -> Block {
    let place = if line.place.is_empty() { String::new() } else { format!(", {}", line.place) };
    let source = match line.source.as_str() {
        "" => String::new(),
        _ if source_is_told => " Source: as above".to_owned(),
        source => format!(" Source: {source}"),
    };
    let hint = match line.hint.as_str() {
        "" => String::new(),
        _ if hint_is_told => format!(" What to do: as with {} above.", line.rule),
        hint => format!(" {hint}"),
    };
    let rest = format!(" [{}{place}]{source}", line.rule);
    let spans =
        [Span(&line.message, Style::STRONG), Span(&hint, Style::GROUP), Span(&rest, Style::SOFT)];
    with_word(faces, line.severity, &spans, width)
}

/// One finding in short, with the hose that it is about.
pub(super) fn short(faces: &Faces, hose: &str, line: &FindingLine, width: f64) -> Block {
    let hose = format!("{hose}: ");
    let spans = [Span(&hose, Style::STRONG), Span(&line.message, Style::GROUP)];
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
        "fail" => (Some(Shade::Ink), Shade::Paper, Dash::Obstacle),
        "note" => (None, Shade::Ink, Dash::Dotted),
        _ => (None, Shade::Ink, Dash::Obstacle),
    };
    let style = if severity == "note" { Style::SOFT } else { Style::STRONG.sized(7.4) };
    let mut block = Block::default();
    let stroke = Stroke { shade: Shade::Ink, width_mm: 0.3, dash };
    block.items.push(rect(DVec2::ZERO, size, fill, Some(stroke)));
    let letters = aligned(faces, &[Span(severity, style.shaded(ink))], WORD_WIDTH, Anchor::Middle);
    block.put(letters, DVec2::new(0.0, 0.05));
    block
}
