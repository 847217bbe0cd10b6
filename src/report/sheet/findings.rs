//! Findings, as they are read on the sheet.

use std::sync::Arc;

use crate::checks::{Finding, Severity};
use crate::engine::RunSolution;
use crate::report::answer::Answer;
use crate::report::findings::from_cut_end;
use crate::units::LengthUnit;

use super::FindingLine;

/// What was found on the run in `place` (or on none): each cause with what comes of it, worst first, then notes.
pub(super) fn lines(answer: &Answer, place: Option<usize>) -> Vec<FindingLine> {
    let told = &answer.told;
    let run = place.and_then(|place| answer.routing().runs.get(place)).map(|run| run.id.as_str());
    let solution = place.and_then(|place| answer.solution.run(place));
    let unit = answer.bay().show_units;
    let found = |index: usize| answer.findings.get(index).map(Arc::as_ref);
    let causes = place.map_or(told.bay.as_slice(), |place| told.on(place));
    let causes = causes.iter().filter_map(|cause| {
        let follows = cause.follows.iter().filter_map(|index| found(*index));
        let follows = follows.map(|one| with_place(one, solution, unit)).collect();
        Some(FindingLine { follows, ..line(found(cause.finding)?, solution, unit) })
    });
    let notes = told.notes.iter().flat_map(|notes| &notes.findings);
    let notes = notes.filter_map(|index| found(*index)).filter(|one| one.run.as_deref() == run);
    causes.chain(notes.map(|one| line(one, solution, unit))).collect()
}

fn with_place(finding: &Finding, solution: Option<&RunSolution>, unit: LengthUnit) -> String {
    match from_cut_end(finding, solution, unit) {
        place if place.is_empty() => finding.message.clone(),
        place => format!("{}, {place}", finding.message),
    }
}

fn line(finding: &Finding, solution: Option<&RunSolution>, unit: LengthUnit) -> FindingLine {
    FindingLine {
        severity: finding.severity,
        rule: finding.rule,
        place: from_cut_end(finding, solution, unit),
        message: finding.message.clone(),
        hint: finding.hint.clone(),
        source: finding.source.clone(),
        follows: Vec::new(),
    }
}

/// The worst fault of the run in `place` and how many more there are; empty where there is none.
pub(crate) fn stop_in_words(answer: &Answer, place: usize) -> String {
    let causes = answer.told.on(place).iter();
    let found = causes.filter_map(|cause| answer.findings.get(cause.finding));
    let faults: Vec<_> = found.filter(|one| one.severity == Severity::Fail).collect();
    match faults[..] {
        [] => String::new(),
        [only] => only.message.clone(),
        [worst, ..] => {
            format!("{}; and {} more on the length sheet", worst.message, faults.len() - 1)
        }
    }
}
