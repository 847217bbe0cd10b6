//! The first page: the bay, all hoses, what is open, what is not claimed.

use glam::DVec2;

use super::block::Block;
use super::face::Faces;
use super::findings;
use super::flow::{Flow, WIDTH};
use super::table::{Cell, heading, row};
use super::text::{Span, Style, paragraph};
use crate::drawing::Shade;
use crate::report::captions;
use crate::report::sheet::{HoseSheet, Sheet};

pub(super) fn push(flow: &mut Flow, faces: &Faces, sheet: &Sheet) {
    flow.page("length sheet".to_owned()).bookmark = Some("All hoses".to_owned());
    flow.put(paragraph(faces, &[Span(&sheet.title, Style::TITLE)], WIDTH));
    flow.put(paragraph(faces, &[Span(&captions::about(sheet), Style::STRAIGHT)], WIDTH));
    flow.gap(3.0);
    flow.put(verdict(faces, sheet));
    flow.gap(2.0);
    flow.list(&head(faces), sheet.hoses.iter().map(|hose| hose_row(faces, hose)));
    flow.gap(1.0);
    flow.put(paragraph(faces, &[Span(captions::ROUNDED, Style::SOFT)], WIDTH));
    flow.put(paragraph(faces, &[Span(&sheet.leak_tests, Style::GROUP)], WIDTH));
    words(flow, faces, captions::LEFT_OUT, &sheet.left_out, Style::GROUP);
    open(flow, faces, sheet);
    about_bay(flow, faces, sheet);
    notes(flow, faces, sheet);
    words(flow, faces, captions::NOT_MEASURED, &sheet.not_measured, Style::GROUP);
    words(flow, faces, captions::LIMITS, &sheet.limits, Style::SOFT.shaded(Shade::Ink));
}

fn verdict(faces: &Faces, sheet: &Sheet) -> Block {
    const PAD: DVec2 = DVec2::new(3.0, 1.6);
    let fails = sheet.counts.fails > 0;
    let checked = format!("Checked: {}.", sheet.verdict);
    let mut spans = vec![Span(&checked, Style::STRONG.sized(11.0))];
    if fails {
        let wait = Style::GROUP.sized(9.6);
        spans.push(Span(" ", wait));
        spans.push(Span(captions::WAIT, wait));
    }
    let words = paragraph(faces, &spans, WIDTH - 2.0 * PAD.x);
    words.framed(WIDTH, PAD, if fails { 0.9 } else { 0.3 })
}

/// Where the columns begin, and their widths.
const COLUMNS: [(f64, f64); 6] =
    [(0.0, 52.0), (54.0, 36.0), (92.0, 21.0), (114.0, 17.0), (129.0, 29.0), (161.0, 25.0)];

fn head(faces: &Faces) -> Block {
    let words = ["Hose, from → to", "Size and kind", "Ends", "Between elbows", "Cut", "State"];
    let cells: Vec<Cell<'_>> = words
        .iter()
        .zip(COLUMNS)
        .map(|(word, (x, width))| {
            let cell = Cell::one(x, width, vec![Span(word, Style::SOFT)]);
            if *word == "Cut" { cell.against_right() } else { cell }
        })
        .collect();
    row(faces, &cells, WIDTH, 0.6, (Shade::Ink, 0.4))
}

fn hose_row(faces: &Faces, hose: &HoseSheet) -> Block {
    let name = format!("{} {}", hose.number, hose.name);
    let way = format!("{} → {}", hose.from, hose.to);
    let ends = hose.ends.each_ref().map(|end| format!("{} {}", end.letter, end.angle));
    let state = if hose.stop.is_empty() { Style::GROUP } else { Style::STRONG.shaded(Shade::Fail) };
    let texts = [
        vec![vec![Span(&name, Style::STRONG.sized(9.0))], vec![Span(&way, Style::SOFT)]],
        vec![vec![Span(&hose.size_and_kind, Style::GROUP)]],
        ends.iter().map(|end| vec![Span(end, Style::GROUP)]).collect(),
        vec![vec![Span(&hose.clock.short, Style::GROUP)]],
        vec![
            vec![Span(&hose.cut.main, Style::STRONG.sized(11.0))],
            vec![Span(&hose.cut.other, Style::LABEL)],
        ],
        vec![vec![Span(&hose.state, state.sized(8.0))]],
    ];
    let cells: Vec<Cell<'_>> = texts
        .into_iter()
        .zip(COLUMNS)
        .enumerate()
        .map(|(i, (spans, (x, width)))| {
            let cell = Cell::new(x, width, spans);
            if i == 4 { cell.against_right() } else { cell }
        })
        .collect();
    let mut block = row(faces, &cells, WIDTH, 0.8, (Shade::Hairline, 0.2));
    block.link = Some(hose.number);
    block
}

fn open(flow: &mut Flow, faces: &Faces, sheet: &Sheet) {
    let lines = sheet.open_findings();
    let rows = lines.iter().map(|(hose, line)| findings::short(faces, &hose.name, line, WIDTH));
    section(flow, faces, captions::OPEN, captions::OPEN_NOTE, rows);
}

fn about_bay(flow: &mut Flow, faces: &Faces, sheet: &Sheet) {
    let rows = findings::in_full(faces, &sheet.bay_findings, WIDTH);
    section(flow, faces, captions::ABOUT_BAY, "", rows.into_iter());
}

/// The builder's own words, line by line as he broke them.
fn notes(flow: &mut Flow, faces: &Faces, sheet: &Sheet) {
    let rows = sheet.notes.lines().map(|line| {
        let block = paragraph(faces, &[Span(line, Style::GROUP)], WIDTH);
        if block.height > 0.0 { block } else { Block::space(2.0) }
    });
    section(flow, faces, captions::NOTES, "", rows);
}

fn words(flow: &mut Flow, faces: &Faces, title: &str, items: &[String], style: Style) {
    let rows = items.iter().map(|item| {
        let mut block = paragraph(faces, &[Span(item, style)], WIDTH);
        block.height += 0.7;
        block
    });
    section(flow, faces, title, "", rows);
}

/// Rows below a heading; nothing where there are none.
fn section(
    flow: &mut Flow,
    faces: &Faces,
    title: &str,
    note: &str,
    rows: impl Iterator<Item = Block>,
) {
    flow.gap(3.0);
    flow.list(&heading(faces, title, note, WIDTH), rows);
}
