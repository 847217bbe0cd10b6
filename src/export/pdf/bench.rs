//! The second page of a hose: what to do on the bench, the tests, cautions, what was found.

use glam::DVec2;

use super::block::{Block, rect, rule};
use super::face::Faces;
use super::findings;
use super::flow::{Flow, WIDTH};
use super::hose::LeftOver;
use super::table::{Cell, blank, facts, heading, row, told_facts};
use super::text::{Span, Style, paragraph};
use crate::drawing::{Dash, Shade, Stroke};
use crate::report::captions;
use crate::report::sheet::{Fact, HoseSheet, Mark, MarkKind, Sheet};

const LEFT: f64 = 92.0;
const GAP: f64 = 6.0;
const RIGHT: f64 = WIDTH - LEFT - GAP;

/// Above what is told, mm.
const TOLD_GAP: f64 = 4.0;
/// Findings lower than this do not stand alone on a page, mm.
const LEAST_ALONE: f64 = 45.0;

/// Begins with what found no room on the first page, and puts there what finds none on the second.
pub(super) fn push(
    flow: &mut Flow,
    faces: &Faces,
    sheet: &Sheet,
    hose: &HoseSheet,
    left_over: LeftOver,
) {
    // Each with the gap above it.
    let mut blocks: Vec<(f64, Block)> =
        left_over.route.into_iter().map(|block| (0.0, block)).collect();
    blocks.push((TOLD_GAP, bench(faces, hose)));
    blocks.push((3.0, torque(faces, hose)));
    blocks.push((3.5, cautions(faces, hose)));
    let found = Found::new(faces, hose);
    let mut told = told(faces, hose, left_over.has_installed);
    fill_first(flow, &blocks, &mut told, &found);
    blocks.extend(told.into_iter().map(|block| (TOLD_GAP, block)));

    flow.page(format!("hose {} of {}, bench: {}", hose.number, sheet.hose_count, hose.name));
    let closer = flow.closer(&blocks, (found.gap(), found.height()));
    let count = blocks.len();
    for (i, (gap, block)) in blocks.into_iter().enumerate() {
        // A page that would hold little gets what stands before that too.
        let below = (gap + found.gap()) * closer + block.height + found.height();
        if i + 1 == count && below > flow.room() && found.is_little() {
            flow.turn();
        }
        flow.gap(gap * closer);
        flow.put(block);
    }
    flow.gap(found.gap() * closer);
    flow.list_together(&found.heading, found.rows);
}

/// What was found, under its heading.
struct Found {
    heading: Block,
    rows: Vec<Block>,
}

impl Found {
    fn new(faces: &Faces, hose: &HoseSheet) -> Self {
        let words = format!("Found on {}, hose {}", hose.name, hose.number);
        Self {
            heading: heading(faces, &words, "", WIDTH),
            rows: findings::in_full(faces, &hose.findings, WIDTH),
        }
    }

    fn gap(&self) -> f64 {
        if self.rows.is_empty() { 0.0 } else { TOLD_GAP }
    }

    fn height(&self) -> f64 {
        let rows: f64 = self.rows.iter().map(|row| row.height).sum();
        if self.rows.is_empty() { 0.0 } else { self.heading.height + rows }
    }

    fn is_little(&self) -> bool {
        !self.rows.is_empty() && self.height() < LEAST_ALONE
    }
}

/// How it was made, what its flow takes, how it will lie.
fn told(faces: &Faces, hose: &HoseSheet, has_installed: bool) -> Vec<Block> {
    const LABEL: f64 = 40.0;
    [
        (captions::MADE, &hose.made),
        (captions::FLOW, &hose.flow),
        (captions::INSTALLED, &hose.installed),
    ]
    .into_iter()
    .filter(|(title, known)| !known.is_empty() && (has_installed || *title != captions::INSTALLED))
    .map(|(title, known)| told_facts(faces, title, known, WIDTH, LABEL))
    .collect()
}

/// Puts below the route what the bench's page has no room for, as far as there is room.
fn fill_first(flow: &mut Flow, blocks: &[(f64, Block)], told: &mut Vec<Block>, found: &Found) {
    const GAP: f64 = 3.0;
    let fixed: f64 = blocks.iter().map(|(_, block)| block.height).sum();
    // As much of the gaps as is left at the least.
    let gaps = 0.3 * TOLD_GAP * (blocks.len() + told.len() + 1) as f64;
    let mut over =
        fixed + gaps + told.iter().map(|block| block.height).sum::<f64>() + found.height()
            - flow.height();
    while over > 0.0 {
        // How it will lie first, which stands well below its route.
        let Some(place) = told.iter().rposition(|block| block.height + GAP <= flow.room()) else {
            return;
        };
        let block = told.remove(place);
        over -= block.height;
        flow.gap(GAP);
        flow.put(block);
    }
}

/// The steps, each with a box to tick.
fn steps(faces: &Faces, hose: &HoseSheet) -> Block {
    const BOX: f64 = 3.8;
    const TEXT_AT: f64 = 6.2;
    let stroke = Stroke { shade: Shade::Ink, width_mm: 0.3, dash: Dash::Obstacle };
    let steps = hose.steps.iter().map(|step| {
        let mut block = Block::default();
        block.items.push(rect(DVec2::new(0.0, 0.4), DVec2::splat(BOX), None, Some(stroke)));
        let words = paragraph(faces, &[Span(step, Style::GROUP.sized(8.8))], LEFT - TEXT_AT);
        block.put(words, DVec2::new(TEXT_AT, 0.0));
        block.height = block.height.max(BOX + 0.4) + 0.6;
        block
    });
    Block::stacked(
        [heading(faces, captions::BENCH, captions::BENCH_NOTE, LEFT), Block::space(0.8)]
            .into_iter()
            .chain(steps)
            .chain([paragraph(faces, &[Span(&hose.steps_source, Style::SOFT)], LEFT)]),
    )
}

/// Steps and tests; the marks where they have room beside the steps, else below over the whole width.
fn bench(faces: &Faces, hose: &HoseSheet) -> Block {
    let steps = steps(faces, hose);
    let tests = tests(faces, hose);
    let marked = tests.clone().below(Block::space(3.5)).below(marks_in_rows(faces, hose));
    let both = if marked.height <= steps.height {
        steps.beside(LEFT + GAP, marked)
    } else {
        let both = steps.beside(LEFT + GAP, tests);
        both.below(Block::space(2.5)).below(marks(faces, hose))
    };
    both.below(bends(faces, hose))
}

/// Every mark to make with its distance from A in both units, a line each.
fn marks_in_rows(faces: &Faces, hose: &HoseSheet) -> Block {
    let rows = hose.marks.iter().filter(|mark| !is_bend(mark)).map(|mark| {
        let cells = [
            Cell::one(0.0, 46.0, vec![Span(&mark.word, Style::GROUP)]),
            Cell::one(47.0, 21.0, vec![Span(&mark.from_a.main, Style::STRONG)]).against_right(),
            Cell::one(69.0, 19.0, vec![Span(&mark.from_a.other, Style::LABEL)]).against_right(),
        ];
        row(faces, &cells, RIGHT, 0.3, (Shade::Hairline, 0.15))
    });
    Block::stacked([heading(faces, captions::MARK, "", RIGHT)].into_iter().chain(rows))
}

/// The same in running words, over the whole width.
fn marks(faces: &Faces, hose: &HoseSheet) -> Block {
    let lines: Vec<[String; 3]> = hose
        .marks
        .iter()
        .filter(|mark| !is_bend(mark))
        .map(|mark| {
            let from_a = &mark.from_a;
            [format!(" {} ", mark.word), from_a.main.clone(), format!(" ({}). ", from_a.other)]
        })
        .collect();
    let mut spans = vec![Span(captions::MARK, Style::HEADING), Span(": ", Style::LABEL)];
    for [word, main, other] in &lines {
        spans.extend([
            Span(word, Style::LABEL),
            Span(main, Style::STRONG),
            Span(other, Style::SOFT),
        ]);
    }
    paragraph(faces, &spans, WIDTH)
}

fn is_bend(mark: &Mark) -> bool {
    mark.kind == MarkKind::Bend
}

/// Where the bends come to lie, over the whole width; nothing where nothing bends.
fn bends(faces: &Faces, hose: &HoseSheet) -> Block {
    let bends = hose.marks.iter().filter(|mark| is_bend(mark)).map(|mark| {
        let from_a = &mark.from_a;
        let word = mark.word.trim_start_matches("middle of bend ");
        format!("{word} at {} ({})", from_a.main, from_a.other)
    });
    let bends: Vec<String> = bends.collect();
    if bends.is_empty() {
        return Block::default();
    }
    let words = format!(" {}.", bends.join("; "));
    let spans = [Span(captions::BENDS, Style::LABEL), Span(&words, Style::SOFT)];
    Block::space(1.2).below(paragraph(faces, &spans, WIDTH))
}

fn tests(faces: &Faces, hose: &HoseSheet) -> Block {
    const LABEL: f64 = 22.0;
    Block::stacked([
        heading(faces, captions::LEAK_TEST, "", RIGHT),
        facts(faces, &hose.leak_test, RIGHT, LABEL),
        Block::space(2.5),
        blank(faces, captions::RESULT, RIGHT),
        Block::space(2.0),
        blanks(faces, hose),
    ])
}

/// Below the bench, for it belongs to the vehicle: a nipple is not tightened to it.
fn torque(faces: &Faces, hose: &HoseSheet) -> Block {
    let note = format!(" {}. ", captions::TORQUE_NOTE);
    let lines: Vec<[String; 3]> = each_source_once(&hose.torque)
        .into_iter()
        .map(|fact| [format!(" {} ", fact.label), fact.value, format!(" {}. ", fact.remark)])
        .collect();
    let mut spans = vec![Span(captions::TORQUE, Style::HEADING), Span(&note, Style::SOFT)];
    for [label, value, source] in &lines {
        spans.extend([
            Span(label, Style::LABEL),
            Span(value, Style::STRONG),
            Span(source, Style::SOFT),
        ]);
    }
    if lines.is_empty() {
        spans.push(Span(captions::NO_TORQUE, Style::GROUP));
    }
    paragraph(faces, &spans, WIDTH)
}

/// The source of several lines stands with the first of them.
fn each_source_once(facts: &[Fact]) -> Vec<Fact> {
    let mut told = facts.to_vec();
    for i in 1..told.len() {
        if facts[i].remark == facts[i - 1].remark {
            "as above".clone_into(&mut told[i].remark);
        }
    }
    told
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
            let source = format!(" {}", HoseSheet::caution_source(caution));
            let spans = [
                Span(&head, Style::STRONG.sized(8.0)),
                Span(&words, Style::GROUP.sized(8.0)),
                Span(&source, Style::SOFT),
            ];
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

/// Lines to be filled in, two beside each other.
fn blanks(faces: &Faces, hose: &HoseSheet) -> Block {
    const APART: f64 = 4.0;
    const ROW: f64 = 6.4;
    let width = (RIGHT - APART) / 2.0;
    let mut all = Block::default();
    for (i, label) in hose.blanks.iter().enumerate() {
        let (row, column) = ((i / 2) as f64, (i % 2) as f64);
        let at = DVec2::new(column * (width + APART), row * ROW);
        all.put(blank(faces, label, width), at);
    }
    all
}
