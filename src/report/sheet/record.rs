//! What was done on the bench, as it was written down.

use crate::checks::why_no_pass;
use crate::engine::leak_test::{TestState, TestVerdict};
use crate::engine::{AsMade, RunSolution, as_made};
use crate::model::{LeakTest, Reading, Run, TestMethod};
use crate::report::answer::Answer;
use crate::units::{Length, LengthUnit, Pressure, Temperature};

use super::Fact;

const NOT_TO_BE_USED: &str = "not to be used before it is";

/// Whether it is tight, in words: of a test with its day.
pub(super) fn test_state(run: &Run, verdict: &TestVerdict) -> String {
    let day = run.bench.last_test().map(|test| test.on.trim()).filter(|day| !day.is_empty());
    match day {
        Some(day) => format!("{} {day}", verdict.state.words()),
        None => verdict.state.words().to_owned(),
    }
}

/// Whether it is tight, and why not or what follows.
pub(super) fn test_words(run: &Run, verdict: &TestVerdict, unit: LengthUnit) -> String {
    let more = match verdict.state {
        TestState::NotTested => NOT_TO_BE_USED.to_owned(),
        _ => why_no_pass(verdict, unit),
    };
    let state = test_state(run, verdict);
    if more.is_empty() { state } else { format!("{state}: {more}") }
}

/// That it is not known to be tight, and what follows; empty where its test was passed.
pub(crate) fn untested(run: &Run, verdict: &TestVerdict) -> String {
    match verdict.state {
        TestState::Passed => String::new(),
        TestState::NotTested => format!("{}: {NOT_TO_BE_USED}", test_state(run, verdict)),
        TestState::Failed | TestState::Incomplete => test_state(run, verdict),
    }
}

/// Of all hoses of a routing how many are tight, and by name those that are not known to be.
pub(super) fn leak_tests(answer: &Answer) -> String {
    let runs = &answer.routing().runs;
    let is = |place: usize, of: TestState| answer.test(place).is_some_and(|test| test.state == of);
    let named = |of: TestState| -> Vec<&str> {
        let of = runs.iter().enumerate().filter(|(place, _)| is(*place, of));
        of.map(|(_, run)| run.shown_name()).collect()
    };
    let (count, passed) = (runs.len(), named(TestState::Passed).len());
    if (0..count).all(|place| is(place, TestState::NotTested)) {
        return "No hose is tested yet; none is to be used before it is.".to_owned();
    }
    let mut said = vec![format!("Tests: {passed} of {count} passed")];
    for (of, word) in [
        (TestState::Failed, "FAILED"),
        (TestState::Incomplete, "incomplete"),
        (TestState::NotTested, "not tested"),
    ] {
        let names = named(of);
        said.extend((!names.is_empty()).then(|| format!("{word}: {}", names.join(", "))));
    }
    format!("{}.", said.join("; "))
}

/// The readings of the last test.
pub(super) fn tested(run: &Run, verdict: &TestVerdict, unit: LengthUnit) -> Vec<Fact> {
    let mut facts = Vec::new();
    if let Some(test) = run.bench.last_test() {
        facts.push(readings(test, verdict, unit));
        let notes = test.notes.trim();
        facts.extend((!notes.is_empty()).then(|| Fact::new("remarks", notes, "")));
    }
    facts
}

fn readings(test: &LeakTest, verdict: &TestVerdict, unit: LengthUnit) -> Fact {
    let by = test.by.trim();
    let filled = match test.method {
        TestMethod::Air => "with air".to_owned(),
        TestMethod::Liquid => "with liquid".to_owned(),
    };
    let read = [("from", &test.before), ("to", &test.after)];
    let read = read.into_iter().filter_map(|(word, r)| Some(format!("{word} {}", shown(r, unit)?)));
    let held = test.hold_s.map(|seconds| format!("{seconds} s"));
    let said: Vec<String> = std::iter::once(filled).chain(read).chain(held).collect();
    let expected = verdict
        .expected_bar
        .filter(|_| verdict.is_corrected)
        .map(|bar| format!("by the temperatures {}", Pressure::from_bar(bar).show(unit)));
    let by = (!by.is_empty()).then(|| format!("by {by}"));
    let remark: Vec<String> = by.into_iter().chain(expected).collect();
    Fact::new("tested", said.join(", "), remark.join("; "))
}

fn shown(reading: &Reading, unit: LengthUnit) -> Option<String> {
    let bar = reading.bar.map(|bar| Pressure::from_bar(bar).show(unit));
    let celsius = reading.temperature_c.map(|c| Temperature::from_celsius(c).show(unit));
    match (bar, celsius) {
        (Some(bar), Some(celsius)) => Some(format!("{bar} at {celsius}")),
        (bar, celsius) => bar.or(celsius),
    }
}

/// What the hose was made from, by whom, and how long it came out.
pub(super) fn made(run: &Run, solution: &RunSolution, unit: LengthUnit) -> Vec<Fact> {
    let bench = &run.bench;
    let mut facts = Vec::new();
    let mut text = |label: &str, value: &str, remark: &str| {
        if !value.trim().is_empty() {
            facts.push(Fact::new(label, value.trim(), remark));
        }
    };
    text("hose lot", &bench.lot, "");
    text("made by", &bench.made_by, bench.made_on.trim());
    text("replace by", &bench.replace_by, "");
    facts.extend(bench.cut_mm.map(|mm| Fact::new("cut to", Length::from_mm(mm).show(unit), "")));
    facts.extend(bench.final_mm.map(|mm| {
        let off = as_made(run, solution);
        let off = off.map_or_else(String::new, |made| longer_in_words(&made, unit));
        Fact::new("finished, overall length", Length::from_mm(mm).show(unit), off)
    }));
    facts
}

/// How far a finished hose is from what was reckoned, in words.
pub fn longer_in_words(made: &AsMade, unit: LengthUnit) -> String {
    let off = Length::from_mm(made.longer_mm().abs()).show(unit);
    let way = if made.longer_mm() < 0.0 { "shorter" } else { "longer" };
    format!("{off} {way} than cut and set-backs come to")
}
