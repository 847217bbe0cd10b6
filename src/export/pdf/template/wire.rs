//! The pages of a bend table.

use glam::DVec2;

use crate::export::pdf::block::Block;
use crate::export::pdf::face::Faces;
use crate::export::pdf::table::table;
use crate::export::pdf::text::{Span, Style, paragraph};
use crate::export::template::WireSheet;
use crate::report::blocks::{Cell, Column, Row, Table, label, plain};
use crate::report::captions;

/// The table over as many pages as it takes, below their heads; the headings on each.
pub(super) fn pages(faces: &Faces, wire: &WireSheet, room: DVec2) -> Vec<Block> {
    let mut pages = Vec::new();
    let (headings, rows) = table(faces, &bend_table(wire), room.x);
    let mut page = opening(faces, wire, room.x).below(headings.clone());
    for next in rows {
        if page.height + next.height > room.y {
            pages.push(std::mem::replace(&mut page, headings.clone()));
        }
        page = page.below(next);
    }
    pages.push(page);
    pages
}

/// What it is, how sure, and how it is read.
fn opening(faces: &Faces, wire: &WireSheet, width: f64) -> Block {
    let note = format!(" {}", captions::BEND_TABLE_NOTE);
    let title = [Span(captions::BEND_TABLE, Style::HEADING), Span(&note, Style::SOFT)];
    let title = paragraph(faces, &title, width).below(Block::space(0.6));
    let accuracy = paragraph(faces, &[Span(&wire.accuracy, Style::STRONG)], width);
    let how = wire.how.iter().map(|words| {
        paragraph(faces, &[Span(words, Style::GROUP)], width).below(Block::space(0.8))
    });
    let how = Block::stacked(how);
    Block::stacked([title, accuracy, Block::space(1.2), how, Block::space(1.5)])
}

fn bend_table(wire: &WireSheet) -> Table {
    let row = |cells: &[String; 7]| Row {
        cells: cells.iter().map(|words| Cell::one(plain(words))).collect(),
        ..Row::default()
    };
    Table {
        columns: Column::all(&[1.2, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0], &[1, 2, 3, 4, 5, 6]),
        head: wire.headings.iter().map(label).collect(),
        rows: wire.rows.iter().map(row).collect(),
        is_dense: false,
    }
}
