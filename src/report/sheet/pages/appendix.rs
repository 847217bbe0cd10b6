//! What is looked up: once for all hoses, a row each, and every source once.

use super::{Sheet, Sources, in_full, is_with_its_hose, mark, of_hose};
use crate::report::blocks::{
    Block, Cell, Column, Fact, Finding, Row, Section, Table, Tone, Words, heading, label, plain,
    soft, strong,
};
use crate::report::captions;
use crate::report::sheet::{FindingLine, HoseSheet};

pub(super) fn section(sheet: &Sheet, sources: &mut Sources) -> Section {
    let mut blocks = Vec::new();
    for (title, facts) in [
        (captions::LENGTHS, (|hose| &hose.breakdown) as fn(&HoseSheet) -> &Vec<Fact>),
        (captions::INSTALLED, |hose| &hose.installed),
        (captions::FLOW, |hose| &hose.flow),
    ] {
        if let Some(table) = by_hose(sheet, facts, sources) {
            blocks.extend([heading(title, ""), Block::Table(table)]);
        }
    }
    let findings = findings(sheet, sources);
    if !findings.is_empty() {
        blocks.extend([heading(captions::OTHERS, ""), Block::Findings(findings)]);
    }
    let mut print = |title: &str, items: Vec<Words>| {
        if !items.is_empty() {
            blocks.extend([heading(title, ""), Block::Columns(items)]);
        }
    };
    print(captions::NOT_MEASURED, sheet.not_measured.iter().map(plain).collect());
    print(captions::NOTES, sheet.notes.lines().map(plain).collect());
    print(captions::LIMITS, sheet.limits.iter().map(plain).collect());
    let numbered = |(number, source): (usize, &str)| {
        vec![Tone::Strong.of(format!("[{number}] ")), Tone::Plain.of(source)]
    };
    let first = [plain(captions::STEPS_SOURCE), plain(captions::DEFER)];
    print(captions::SOURCES, first.into_iter().chain(sources.listed().map(numbered)).collect());
    Section {
        about: captions::APPENDIX.to_owned(),
        bookmark: Some(captions::APPENDIX.to_owned()),
        hose: None,
        starts_page: true,
        blocks,
    }
}

/// A table with a row for each hose that has any of these facts, and a column for each of their labels.
fn by_hose(
    sheet: &Sheet,
    facts: fn(&HoseSheet) -> &Vec<Fact>,
    sources: &mut Sources,
) -> Option<Table> {
    let mut labels: Vec<&str> = Vec::new();
    for fact in sheet.hoses.iter().flat_map(facts) {
        if !labels.contains(&fact.label.as_str()) {
            labels.push(&fact.label);
        }
    }
    let shares: Vec<f64> = std::iter::once(1.2).chain(labels.iter().map(|_| 1.0)).collect();
    let rows: Vec<Row> = sheet
        .hoses
        .iter()
        .filter(|hose| !facts(hose).is_empty())
        .map(|hose| {
            let facts = sources.numbered(facts(hose));
            let cell = |name: &&str| {
                let own = facts.iter().filter(|fact| fact.label == *name);
                Cell::Words(own.map(fact_words).collect())
            };
            let name = Cell::one(plain(of_hose(hose)));
            let cells = std::iter::once(name).chain(labels.iter().map(cell)).collect();
            Row { cells, hose: Some(hose.number), ..Row::default() }
        })
        .collect();
    (!rows.is_empty()).then(|| Table {
        columns: Column::all(&shares, &[]),
        head: std::iter::once("").chain(labels).map(label).collect(),
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

/// What does not stand with its hose. What several of one rule say alike is told once.
fn findings(sheet: &Sheet, sources: &mut Sources) -> Vec<Finding> {
    let of_hoses = sheet.hoses.iter().flat_map(|hose| {
        let lines = hose.findings.iter().filter(move |line| !is_with_its_hose(hose, line));
        lines.map(move |line| (Some(hose), line))
    });
    let of_bay = sheet.bay_findings.iter().map(|line| (None, line));
    let mut all: Vec<(Option<&HoseSheet>, &FindingLine)> = of_hoses.chain(of_bay).collect();
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

fn grouped(group: &[(Option<&HoseSheet>, &FindingLine)], sources: &mut Sources) -> Finding {
    let name = |hose: Option<&HoseSheet>| hose.map_or_else(String::new, of_hose);
    let (hose, first) = group[0];
    if group.len() == 1 {
        return in_full(first, &name(hose), sources);
    }
    let mut words = Words::new();
    for (hose, line) in group {
        words.push(Tone::Label.of(format!("{}: ", name(*hose))));
        words.push(Tone::Strong.of(format!("{}. ", line.message.trim_end_matches('.'))));
    }
    words.push(Tone::Plain.of(&first.hint));
    words.push(Tone::Soft.of(format!(" {} {}", first.rule, sources.number(&first.source))));
    Finding { mark: mark(first.severity), words, follows: Vec::new() }
}
