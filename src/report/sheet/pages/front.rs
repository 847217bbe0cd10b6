//! The first page: what to cut, what stops, what is tested.

use super::others::of_bay;
use super::{Sheet, Sources, in_full, mark, of_hose};
use crate::checks::Severity;
use crate::report::blocks::{
    Block, Cell, Column, Finding, Row, RowKind, Section, Table, Tone, Words, heading, label, plain,
    soft, strong,
};
use crate::report::captions;
use crate::report::sheet::HoseSheet;
use crate::units::{Length, LengthUnit};

pub(super) fn section(sheet: &Sheet, sources: &mut Sources) -> Section {
    let mut blocks = vec![
        Block::Title { text: sheet.title.clone(), lead: soft(captions::about(sheet)) },
        verdict(sheet),
        Block::Table(hoses(sheet)),
        Block::Paragraph(soft(captions::ROUNDED)),
    ];
    let stops: Vec<_> = sheet.hoses.iter().filter_map(stops).collect();
    if !stops.is_empty() {
        blocks.extend([heading(captions::STOPS, captions::STOPS_NOTE), Block::Findings(stops)]);
    }
    let about_bay: Vec<_> = sheet
        .bay_findings
        .iter()
        .filter(|line| line.severity != Severity::Note)
        .map(|line| in_full(line, "", sources))
        .collect();
    if !about_bay.is_empty() {
        blocks.extend([heading(captions::ABOUT_BAY, ""), Block::Findings(about_bay)]);
    }
    if !sheet.left_out.is_empty() {
        let items = sheet.left_out.iter().map(plain).collect();
        blocks.extend([heading(captions::LEFT_OUT, ""), Block::List(items)]);
    }
    blocks.extend([heading(captions::TESTS, ""), Block::Paragraph(plain(&sheet.leak_tests))]);
    // Where nothing stops, the page has room for what else is to be known of the bay.
    if sheet.verdict.faults == 0 {
        blocks.push(Block::Columns(of_bay(sheet, sources)));
    }
    Section {
        about: captions::SHEET.to_owned(),
        bookmark: Some(captions::ALL_HOSES.to_owned()),
        hose: None,
        starts_page: true,
        blocks,
    }
}

fn verdict(sheet: &Sheet) -> Block {
    let stops = sheet.verdict.faults > 0;
    Block::Boxed {
        is_heavy: stops,
        head: format!("Checked: {}", sheet.verdict.in_short()),
        lines: if stops { vec![plain(captions::WAIT)] } else { Vec::new() },
    }
}

/// The faults of one hose in short.
fn stops(hose: &HoseSheet) -> Option<Finding> {
    let faults: Vec<&str> = hose.stop.iter().map(|why| why.trim_end_matches('.')).collect();
    let name = Tone::Strong.of(format!("{}: ", of_hose(hose)));
    let words = vec![name, Tone::Plain.of(format!("{}.", faults.join(". ")))];
    let mark = mark(Severity::Fail);
    (!faults.is_empty()).then_some(Finding { mark, words, follows: Vec::new() })
}

/// All hoses, those of one kind and size together: they are cut from one piece.
fn hoses(sheet: &Sheet) -> Table {
    let mut kinds: Vec<&str> = Vec::new();
    for hose in &sheet.hoses {
        if !kinds.contains(&hose.size_and_kind.as_str()) {
            kinds.push(&hose.size_and_kind);
        }
    }
    let mut rows = Vec::new();
    for kind in kinds {
        let of_kind: Vec<&HoseSheet> =
            sheet.hoses.iter().filter(|hose| hose.size_and_kind == kind).collect();
        rows.push(group(kind, &of_kind, sheet.unit));
        rows.extend(of_kind.into_iter().map(row));
    }
    Table {
        columns: Column::all(&[5.0, 62.0, 22.0, 17.0, 37.0, 18.0, 22.0], &[4, 5]),
        head: ["", "Hose", "Ends", "Clock angle", "Cut length", "", "State"].map(label).into(),
        rows,
        is_dense: false,
    }
}

fn group(kind: &str, hoses: &[&HoseSheet], unit: LengthUnit) -> Row {
    let cut = hoses.iter().map(|hose| Length::from_mm(hose.cut.mm).up_to_bench_mm(unit));
    let count = match hoses.len() {
        1 => "1 hose".to_owned(),
        n => format!("{n} hoses"),
    };
    let sum = Length::from_mm(cut.sum()).show(unit);
    let words = vec![Tone::Strong.of(kind), Tone::Label.of(format!("  {count}, {sum} in all"))];
    Row { kind: RowKind::Group, cells: vec![Cell::one(words)], hose: None }
}

fn row(hose: &HoseSheet) -> Row {
    let ends = hose.ends.each_ref().map(|end| plain(format!("{} {}", end.letter, end.angle)));
    let way = soft(format!("{} → {}", hose.from, hose.to));
    Row {
        cells: vec![
            Cell::Tick,
            Cell::Words(vec![strong(of_hose(hose)), way]),
            Cell::Words(ends.into()),
            Cell::one(plain(&hose.clock.short)),
            Cell::one(vec![Tone::Large.of(&hose.cut.main)]),
            Cell::one(label(&hose.cut.other)),
            Cell::Words(state(hose)),
        ],
        hose: Some(hose.number),
        ..Row::default()
    }
}

/// How many faults and warnings, each with its mark.
fn state(hose: &HoseSheet) -> Vec<Words> {
    let count = |severity| hose.findings.iter().filter(|line| line.severity == severity).count();
    let told = |severity| match count(severity) {
        0 => None,
        n => Some(vec![mark(severity), Tone::Plain.of(format!(" {n}"))]),
    };
    let lines: Vec<Words> = [Severity::Fail, Severity::Warn].into_iter().filter_map(told).collect();
    if lines.is_empty() { vec![plain(captions::FINE_TICK)] } else { lines }
}
