//! Rows of cells, and facts.

use glam::DVec2;

use super::block::{Block, rule};
use super::face::Faces;
use super::text::{Span, Style, aligned, paragraph};
use crate::drawing::{Anchor, Shade};
use crate::report::sheet::Fact;

/// One cell: where it begins, how wide its words may be, which side they keep to, and the words.
pub(super) struct Cell<'a> {
    pub(super) x: f64,
    pub(super) width: f64,
    pub(super) anchor: Anchor,
    pub(super) spans: Vec<Vec<Span<'a>>>,
}

impl<'a> Cell<'a> {
    /// Words from the left, a paragraph each.
    pub(super) fn new(x: f64, width: f64, spans: Vec<Vec<Span<'a>>>) -> Self {
        Self { x, width, anchor: Anchor::Start, spans }
    }

    /// One paragraph.
    pub(super) fn one(x: f64, width: f64, spans: Vec<Span<'a>>) -> Self {
        Self::new(x, width, vec![spans])
    }

    /// Against the right.
    pub(super) fn against_right(self) -> Self {
        Self { anchor: Anchor::End, ..self }
    }
}

/// A row over `width` with a line below it.
pub(super) fn row(
    faces: &Faces,
    cells: &[Cell<'_>],
    width: f64,
    pad: f64,
    (shade, line_mm): (Shade, f64),
) -> Block {
    let mut row = Block::default();
    for cell in cells {
        let inner = Block::stacked(
            cell.spans.iter().map(|spans| aligned(faces, spans, cell.width, cell.anchor)),
        );
        row.put(inner, DVec2::new(cell.x, pad));
    }
    row.height += pad;
    row.items.push(rule(DVec2::new(0.0, row.height), width, shade, line_mm));
    row
}

/// A heading, and a word more behind it.
pub(super) fn heading(faces: &Faces, words: &str, note: &str, width: f64) -> Block {
    let note = format!(" {note}");
    let mut block =
        paragraph(faces, &[Span(words, Style::HEADING), Span(&note, Style::SOFT)], width);
    block.height += 0.6;
    block
}

/// Facts in two columns: label, then figure and remark.
pub(super) fn facts(faces: &Faces, facts: &[Fact], width: f64, label: f64) -> Block {
    const PAD: f64 = 0.3;
    Block::stacked(facts.iter().map(|fact| {
        let remark = format!(" {}", fact.remark);
        let value = vec![Span(&fact.value, Style::STRONG), Span(&remark, Style::SOFT)];
        let cells = [
            Cell::one(0.0, label - 2.0, vec![Span(&fact.label, Style::LABEL)]),
            Cell::one(label, width - label, value),
        ];
        row(faces, &cells, width, PAD, (Shade::Hairline, 0.15))
    }))
}

/// The same under a heading.
pub(super) fn told_facts(
    faces: &Faces,
    title: &str,
    known: &[Fact],
    width: f64,
    label: f64,
) -> Block {
    heading(faces, title, "", width).below(facts(faces, known, width, label))
}

/// A line to be written on.
pub(super) fn blank(faces: &Faces, label: &str, width: f64) -> Block {
    let style = Style::LABEL;
    let wide = faces.of(false).width_mm(label, style.size_mm) + 1.5;
    let mut block = paragraph(faces, &[Span(label, style)], width);
    let foot = block.height - 0.8;
    if wide < width {
        block.items.push(rule(DVec2::new(wide, foot), width - wide, Shade::Ink, 0.25));
    }
    block
}
