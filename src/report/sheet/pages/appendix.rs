//! What is looked up: once for all hoses, a row each, and every source once.

use super::others::of_bay;
use super::{Sheet, Sources, headed, of_hose};
use crate::report::blocks::{
    Block, Cell, Column, Fact, Row, Section, Table, Tone, Words, label, plain, soft, strong,
};
use crate::report::captions;
use crate::report::sheet::HoseSheet;

type Facts = fn(&HoseSheet) -> Vec<Fact>;

pub(super) fn section(sheet: &Sheet, sources: &mut Sources) -> Section {
    let tables = [
        (captions::LENGTHS, looked_up as Facts),
        (captions::INSTALLED, |hose| hose.installed.clone()),
        (captions::FLOW, |hose| hose.flow.clone()),
        (captions::MADE, |hose| hose.record.clone()),
    ];
    let tables = tables.into_iter().filter_map(|(title, of)| by_hose(sheet, title, of, sources));
    let mut blocks: Vec<Block> = tables.map(Block::Table).collect();
    let of_bay = if sheet.verdict.faults > 0 { of_bay(sheet, sources) } else { Vec::new() };
    let print = of_bay.into_iter().chain(small_print(sheet, sources)).collect();
    blocks.push(Block::Columns(print));
    Section {
        about: captions::APPENDIX.to_owned(),
        bookmark: Some(captions::APPENDIX.to_owned()),
        hose: None,
        starts_page: true,
        blocks,
    }
}

/// The lengths as drawn; where a clearance is stands with the hose.
fn looked_up(hose: &HoseSheet) -> Vec<Fact> {
    [hose.breakdown.clone(), hose.stored.clone()].concat()
}

/// How the tables are read, the positions by their numbers, and every source.
fn small_print(sheet: &Sheet, sources: &Sources) -> Vec<Words> {
    let mut print: Vec<Words> = headed(captions::READ, vec![plain(captions::READ_NOTE)]).collect();
    let positions = (1..).zip(&sheet.positions).map(|(number, name)| format!("{number} {name}"));
    let positions: Vec<String> = positions.collect();
    if !positions.is_empty() {
        print
            .extend(headed(captions::POSITIONS, vec![plain(format!("{}.", positions.join("; ")))]));
    }
    let numbered = |(number, source): (usize, &str)| {
        vec![Tone::Strong.of(format!("[{number}] ")), Tone::Plain.of(source)]
    };
    let first = format!("{} {} {}", captions::STEPS_SOURCE, captions::PRACTICE, captions::DEFER);
    let all = std::iter::once(plain(first)).chain(sources.listed().map(numbered));
    print.extend(headed(captions::SOURCES, all.collect()));
    print
}

/// How wide a column is, against the others.
fn share(label: &str) -> f64 {
    match label {
        "flow" => 4.4,
        "fluid" => 3.4,
        "cold start" => 3.0,
        "tested" => 3.6,
        "finished, overall length" => 1.8,
        "rated to, weakest part" => 1.6,
        "tightest clearance" | "clearance" | "clearance in motion" => 1.5,
        "bend in motion" | "hose to spare in motion" | "slack needed for motion" => 1.3,
        "off the drawn route" => 0.8,
        "acceptable cut lengths" => 2.4,
        _ => 1.0,
    }
}

/// A table with a row for each hose that has any of these facts, and a column for each of their labels.
fn by_hose(sheet: &Sheet, title: &str, facts: Facts, sources: &mut Sources) -> Option<Table> {
    let mut labels: Vec<String> = Vec::new();
    for fact in sheet.hoses.iter().flat_map(facts) {
        if !labels.contains(&fact.label) {
            labels.push(fact.label);
        }
    }
    let shares: Vec<f64> = labels.iter().map(|label| share(label)).collect();
    let name = 0.15 * shares.iter().sum::<f64>();
    let shares: Vec<f64> = std::iter::once(name).chain(shares).collect();
    let row = |hose: &HoseSheet| {
        let facts = sources.all_numbered(&facts(hose));
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
        head: std::iter::once(strong(title)).chain(labels.iter().map(label)).collect(),
        rows,
        is_dense: true,
    })
}

fn fact_words(fact: &Fact) -> Words {
    let mut words = plain(&fact.value);
    let remark = fact.remark_and_source();
    if !remark.is_empty() {
        words.extend(soft(format!(" {remark}")));
    }
    words
}
