//! The second page of a hose: what to do on the bench, the tests, cautions, what was found.

use glam::DVec2;

use super::block::{Block, rect, rule};
use super::face::Faces;
use super::findings;
use super::flow::{Flow, WIDTH};
use super::table::{Cell, blank, facts, heading, row};
use super::text::{Span, Style, paragraph};
use crate::export::captions;
use crate::export::drawing::{Dash, Shade, Stroke};
use crate::export::sheet::{Fact, HoseSheet, Sheet};

const LEFT: f64 = 96.0;
const GAP: f64 = 6.0;
const RIGHT: f64 = WIDTH - LEFT - GAP;

/// Begins with what found no room on the first page.
pub(super) fn push(
    flow: &mut Flow,
    faces: &Faces,
    sheet: &Sheet,
    hose: &HoseSheet,
    left_over: Option<Block>,
) {
    flow.page(format!("hose {} of {}, bench: {}", hose.number, sheet.hose_count, hose.name));
    if let Some(block) = left_over {
        flow.put(block);
        flow.gap(5.0);
    }
    let left = steps(faces, hose).below(Block::space(4.0)).below(marks(faces, hose));
    flow.put(left.beside(LEFT + GAP, tests(faces, hose)));
    flow.gap(4.0);
    flow.put(cautions(faces, hose));
    for (title, known) in
        [(captions::MADE, &hose.made), (captions::FLOW, &hose.flow), (captions::LIE, &hose.lie)]
    {
        if title == captions::FLOW {
            flow.gap(6.0);
            flow.put(blanks(faces, hose));
        }
        if !known.is_empty() {
            flow.gap(5.0);
            flow.put(across(faces, title, known));
        }
    }
    flow.gap(5.0);
    let title = format!("Found on {}, hose {}", hose.name, hose.number);
    let found = hose.findings.iter().map(|line| findings::full(faces, line, WIDTH));
    flow.list(&heading(faces, &title, "", WIDTH), found);
}

/// The steps, each with a box to tick.
fn steps(faces: &Faces, hose: &HoseSheet) -> Block {
    const BOX: f64 = 3.8;
    const TEXT_AT: f64 = 6.2;
    let stroke = Stroke { shade: Shade::Ink, width_mm: 0.3, dash: Dash::Solid };
    let steps = hose.steps.iter().map(|step| {
        let mut block = Block::default();
        block.items.push(rect(DVec2::new(0.0, 0.4), DVec2::splat(BOX), None, Some(stroke)));
        let words = paragraph(faces, &[Span(step, Style::BODY.sized(9.8))], LEFT - TEXT_AT);
        block.put(words, DVec2::new(TEXT_AT, 0.0));
        block.height = block.height.max(BOX + 0.4) + 1.3;
        block
    });
    Block::stacked(
        [heading(faces, captions::BENCH, captions::BENCH_NOTE, LEFT), Block::space(0.8)]
            .into_iter()
            .chain(steps),
    )
}

/// Every mark with its distance from A in both units.
fn marks(faces: &Faces, hose: &HoseSheet) -> Block {
    let rows = hose.marks.iter().map(|mark| {
        let cells = [
            Cell::one(0.0, 46.0, vec![Span(&mark.word, Style::BODY)]),
            Cell::one(48.0, 26.0, vec![Span(&mark.from_a.main, Style::STRONG)]).against_right(),
            Cell::one(74.0, 22.0, vec![Span(&mark.from_a.other, Style::LABEL)]).against_right(),
        ];
        row(faces, &cells, LEFT, 0.3, (Shade::Hairline, 0.15))
    });
    Block::stacked([heading(faces, captions::MARK, "", LEFT)].into_iter().chain(rows))
}

fn tests(faces: &Faces, hose: &HoseSheet) -> Block {
    const LABEL: f64 = 27.0;
    let torque = if hose.torque.is_empty() {
        paragraph(faces, &[Span(captions::NO_TORQUE, Style::BODY)], RIGHT)
    } else {
        facts(faces, &hose.torque, RIGHT, LABEL)
    };
    Block::stacked([
        heading(faces, captions::TORQUE, captions::TORQUE_NOTE, RIGHT),
        torque,
        Block::space(3.0),
        heading(faces, captions::LEAK_TEST, "", RIGHT),
        facts(faces, &hose.leak_test, RIGHT, LABEL),
        Block::space(5.0),
        blank(faces, captions::RESULT, RIGHT),
    ])
}

/// A line a fact, over the whole width.
fn across(faces: &Faces, title: &str, known: &[Fact]) -> Block {
    const LABEL: f64 = 40.0;
    heading(faces, title, "", WIDTH).below(facts(faces, known, WIDTH, LABEL))
}

/// In two columns.
fn cautions(faces: &Faces, hose: &HoseSheet) -> Block {
    const COLUMN: f64 = (WIDTH - 5.0) / 2.0;
    let mut blocks: Vec<Block> = hose
        .cautions
        .iter()
        .map(|caution| {
            let head = format!("{}.", caution.label);
            let words = format!(" {}", caution.value);
            let spans =
                [Span(&head, Style::STRONG.sized(8.0)), Span(&words, Style::BODY.sized(8.0))];
            paragraph(faces, &spans, COLUMN)
        })
        .collect();
    blocks.push(paragraph(faces, &[Span(&hose.defer, Style::SOFT)], COLUMN));
    let half = blocks.iter().map(|block| block.height).sum::<f64>() / 2.0;
    let [mut left, mut right] = [Block::default(), Block::default()];
    for mut block in blocks {
        block.height += 0.7;
        if left.height < half && right.height == 0.0 {
            left = left.below(block);
        } else {
            right = right.below(block);
        }
    }
    let mut all = Block::default();
    all.items.push(rule(DVec2::ZERO, WIDTH, Shade::Ink, 0.3));
    all.put(left, DVec2::new(0.0, 1.4));
    all.put(right, DVec2::new(COLUMN + 5.0, 1.4));
    all
}

fn blanks(faces: &Faces, hose: &HoseSheet) -> Block {
    const APART: f64 = 4.0;
    let count = hose.blanks.len().max(1) as f64;
    let width = (WIDTH - APART * (count - 1.0)) / count;
    let mut all = Block::default();
    for (i, label) in hose.blanks.iter().enumerate() {
        all.put(blank(faces, label, width), DVec2::new(i as f64 * (width + APART), 0.0));
    }
    all
}
