//! The page of one hose: everything that is needed at the bench. A second one only for its faults.

use super::{Sheet, Sources, in_full, is_with_its_hose};
use crate::checks::Severity;
use crate::report::blocks::{
    Block, Cell, Column, Fact, Row, Section, Table, Tone, Words, figure, heading, label, plain,
    strong,
};
use crate::report::captions;
use crate::report::sheet::{Clock, EndSheet, HoseSheet, MarkKind};
use crate::units::LengthUnit;

/// As many reasons not to cut are told on the first page; all stand with what to do on the second.
const MOST_REASONS: usize = 3;
/// And as many warnings.
const MOST_WARNINGS: usize = 1;

pub(super) fn sections(sheet: &Sheet, hose: &HoseSheet, sources: &mut Sources) -> Vec<Section> {
    let about = format!("hose {} of {}: {}", hose.number, sheet.hose_count, hose.name);
    let mut blocks = vec![name(hose)];
    blocks.extend(stop(hose, sheet.verdict.faults > 0));
    blocks.push(Block::Beside(vec![(1.15, cut(hose)), (1.0, essentials(hose, sources))]));
    blocks.push(marks(sheet, hose));
    blocks.push(Block::Beside(vec![
        (super::super::hose::ROUTE_SHARE, ends_and_route(hose, sources)),
        (1.0, [clock(&hose.clock, sources), tests(hose, sources)].concat()),
    ]));
    let steps = Block::Steps(hose.steps.clone());
    blocks.extend([heading(captions::BENCH, captions::BENCH_NOTE), steps]);
    if hose.clock.dial.is_none() {
        blocks.push(torque(hose, sources));
    }
    blocks.push(Block::Cautions(cautions(hose, sources)));
    blocks.push(Block::Blanks(hose.blanks.clone()));
    let mut sections = vec![Section {
        about: about.clone(),
        bookmark: Some(format!("{} {}: {}", hose.number, hose.name, hose.cut.main)),
        hose: Some(hose.number),
        starts_page: true,
        blocks,
    }];
    sections.extend(found(hose, about, sources));
    sections
}

fn name(hose: &HoseSheet) -> Block {
    let lead = vec![
        Tone::Strong.of("A"),
        Tone::Plain.of(format!(" {} → ", hose.from)),
        Tone::Strong.of("B"),
        Tone::Plain.of(format!(" {}", hose.to)),
        Tone::Label.of(format!("  {} · {}", hose.size_and_kind, hose.service)),
    ];
    Block::Name { text: hose.name.clone(), lead }
}

/// Why not to cut yet; else what to look at first.
fn stop(hose: &HoseSheet, bay_has_faults: bool) -> Option<Block> {
    let elsewhere = if bay_has_faults { captions::MORE_LAST } else { captions::MORE_FIRST };
    let warnings: Vec<&str> = hose
        .findings
        .iter()
        .filter(|line| line.severity == Severity::Warn)
        .map(|line| line.message.as_str())
        .collect();
    let reasons: Vec<&str> = hose.stop.iter().map(String::as_str).collect();
    let (is_heavy, head, reasons, most, more) = if reasons.is_empty() {
        (false, captions::LOOK.to_owned(), warnings, MOST_WARNINGS, elsewhere)
    } else {
        (true, captions::STOP.to_uppercase(), reasons, MOST_REASONS, captions::MORE_BELOW)
    };
    let mut lines: Vec<Words> = reasons.iter().take(most).map(|why| plain(*why)).collect();
    if reasons.len() > most
        && let Some(last) = lines.last_mut()
    {
        last.push(Tone::Soft.of(format!("  and {} {more}", reasons.len() - most)));
    }
    (!lines.is_empty()).then_some(Block::Boxed { is_heavy, head, lines })
}

fn cut(hose: &HoseSheet) -> Vec<Block> {
    let hero = Block::Hero {
        caption: captions::CUT.to_owned(),
        figure: hose.cut.main.clone(),
        other: hose.cut.other.clone(),
    };
    let pictures = vec![hose.bar.clone()];
    let bar = Block::Figure { caption: String::new(), note: String::new(), pictures };
    let dry_fit =
        vec![Tone::Strong.of(format!("{} ", captions::DRY_FIT)), Tone::Plain.of(&hose.dry_fit)];
    vec![hero, bar, Block::Paragraph(dry_fit)]
}

fn essentials(hose: &HoseSheet, sources: &mut Sources) -> Vec<Block> {
    let tolerance =
        Fact::new(captions::TOLERANCE, &*hose.tolerance_words, "").from(&*hose.tolerance_source);
    let mut facts = sources.numbered(&[tolerance]);
    facts.extend(hose.essentials.iter().cloned());
    vec![Block::Facts(facts)]
}

/// The strip with the marks in the bay's unit; beside its caption the same figures in the other one.
fn marks(sheet: &Sheet, hose: &HoseSheet) -> Block {
    let other = sheet.unit.other().sign();
    let marks = hose.marks.iter().filter(|mark| mark.kind != MarkKind::Bend);
    let marks = marks.map(|mark| mark.from_a.other.trim_end_matches(other).trim_end().to_owned());
    let marks: Vec<String> = marks.collect();
    let (unit, marks) = (unit_word(sheet.unit), marks.join(" · "));
    Block::Figure {
        caption: captions::MARK.to_owned(),
        note: format!("in {unit}; in {other}: {marks}"),
        pictures: vec![hose.strip.clone()],
    }
}

fn unit_word(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Inch => "inches",
        LengthUnit::Mm => "millimetres",
    }
}

fn ends(ends: &[EndSheet; 2], sources: &mut Sources) -> Table {
    let mut rows = Vec::new();
    let mut add = |name: &str, cells: [Words; 2]| {
        let [a, b] = cells.map(Cell::one);
        rows.push(Row { cells: vec![Cell::one(label(name)), a, b], ..Row::default() });
    };
    add(
        "fitting",
        ends.each_ref()
            .map(|end| plain(format!("{}, {}, {}", end.fitting, end.angle, end.attachment))),
    );
    add(
        captions::SET_BACK,
        ends.each_ref().map(|end| {
            let source = sources.short(&end.set_back_source);
            let measure = if end.is_set_back_sure { "" } else { captions::MEASURE_YOURS };
            figure(&end.set_back.main, &format!("{measure}{source}"))
        }),
    );
    add("thread", ends.each_ref().map(|end| plain(&end.thread)));
    let ports = ends.each_ref().map(|end| strong(format!("{}: {}", end.letter, end.port)));
    Table {
        columns: Column::all(&[1.0, 3.0, 3.0], &[]),
        head: [strong("Ends")].into_iter().chain(ports).collect(),
        rows,
        is_dense: false,
    }
}

fn ends_and_route(hose: &HoseSheet, sources: &mut Sources) -> Vec<Block> {
    let route = Block::Figure {
        caption: captions::ROUTE.to_owned(),
        note: captions::ROUTE_NOTE.to_owned(),
        pictures: hose.route.clone(),
    };
    let mut blocks = vec![Block::Table(ends(&hose.ends, sources)), route];
    // Beside a dial there is room for it.
    blocks.extend(hose.clock.dial.is_some().then(|| torque(hose, sources)));
    blocks
}

/// The dial with its words beside it; without one the words alone.
fn clock(clock: &Clock, sources: &mut Sources) -> Vec<Block> {
    let angle = clock.dial.as_ref().map_or("", |_| clock.short.as_str());
    let heading = heading(&format!("{} {angle}", captions::CLOCK), "");
    let words = Block::Paragraph(vec![
        Tone::Plain.of(&clock.words),
        Tone::Soft.of(format!(" {} {}", clock.within, sources.number(&clock.source))),
    ]);
    let Some(dial) = &clock.dial else { return vec![heading, words] };
    let pictures = vec![dial.clone()];
    let dial = Block::Figure { caption: String::new(), note: String::new(), pictures };
    vec![heading, Block::Beside(vec![(1.0, vec![dial]), (1.6, vec![words])])]
}

fn tests(hose: &HoseSheet, sources: &mut Sources) -> Vec<Block> {
    let facts = sources.numbered(&hose.leak_test);
    vec![heading(captions::TESTS, &hose.test_words), Block::Facts(facts)]
}

/// Apart from the steps, for it belongs to the vehicle: a nipple is not tightened to it.
fn torque(hose: &HoseSheet, sources: &mut Sources) -> Block {
    let mut words = vec![
        Tone::Strong.of(captions::TORQUE),
        Tone::Soft.of(format!(" {}. ", captions::TORQUE_NOTE)),
    ];
    let torque = sources.numbered(&hose.torque);
    for (place, fact) in torque.iter().enumerate() {
        let is_last_of_source = torque.get(place + 1).is_none_or(|next| next.source != fact.source);
        let source = if is_last_of_source { &fact.source } else { "" };
        words.extend([
            Tone::Label.of(format!(" {} ", fact.label)),
            Tone::Strong.of(&fact.value),
            Tone::Soft.of(format!(" {source}  ")),
        ]);
    }
    if torque.is_empty() {
        words.push(Tone::Plain.of(captions::NO_TORQUE));
    }
    Block::Paragraph(words)
}

/// What is common practice says so once, at the end.
fn cautions(hose: &HoseSheet, sources: &mut Sources) -> Vec<Fact> {
    let practice = crate::model::Mark::Practice.word();
    let caution = |caution: &Fact| {
        let source = if caution.source == practice { "" } else { &caution.source };
        caution.clone().from(sources.short(source))
    };
    hose.cautions.iter().map(caution).collect()
}

/// Faults in full, and the warnings with them; the heading says whose they are.
fn found(hose: &HoseSheet, about: String, sources: &mut Sources) -> Option<Section> {
    let lines = hose.findings.iter().filter(|line| is_with_its_hose(hose, line));
    let findings: Vec<_> = lines.map(|line| in_full(line, "", sources)).collect();
    if findings.is_empty() {
        return None;
    }
    let title = format!("{} {}, hose {}", captions::FOUND, hose.name, hose.number);
    Some(Section {
        about,
        bookmark: None,
        hose: None,
        starts_page: false,
        blocks: vec![heading(&title, captions::FOUND_NOTE), Block::Findings(findings)],
    })
}
