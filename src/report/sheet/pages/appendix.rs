//! What is looked up: once for all hoses, a row each, and every source once.

use super::{Sheet, Sources, is_with_its_hose, mark, of_hose};
use crate::report::blocks::{
    Block, Cell, Column, Fact, Row, Section, Table, Tone, Words, heading, label, plain, soft,
    strong,
};
use crate::report::captions;
use crate::report::sheet::{FindingLine, HoseSheet};

type Facts = fn(&HoseSheet) -> Vec<Fact>;

pub(super) fn section(sheet: &Sheet, sources: &mut Sources) -> Section {
    let mut blocks = Vec::new();
    for (title, note, facts) in [
        (
            captions::LENGTHS,
            captions::LENGTHS_NOTE,
            (|hose| [hose.breakdown.clone(), hose.stored.clone()].concat()) as Facts,
        ),
        (captions::INSTALLED, captions::INSTALLED_NOTE, |hose| hose.installed.clone()),
        (captions::FLOW, captions::FLOW_NOTE, |hose| hose.flow.clone()),
        (captions::MADE, "", |hose| hose.record.clone()),
    ] {
        if let Some(table) = by_hose(sheet, facts, sources) {
            blocks.extend([heading(title, note), Block::Table(table)]);
        }
    }
    blocks.push(Block::Columns(small_print(sheet, sources)));
    Section {
        about: captions::APPENDIX.to_owned(),
        bookmark: Some(captions::APPENDIX.to_owned()),
        hose: None,
        starts_page: true,
        blocks,
    }
}

/// Each with its head before the first words.
fn small_print(sheet: &Sheet, sources: &mut Sources) -> Vec<Words> {
    let mut print: Vec<Words> = Vec::new();
    let mut add = |head: &str, items: Vec<Words>| {
        let head = Tone::Strong.of(format!("{head} "));
        let mut items = items.into_iter();
        print.extend(items.next().map(|first| std::iter::once(head).chain(first).collect()));
        print.extend(items);
    };
    let positions = (1..).zip(&sheet.positions).map(|(number, name)| format!("{number} {name}"));
    let positions: Vec<String> = positions.collect();
    if !positions.is_empty() {
        add(captions::POSITIONS, vec![plain(format!("{}.", positions.join("; ")))]);
    }
    add("", findings(sheet, sources));
    add(captions::NOT_MEASURED, sheet.not_measured.iter().map(plain).collect());
    let notes = sheet.notes.lines().filter(|line| !line.trim().is_empty());
    add(captions::NOTES, notes.map(plain).collect());
    add(captions::LIMITS, sheet.limits.iter().map(plain).collect());
    let numbered = |(number, source): (usize, &str)| {
        vec![Tone::Strong.of(format!("[{number}] ")), Tone::Plain.of(source)]
    };
    let first = format!("{} {} {}", captions::STEPS_SOURCE, captions::PRACTICE, captions::DEFER);
    let all = std::iter::once(plain(first)).chain(sources.listed().map(numbered));
    add(captions::SOURCES, all.collect());
    print
}

/// How wide a column is, against the others.
fn share(label: &str) -> f64 {
    match label {
        "flow" => 3.0,
        "fluid" => 2.6,
        "cold start" => 2.0,
        "tightest clearance" | "clearance" | "clearance in motion" => 1.5,
        "acceptable cut lengths" => 1.3,
        _ => 1.0,
    }
}

/// A table with a row for each hose that has any of these facts, and a column for each of their labels.
fn by_hose(sheet: &Sheet, facts: Facts, sources: &mut Sources) -> Option<Table> {
    let mut labels: Vec<String> = Vec::new();
    for fact in sheet.hoses.iter().flat_map(facts) {
        if !labels.contains(&fact.label) {
            labels.push(fact.label);
        }
    }
    let shares = std::iter::once(1.3).chain(labels.iter().map(|label| share(label)));
    let shares: Vec<f64> = shares.collect();
    let row = |hose: &HoseSheet| {
        let facts = sources.numbered(&facts(hose));
        let cell = |name: &String| {
            let own = facts.iter().filter(|fact| fact.label == *name);
            Cell::Words(own.map(fact_words).collect())
        };
        let name = Cell::one(plain(of_hose(hose)));
        let cells = std::iter::once(name).chain(labels.iter().map(cell)).collect();
        Row { cells, hose: Some(hose.number), ..Row::default() }
    };
    let rows: Vec<Row> =
        sheet.hoses.iter().filter(|hose| !facts(hose).is_empty()).map(row).collect();
    (!rows.is_empty()).then(|| Table {
        columns: Column::all(&shares, &[]),
        head: std::iter::once(String::new()).chain(labels).map(label).collect(),
        rows,
        is_dense: true,
    })
}

fn fact_words(fact: &Fact) -> Words {
    let mut words = strong(&fact.value);
    let remark = fact.remark_and_source();
    if !remark.is_empty() {
        words.extend(soft(format!(" {remark}")));
    }
    words
}

/// What the list of figures that nobody measured says already.
const SAID_OF_ENDS: &str = "end-not-measured";

/// What does not stand with its hose. What several of one rule say alike is told once.
fn findings(sheet: &Sheet, sources: &mut Sources) -> Vec<Words> {
    let of_hoses = sheet.hoses.iter().flat_map(|hose| {
        let lines = hose.findings.iter().filter(move |line| !is_with_its_hose(hose, line));
        lines.map(move |line| (Some(hose), line))
    });
    let of_bay = sheet.bay_findings.iter().map(|line| (None, line));
    let mut all: Vec<(Option<&HoseSheet>, &FindingLine)> =
        of_hoses.chain(of_bay).filter(|(_, line)| line.rule != SAID_OF_ENDS).collect();
    all.sort_by_key(|(_, line)| line.severity);
    let mut groups: Vec<Vec<(Option<&HoseSheet>, &FindingLine)>> = Vec::new();
    for one in all {
        let alike = |group: &&mut Vec<(_, &FindingLine)>| {
            let first = group[0].1;
            (first.rule, &first.hint, &first.source) == (one.1.rule, &one.1.hint, &one.1.source)
        };
        match groups.iter_mut().find(alike) {
            Some(group) => group.push(one),
            None => groups.push(vec![one]),
        }
    }
    groups.iter().map(|group| grouped(group, sources)).collect()
}

fn grouped(group: &[(Option<&HoseSheet>, &FindingLine)], sources: &mut Sources) -> Words {
    let first = group[0].1;
    let mut words = vec![mark(first.severity), Tone::Plain.of(" ")];
    let mut told: Vec<(String, &str)> = Vec::new();
    for (hose, line) in group {
        let name = hose.map_or_else(String::new, of_hose);
        let message = line.message.trim_end_matches('.');
        // What two hoses say alike is said of both.
        match told.iter_mut().find(|(_, known)| *known == message) {
            Some((names, _)) if !names.contains(&name) => *names = format!("{names}, {name}"),
            Some(_) => {}
            None => told.push((name, message)),
        }
    }
    for (names, message) in told {
        let names = if names.is_empty() { names } else { format!("{names}: ") };
        words.extend([Tone::Label.of(names), Tone::Plain.of(format!("{message}. "))]);
    }
    words.push(Tone::Plain.of(format!("{} ", first.hint)));
    words.push(Tone::Soft.of(format!("{} {}", first.rule, sources.number(&first.source))));
    words
}
