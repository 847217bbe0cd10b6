//! What was done on the bench with one hose: lot, cut, finished length, leak test.

use crate::app::widgets::{Field, Form, Range};
use crate::checks::{why_no_pass, why_no_pressure};
use crate::engine::leak_test::{TestState, size_of, test_pressure, tested};
use crate::engine::{RunSolution, as_made, corrected_ends};
use crate::model::{Bay, LeakTest, Reading, Run, TestMethod, TestResult};
use crate::report::sheet::longer_in_words;
use crate::units::Measure;

const LOT: Field<'_> = Field::new("Hose lot", "The lot of the hose it was cut from", "Note lot");
const MADE_BY: Field<'_> =
    Field::new("Made by", "Who cut it and put it together", "Note who made it");
const MADE_ON: Field<'_> = Field::new("Made on", "The day", "Note day");
const REPLACE_BY: Field<'_> = Field::new(
    "Replace by",
    "The day to replace the hose by, for its label",
    "Note day to replace",
);
const CUT: Field<'_> = Field::new("Cut to", "The length to which it was really cut", "Note cut");
const FINISHED: Field<'_> = Field::new(
    "Overall length",
    "Of the finished hose, laid straight: from the middle of one seat to the middle of the other",
    "Note finished length",
)
.named("Finished overall length");
const TAKE_OVER: Field<'_> = Field::new(
    "",
    "Gives the ends that nobody measured the set-back that the finished hose shows",
    "Take finished length over into set-backs",
)
.named("Correct the set-backs");
const ANOTHER: Field<'_> =
    Field::new("", "Records a proof test or leak check; the last one counts", "Add test")
        .named("Record a test");
const METHOD: Field<'_> = Field::new(
    "Kind of test",
    "Proof test: filled with liquid. Leak check: filled with air, under water",
    "Change test",
);
const RESULT: Field<'_> = Field::new("Result", "What the tester found", "Change test");
const ON: Field<'_> = Field::new("Tested on", "The day", "Change test");
const BY: Field<'_> = Field::new("Tested by", "Who tested", "Change test");
const FROM: Field<'_> =
    Field::new("Gauge before", "When the pressure stood, before the wait", "Change test");
const FROM_C: Field<'_> =
    Field::new("Temperature before", "Of the hose, at that time", "Change test");
const TO: Field<'_> = Field::new("Gauge after", "At the end of the wait", "Change test");
const TO_C: Field<'_> = Field::new("Temperature after", "Of the hose, at the end", "Change test");
const HELD: Field<'_> = Field::new("Held, seconds", "How long it was watched", "Change test");
const STEP: Field<'_> = Field::new(
    "Gauge reads to",
    "The finest step you can read on the gauge: a smaller fall cannot be seen",
    "Change test",
);
const SEEN: Field<'_> = Field::new(
    "Leak seen",
    "Bubbles that keep coming, or drops; a few bubbles that stop are air from the braid",
    "Change test",
);
const NOTES: Field<'_> = Field::new("Remarks", "Anything else about the test", "Change test");

pub(super) fn section(form: &mut Form<'_>, bay: &Bay, run: &mut Run, solved: Option<&RunSolution>) {
    let state = tested(bay, run).state;
    let is_open = state == TestState::Failed;
    form.section("Bench record", state.words(), is_open, |form| {
        made(form, run, solved);
        let place = run.bench.leak_tests.len();
        if let Some(test) = run.bench.leak_tests.last_mut() {
            form.within(&format!("test {place}"), |form| fields(form, test));
            told(form, bay, run);
        }
        if form.button("Record a test\u{2026}", &ANOTHER) {
            run.bench.leak_tests.push(LeakTest::default());
        }
    });
}

fn made(form: &mut Form<'_>, run: &mut Run, solved: Option<&RunSolution>) {
    let length = form.length();
    form.text(&LOT, vec![&mut run.bench.lot]);
    form.text(&MADE_BY, vec![&mut run.bench.made_by]);
    form.text(&MADE_ON, vec![&mut run.bench.made_on]);
    form.text(&REPLACE_BY, vec![&mut run.bench.replace_by]);
    form.maybe(&CUT, length, Range::Positive, "not noted", vec![&mut run.bench.cut_mm]);
    form.maybe(&FINISHED, length, Range::Positive, "not noted", vec![&mut run.bench.final_mm]);
    let Some((solved, made)) = solved.and_then(|s| Some((s, as_made(run, s)?))) else { return };
    form.remark(&longer_in_words(&made, form.units()));
    if let Some([from, to]) = corrected_ends(run, solved)
        && form.button("Correct the set-backs", &TAKE_OVER)
    {
        (run.from, run.to) = (from, to);
    }
}

fn fields(form: &mut Form<'_>, test: &mut LeakTest) {
    let pressure = Measure::Pressure(form.units().into());
    let methods = [
        (TestMethod::Liquid, "proof test, liquid"),
        (TestMethod::Air, "leak check, air under water"),
    ];
    form.choice(&METHOD, &methods.map(|(m, word)| (m, word.to_owned())), vec![&mut test.method]);
    form.text(&ON, vec![&mut test.on]);
    form.text(&BY, vec![&mut test.by]);
    let temperature_unit = form.units().into();
    let mut reading = |bar: &Field<'_>, celsius: &Field<'_>, reading: &mut Reading| {
        let temperature = Measure::Temperature(temperature_unit);
        form.maybe(bar, pressure, Range::NotNegative, "not read", vec![&mut reading.bar]);
        form.maybe(celsius, temperature, Range::Any, "not read", vec![&mut reading.temperature_c]);
    };
    reading(&FROM, &FROM_C, &mut test.before);
    reading(&TO, &TO_C, &mut test.after);
    form.maybe(&HELD, Measure::Number, Range::NotNegative, "not noted", vec![&mut test.hold_s]);
    form.maybe(&STEP, pressure, Range::NotNegative, "exactly", vec![&mut test.gauge_step_bar]);
    let seen = [(None, "not given"), (Some(false), "none"), (Some(true), "yes")];
    form.choice(&SEEN, &seen.map(|(s, word)| (s, word.to_owned())), vec![&mut test.leak_seen]);
    let results = [
        (None, "not given"),
        (Some(TestResult::Pass), "passed"),
        (Some(TestResult::Fail), "failed"),
    ];
    form.choice(&RESULT, &results.map(|(r, word)| (r, word.to_owned())), vec![&mut test.result]);
    form.text(&NOTES, vec![&mut test.notes]);
}

/// What the test shows, and what to test at.
fn told(form: &mut Form<'_>, bay: &Bay, run: &Run) {
    let Some(test) = run.bench.last_test() else { return };
    let unit = form.units();
    let pressure = |bar: f64| Measure::Pressure(unit.into()).show(bar);
    let verdict = tested(bay, run);
    let why = why_no_pass(&verdict, unit);
    let words = verdict.state.words();
    form.remark(&if why.is_empty() { words.to_owned() } else { format!("{words}: {why}") });
    if let Some(bar) = verdict.expected_bar.filter(|_| verdict.is_corrected) {
        form.remark(&format!("At these temperatures the gauge should read {}", pressure(bar)));
    }
    let asked = test_pressure(test.method, &run.service, size_of(bay, run));
    form.remark(&match (asked.map(|asked| pressure(asked.bar())), test.method) {
        (Err(none), _) => format!("Do not test it this way: {}", why_no_pressure(none)),
        (Ok(asked), TestMethod::Liquid) => {
            format!("Test at {asked}, behind a shield, bled of air")
        }
        (Ok(asked), TestMethod::Air) => {
            format!("Test at {asked} and no more: air stores much energy")
        }
    });
}
