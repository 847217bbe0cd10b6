//! Labels: one a hose, to be cut out and tied or taped to it.

use glam::DVec2;

use super::PdfError;
use super::block::{Block, rule};
use super::document::{Finished, document};
use super::face::Faces;
use super::paper::Paper;
use super::table::blank;
use super::text::{PT, Span, Style, aligned, elided, paragraph};
use crate::export::captions;
use crate::export::drawing::{Anchor, Dash, Item, Rect, Shade, Stroke};
use crate::export::sheet::{HoseSheet, Sheet};

/// A label, mm on paper.
const LABEL: DVec2 = DVec2::new(62.0, 42.0);
/// Labels beside each other.
const ACROSS: usize = 3;
/// Kept free at the top and bottom of the paper, mm; the head line stands in it.
const MARGIN: f64 = 13.0;
/// From the edge of a label to its words, mm.
const PAD: DVec2 = DVec2::new(3.0, 2.0);
/// Width of its words, mm.
const INNER: f64 = LABEL.x - 2.0 * PAD.x;

/// The labels of every hose on the sheet, several to a page, with cut marks.
pub fn labels(sheet: &Sheet, paper: Paper) -> Result<Vec<u8>, PdfError> {
    let faces = Faces::new()?;
    let size = paper.size_mm();
    let down = ((size.y - 2.0 * MARGIN) / LABEL.y).floor().max(1.0) as usize;
    let chunks: Vec<&[HoseSheet]> = sheet.hoses.chunks(ACROSS * down).collect();
    let count = chunks.len().max(1);
    let mut pages: Vec<Finished> = Vec::new();
    for i in 0..count {
        let hoses = chunks.get(i).copied().unwrap_or_default();
        let head = head(&faces, sheet, i + 1, count);
        pages.push(page(&faces, sheet, paper, hoses, head));
    }
    let title = format!("{}: labels, {}", sheet.title, sheet.routing);
    document(&faces, paper, title, &pages)
}

/// What a page says outside its labels.
fn head(faces: &Faces, sheet: &Sheet, page: usize, count: usize) -> Block {
    let width = LABEL.x * ACROSS as f64;
    let words = format!("{} · routing {} · {}", sheet.title, sheet.routing, captions::LABELS_NOTE);
    let right = format!("page {page} of {count}");
    let style = Style::SOFT;
    let words = elided(faces, &words, style, width - 24.0);
    aligned(faces, &[Span(&words, style)], width - 24.0, Anchor::Start).beside(
        width - 24.0,
        aligned(faces, &[Span(&right, style.shaded(Shade::Ink))], 24.0, Anchor::End),
    )
}

fn page(faces: &Faces, sheet: &Sheet, paper: Paper, hoses: &[HoseSheet], head: Block) -> Finished {
    let size = paper.size_mm();
    let corner = DVec2::new((size.x - LABEL.x * ACROSS as f64) / 2.0, MARGIN);
    let mut all = Block::default();
    all.put(head, DVec2::new(corner.x, MARGIN - 8.0));
    let rows = hoses.len().div_ceil(ACROSS);
    for (i, hose) in hoses.iter().enumerate() {
        let place = DVec2::new((i % ACROSS) as f64, (i / ACROSS) as f64);
        all.put(label(faces, sheet, hose), corner + place * LABEL);
    }
    let columns = hoses.len().min(ACROSS);
    all.items.push(cut_marks(corner, columns, rows));
    Finished { items: all.items, ..Finished::default() }
}

/// Short lines outside the block of labels, and crosses where four meet: nothing is drawn where
/// the knife goes along words.
fn cut_marks(corner: DVec2, columns: usize, rows: usize) -> Item {
    const LONG: f64 = 4.0;
    const OFF: f64 = 1.0;
    const CROSS: f64 = 1.5;
    let (right, foot) = (corner.x + LABEL.x * columns as f64, corner.y + LABEL.y * rows as f64);
    let mut lines = Vec::new();
    for column in 0..=columns {
        let x = corner.x + LABEL.x * column as f64;
        for (from, to) in [(corner.y - OFF - LONG, corner.y - OFF), (foot + OFF, foot + OFF + LONG)]
        {
            lines.push(vec![DVec2::new(x, from), DVec2::new(x, to)]);
        }
    }
    for row in 0..=rows {
        let y = corner.y + LABEL.y * row as f64;
        for (from, to) in
            [(corner.x - OFF - LONG, corner.x - OFF), (right + OFF, right + OFF + LONG)]
        {
            lines.push(vec![DVec2::new(from, y), DVec2::new(to, y)]);
        }
    }
    for (column, row) in (0..=columns).flat_map(|column| (0..=rows).map(move |row| (column, row))) {
        let at = corner + LABEL * DVec2::new(column as f64, row as f64);
        let (x, y) = (DVec2::new(CROSS, 0.0), DVec2::new(0.0, CROSS));
        lines.extend([vec![at - x, at + x], vec![at - y, at + y]]);
    }
    let stroke = Stroke { shade: Shade::Ink, width_mm: 0.15, dash: Dash::Obstacle };
    Item::Path { lines, is_closed: false, fill: None, stroke: Some(stroke) }
}

fn label(faces: &Faces, sheet: &Sheet, hose: &HoseSheet) -> Block {
    let line = |words: &str, style: Style| {
        let words = elided(faces, words, style, INNER);
        paragraph(faces, &[Span(&words, style)], INNER)
    };
    let id = format!("{} · {}", hose.id, hose.size_and_kind);
    let filled = Block::stacked([
        name(faces, &hose.name),
        line(&id, Style::GROUP.sized(7.4)),
        line(&format!("A {}", hose.from), Style::SOFT.sized(6.6)),
        line(&format!("B {}", hose.to), Style::SOFT.sized(6.6)),
        cut(faces, hose),
        line(&format!("{} · {}", hose.carries, hose.pressure), Style::GROUP.sized(8.0)),
    ]);
    let half = INNER * 0.56;
    let blanks = blank(faces, captions::LABEL_TESTED, half - 2.0)
        .beside(half, blank(faces, captions::LABEL_AT, INNER - half));
    let owner = line(&format!("{} · {}", sheet.title, sheet.routing), Style::SOFT.sized(6.0));
    let mut block = Block::space(LABEL.y);
    block.put(filled, PAD);
    let owner_at = LABEL.y - 1.6 - owner.height;
    block.put(blanks, DVec2::new(PAD.x, owner_at - 5.6));
    block.put(owner, DVec2::new(PAD.x, owner_at));
    Block { height: LABEL.y, ..kept_inside(block) }
}

/// The name, smaller where it is long, cut off where it is longer still.
fn name(faces: &Faces, words: &str) -> Block {
    const LARGE_PT: f64 = 11.0;
    const SMALL_PT: f64 = 8.0;
    let wide = faces.of(true).width_mm(words, PT).max(f64::MIN_POSITIVE);
    let style = Style::STRONG.sized((INNER / wide * 0.999).clamp(SMALL_PT, LARGE_PT));
    let words = elided(faces, words, style, INNER);
    let mut block = paragraph(faces, &[Span(&words, style)], INNER);
    // As high as a large one: all labels are alike.
    block.height = block.height.max(LARGE_PT * PT * 1.28);
    block
}

/// The cut length, whether it may be cut to, and whether it is tight.
fn cut(faces: &Faces, hose: &HoseSheet) -> Block {
    let other = format!("  {}", hose.cut.other);
    let (large, small) = (Style::STRONG.sized(15.0), Style::GROUP.sized(9.0));
    let wide = faces.of(true).width_mm(&hose.cut.main, 15.0 * PT)
        + faces.of(false).width_mm(&other, 9.0 * PT);
    let fits = (INNER / wide.max(f64::MIN_POSITIVE)).min(1.0);
    let scaled = |style: Style| Style { size_mm: style.size_mm * fits, ..style };
    let spans = [Span(&hose.cut.main, scaled(large)), Span(&other, scaled(small))];
    let mut block = paragraph(faces, &spans, INNER);
    let state = Style::STRONG.sized(7.4);
    if hose.stop.is_empty() {
        let tested = elided(faces, &hose.test_state, state, INNER);
        return block.below(paragraph(faces, &[Span(&tested, state)], INNER));
    }
    let words = format!("{}; {}", captions::STOP.to_uppercase(), hose.test_state);
    let words = elided(faces, &words, state, INNER);
    let words = aligned(faces, &[Span(&words, state)], INNER, Anchor::Start);
    block.items.push(rule(DVec2::new(0.0, block.height), INNER, Shade::Ink, 0.5));
    let at = DVec2::new(0.0, block.height + 0.3);
    block.put(words, at);
    block
}

/// Whatever a label holds, it does not run into its neighbour.
fn kept_inside(block: Block) -> Block {
    let within = Rect { min: DVec2::ZERO, max: LABEL };
    Block { items: vec![Item::Clipped { within, items: block.items }], ..block }
}
