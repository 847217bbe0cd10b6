//! Rows of cells, and lines to write on.

use glam::DVec2;

use super::block::{Block, rect, rule};
use super::face::Faces;
use super::text::{Span, Style, aligned, paragraph, spans};
use crate::drawing::{Anchor, Dash, Shade, Stroke};
use crate::report::blocks::{Cell, Row, RowKind, Table, Words};

/// Between columns, mm.
const APART: f64 = 2.5;
/// How far a row that belongs to the one before it is set in, mm.
const SET_IN: f64 = 3.0;

/// The head, and the rows with a line below each.
pub(super) fn table(faces: &Faces, table: &Table, width: f64) -> (Block, Vec<Block>) {
    let setter = Setter { faces, table, width };
    let mut rows: Vec<Block> = Vec::new();
    for (i, row) in table.rows.iter().enumerate() {
        let goes_on = table.rows.get(i + 1).is_some_and(|next| next.kind == RowKind::Below);
        let mut block = setter.row(row, goes_on);
        if row.kind == RowKind::Below
            && let Some(before) = rows.pop()
        {
            block = Block { link: before.link, ..before.below(block) };
        }
        rows.push(block);
    }
    (setter.head(), rows)
}

struct Setter<'a> {
    faces: &'a Faces,
    table: &'a Table,
    width: f64,
}

impl Setter<'_> {
    /// Where each column begins, and how wide it is.
    fn places(&self) -> Vec<(f64, f64)> {
        let columns = &self.table.columns;
        let whole: f64 = columns.iter().map(|column| column.share).sum();
        let room = self.width - APART * columns.len().saturating_sub(1) as f64;
        let mut x = 0.0;
        let place = |share: f64| {
            let wide = room * share / whole;
            let at = x;
            x += wide + APART;
            (at, wide)
        };
        columns.iter().map(|column| column.share).map(place).collect()
    }

    fn pad(&self) -> f64 {
        if self.table.is_dense { 0.25 } else { 0.6 }
    }

    fn words(&self, words: &Words, width: f64, is_right: bool) -> Block {
        let anchor = if is_right { Anchor::End } else { Anchor::Start };
        aligned(self.faces, &spans(words, self.table.is_dense), width, anchor)
    }

    fn head(&self) -> Block {
        if self.table.head.is_empty() {
            return Block::default();
        }
        let cells: Vec<Cell> =
            self.table.head.iter().cloned().map(|words| Cell::Words(vec![words])).collect();
        let mut head = self.cells(&cells, 0.0);
        head.items.push(rule(DVec2::new(0.0, head.height), self.width, Shade::Ink, 0.4));
        head
    }

    fn row(&self, row: &Row, goes_on: bool) -> Block {
        let mut block = match row.kind {
            RowKind::Plain => self.cells(&row.cells, 0.0),
            RowKind::Detail => self.cells(&row.cells, SET_IN),
            RowKind::Group => self.over(row, 0.0, 2.2),
            RowKind::Below => {
                let at = self.places().get(1).map_or(0.0, |(x, _)| *x);
                self.over(row, at, 0.0)
            }
        };
        let (shade, line) = match row.kind {
            RowKind::Group => (Shade::Ink, 0.3),
            _ => (Shade::Hairline, 0.2),
        };
        if !goes_on {
            block.items.push(rule(DVec2::new(0.0, block.height), self.width, shade, line));
        }
        block.link = row.hose;
        block
    }

    /// The first cell over all columns from a place on.
    fn over(&self, row: &Row, at: f64, above: f64) -> Block {
        let mut block = Block::default();
        if let Some(Cell::Words(lines)) = row.cells.first() {
            let words = lines.iter().map(|words| self.words(words, self.width - at, false));
            block.put(Block::stacked(words), DVec2::new(at, above));
        }
        block.height += self.pad();
        block
    }

    fn cells(&self, cells: &[Cell], set_in: f64) -> Block {
        const BOX: f64 = 4.4;
        let mut row = Block::default();
        let places = self.places().into_iter().zip(&self.table.columns);
        for (i, (cell, ((x, width), column))) in cells.iter().zip(places).enumerate() {
            let set_in = if i == 0 { set_in } else { 0.0 };
            match cell {
                Cell::Tick => {
                    let stroke = Stroke { shade: Shade::Ink, width_mm: 0.3, dash: Dash::Obstacle };
                    let at = DVec2::new(x, self.pad() + 0.6);
                    row.items.push(rect(at, DVec2::splat(BOX), None, Some(stroke)));
                    row.height = row.height.max(at.y + BOX);
                }
                Cell::Words(lines) => {
                    let words = lines
                        .iter()
                        .map(|words| self.words(words, width - set_in, column.is_right));
                    row.put(Block::stacked(words), DVec2::new(x + set_in, self.pad()));
                }
            }
        }
        row.height += self.pad();
        row
    }
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
