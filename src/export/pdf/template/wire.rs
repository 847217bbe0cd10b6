//! The pages of a bend table.

use glam::DVec2;

use crate::drawing::Shade;
use crate::export::pdf::block::Block;
use crate::export::pdf::face::Faces;
use crate::export::pdf::table::{Cell, heading, row};
use crate::export::pdf::text::{Span, Style, paragraph};
use crate::export::template::WireSheet;
use crate::report::captions;

/// Width of the first column, the bend's name, mm.
const NAME: f64 = 26.0;

/// The table over as many pages as it takes, below their heads; the headings on each.
pub(super) fn pages(faces: &Faces, wire: &WireSheet, room: DVec2) -> Vec<Block> {
    let mut pages = Vec::new();
    let mut page = opening(faces, wire, room.x).below(headings(faces, wire, room.x));
    for cells in &wire.rows {
        let next = line(faces, cells, room.x, Style::GROUP, (Shade::Hairline, 0.15));
        if page.height + next.height > room.y {
            pages.push(std::mem::replace(&mut page, headings(faces, wire, room.x)));
        }
        page = page.below(next);
    }
    pages.push(page);
    pages
}

/// What it is, how sure, and how it is read.
fn opening(faces: &Faces, wire: &WireSheet, width: f64) -> Block {
    let title = heading(faces, captions::BEND_TABLE, captions::BEND_TABLE_NOTE, width);
    let accuracy = paragraph(faces, &[Span(&wire.accuracy, Style::STRONG)], width);
    let how = wire.how.iter().map(|words| {
        paragraph(faces, &[Span(words, Style::GROUP)], width).below(Block::space(0.8))
    });
    let how = Block::stacked(how);
    Block::stacked([title, accuracy, Block::space(1.2), how, Block::space(1.5)])
}

fn headings(faces: &Faces, wire: &WireSheet, width: f64) -> Block {
    line(faces, &wire.headings, width, Style::LABEL, (Shade::Ink, 0.3))
}

fn line(faces: &Faces, cells: &[String; 7], width: f64, style: Style, rule: (Shade, f64)) -> Block {
    let column = (width - NAME) / 6.0;
    let cells: Vec<Cell<'_>> = (0_u8..)
        .zip(cells)
        .map(|(place, words)| {
            let spans = vec![Span(words, style)];
            if place == 0 {
                return Cell::one(0.0, NAME - 2.0, spans);
            }
            let x = NAME + f64::from(place - 1) * column;
            Cell::one(x, column - 2.0, spans).against_right()
        })
        .collect();
    row(faces, &cells, width, 0.9, rule)
}
