//! Labels: bench tags for the cut pieces, and labels that stay on the finished hoses; to be cut out.

mod bench;
mod finished;
#[cfg(test)]
mod tests;
mod words;

use glam::DVec2;

use super::PdfError;
use super::block::Block;
use super::document::{Finished, document};
use super::face::Faces;
use super::paper::Paper;
use super::text::{Span, Style, aligned, elided};
use crate::drawing::{Anchor, Dash, Item, Shade, Stroke};
use crate::report::captions;
use crate::report::sheet::{HoseSheet, Sheet};

/// Width of a label, mm on paper.
const WIDTH: f64 = 62.0;
/// Labels beside each other.
const ACROSS: usize = 3;
/// Kept free at the top and bottom of the paper, mm; the head line stands in it.
const MARGIN: f64 = 13.0;
/// From the edge of a label to its words, mm.
const PAD: DVec2 = DVec2::new(3.0, 2.0);
/// Width of its words, mm.
const INNER: f64 = WIDTH - 2.0 * PAD.x;

/// What a label is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LabelKind {
    /// A tag for the cut piece, before its ends are on.
    Bench,
    /// What stays on the finished hose.
    Finished,
}

impl LabelKind {
    /// Both, in the order in which they are needed.
    pub const ALL: [Self; 2] = [Self::Bench, Self::Finished];

    fn title(self) -> &'static str {
        match self {
            Self::Bench => captions::BENCH_TAGS,
            Self::Finished => captions::FINISHED_LABELS,
        }
    }

    /// Every label of a kind is at least this high, so that they look alike.
    fn least_height(self) -> f64 {
        match self {
            Self::Bench => 42.0,
            Self::Finished => 62.0,
        }
    }
}

/// The labels of every hose on the sheet, several to a page, with cut marks; each kind on its own pages.
pub fn labels(sheet: &Sheet, kinds: &[LabelKind], paper: Paper) -> Result<Vec<u8>, PdfError> {
    let faces = Faces::new()?;
    let mut pages: Vec<(LabelKind, Vec<Vec<Block>>)> = Vec::new();
    for kind in kinds {
        pages.extend(paged(&faces, sheet, *kind, paper).into_iter().map(|rows| (*kind, rows)));
    }
    if pages.is_empty() {
        pages.extend(kinds.first().map(|kind| (*kind, Vec::new())));
    }
    let count = pages.len();
    let pages: Vec<Finished> = pages
        .into_iter()
        .enumerate()
        .map(|(i, (kind, rows))| page(paper, rows, head(&faces, sheet, kind, (i + 1, count))))
        .collect();
    let title = format!("{}: labels, {}", sheet.title, sheet.routing);
    document(&faces, paper, title, &pages)
}

/// The labels of one kind in rows, the rows on pages: a row is as high as its highest label.
fn paged(faces: &Faces, sheet: &Sheet, kind: LabelKind, paper: Paper) -> Vec<Vec<Vec<Block>>> {
    let room = paper.size_mm().y - 2.0 * MARGIN;
    let mut pages: Vec<Vec<Vec<Block>>> = Vec::new();
    let mut left = 0.0;
    for hoses in sheet.hoses.chunks(ACROSS) {
        let row: Vec<Block> =
            hoses.iter().map(|hose| label(faces, sheet, hose, kind, room)).collect();
        let height = height_of(&row);
        if height > left {
            pages.push(Vec::new());
            left = room;
        }
        left -= height;
        if let Some(page) = pages.last_mut() {
            page.push(row);
        }
    }
    pages
}

fn height_of(row: &[Block]) -> f64 {
    row.iter().map(|block| block.height).fold(0.0, f64::max)
}

/// A label that fits on a page: words are whole, but for those that one page cannot hold.
fn label(faces: &Faces, sheet: &Sheet, hose: &HoseSheet, kind: LabelKind, room: f64) -> Block {
    const LONGEST: [usize; 4] = [usize::MAX, 240, 120, 60];
    let of = |longest| {
        let words = words::Words { faces, longest };
        let lines = match kind {
            LabelKind::Bench => bench::lines(&words, sheet, hose),
            LabelKind::Finished => finished::lines(&words, sheet, hose),
        };
        let mut block = Block::default();
        block.put(Block::stacked(lines), PAD);
        block.height = (block.height + PAD.y).max(kind.least_height());
        block
    };
    let fits = LONGEST.into_iter().map(of).find(|block| block.height <= room);
    fits.unwrap_or_else(|| of(0))
}

/// What a page says outside its labels.
fn head(faces: &Faces, sheet: &Sheet, kind: LabelKind, (page, count): (usize, usize)) -> Block {
    let width = WIDTH * ACROSS as f64;
    let words = format!(
        "{} · {} · {} · routing {}",
        kind.title(),
        captions::LABELS_NOTE,
        sheet.title,
        sheet.routing
    );
    let right = format!("page {page} of {count}");
    let style = Style::SOFT;
    let words = elided(faces, &words, style, width - 24.0);
    aligned(faces, &[Span(&words, style)], width - 24.0, Anchor::Start).beside(
        width - 24.0,
        aligned(faces, &[Span(&right, style.shaded(Shade::Ink))], 24.0, Anchor::End),
    )
}

fn page(paper: Paper, rows: Vec<Vec<Block>>, head: Block) -> Finished {
    let corner = DVec2::new((paper.size_mm().x - WIDTH * ACROSS as f64) / 2.0, MARGIN);
    let mut all = Block::default();
    all.put(head, DVec2::new(corner.x, MARGIN - 8.0));
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let mut edges = vec![corner.y];
    let mut top = corner.y;
    for row in rows {
        let height = height_of(&row);
        for (i, label) in row.into_iter().enumerate() {
            all.put(label, DVec2::new(corner.x + WIDTH * i as f64, top));
        }
        top += height;
        edges.push(top);
    }
    all.items.push(cut_marks(corner.x, columns, &edges));
    Finished { items: all.items, ..Finished::default() }
}

/// Short lines outside the block of labels, and crosses where four meet: nothing is drawn where
/// the knife goes along words.
fn cut_marks(left: f64, columns: usize, edges: &[f64]) -> Item {
    const LONG: f64 = 4.0;
    const OFF: f64 = 1.0;
    const CROSS: f64 = 1.5;
    let right = left + WIDTH * columns as f64;
    let (top, foot) = (edges.first().copied().unwrap_or(0.0), edges.last().copied().unwrap_or(0.0));
    let across = || (0..=columns).map(|column| left + WIDTH * column as f64);
    let mut lines = Vec::new();
    for x in across() {
        for (from, to) in [(top - OFF - LONG, top - OFF), (foot + OFF, foot + OFF + LONG)] {
            lines.push(vec![DVec2::new(x, from), DVec2::new(x, to)]);
        }
    }
    for y in edges.iter().copied() {
        for (from, to) in [(left - OFF - LONG, left - OFF), (right + OFF, right + OFF + LONG)] {
            lines.push(vec![DVec2::new(from, y), DVec2::new(to, y)]);
        }
    }
    for at in across().flat_map(|x| edges.iter().map(move |y| DVec2::new(x, *y))) {
        let (x, y) = (DVec2::new(CROSS, 0.0), DVec2::new(0.0, CROSS));
        lines.extend([vec![at - x, at + x], vec![at - y, at + y]]);
    }
    let stroke = Stroke { shade: Shade::Ink, width_mm: 0.15, dash: Dash::Obstacle };
    Item::Path { lines, is_closed: false, fill: None, stroke: Some(stroke) }
}
