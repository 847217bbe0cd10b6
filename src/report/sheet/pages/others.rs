//! Small print of the bay: warnings and notes that stand with no hose (what several of one rule say alike is told
//! once), what nobody measured, the builder's notes, what is not claimed.

use super::{Sheet, Sources, headed, is_with_its_hose, mark, of_hose};
use crate::report::blocks::{Tone, Words, plain};
use crate::report::captions;
use crate::report::sheet::{FindingLine, HoseSheet};

/// Other warnings and notes, what nobody measured, the builder's notes, what is not claimed.
pub(super) fn of_bay(sheet: &Sheet, sources: &mut Sources) -> Vec<Words> {
    let mut print: Vec<Words> = headed(captions::OTHERS, findings(sheet, sources)).collect();
    let notes = sheet.notes.lines().filter(|line| !line.trim().is_empty());
    for (head, items) in [
        (captions::NOT_MEASURED, sheet.not_measured.iter().map(plain).collect()),
        (captions::NOTES, notes.map(plain).collect()),
        (captions::LIMITS, sheet.limits.iter().map(plain).collect()),
    ] {
        print.extend(headed(head, items));
    }
    print
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
