//! `leak-test`: the last proof test or leak check on record.

use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::leak_test::{
    LEAST_HOLD_S, NoPressure, TestReason, TestState, TestVerdict, tested,
};
use crate::model::{Mark, Source, TestMethod};
use crate::units::LengthUnit;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "leak-test",
    severity: Severity::Fail,
    title: "Proof test or leak check",
    what: "The last proof test (liquid) or leak check (air under water) in the hose's bench \
           record. A fault where a leak was seen, where the tester says that it failed, or where \
           the pressure fell by more than a step of the gauge and, with air, by more than the \
           temperatures explain (ideal gas at constant volume). Incomplete, a warning, where it \
           was held for less than 60 s or at another pressure than required, or where a record \
           is missing. A hose without a test has no finding: card and sheet say so.",
    source: Source::fixed(
        Mark::Published,
        "proof pressure NAVEDTRA 14018 ch. 6; air at 100 ± 5 psi for at least 60 s: SB 740-94-8; \
         no steady bubbles: common practice",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let verdict = tested(run.bay, run.run);
    let severity = match verdict.state {
        TestState::NotTested | TestState::Passed => return Vec::new(),
        TestState::Failed => Severity::Fail,
        TestState::Incomplete => Severity::Warn,
    };
    let test = match run.run.bench.leak_tests.last().map(|test| test.method) {
        Some(TestMethod::Air) => "Leak check",
        _ => "Proof test",
    };
    let (state, hint) = match severity {
        Severity::Fail => (
            "failed",
            "Do not use this hose. Take it apart or scrap it, make another, and test that",
        ),
        _ => ("incomplete", "Test again, and record every reading"),
    };
    vec![Finding {
        severity,
        message: format!("{test} {state}: {}", why_no_pass(&verdict, run.bay.show_units)),
        hint: hint.to_owned(),
        ..run.finding(&RULE)
    }]
}

/// Why a test is no pass, in words; empty where it is one.
pub fn why_no_pass(verdict: &TestVerdict, unit: LengthUnit) -> String {
    let words = verdict.reasons.iter().map(|reason| reason_words(*reason, Figures { unit }));
    words.collect::<Vec<_>>().join("; ")
}

fn reason_words(reason: TestReason, figures: Figures) -> String {
    match reason {
        TestReason::SaidToFail => "marked as failed by the tester".to_owned(),
        TestReason::LeakSeen => "leak seen".to_owned(),
        TestReason::Lost(bar) => {
            format!(
                "lost {} more than gauge and temperature explain",
                figures.pressures(bar, 0.0).0
            )
        }
        TestReason::NotWatched => "leak seen or not: not recorded".to_owned(),
        TestReason::NoReading => "gauge reading missing".to_owned(),
        TestReason::HeldTooShort(None) => "time under pressure not recorded".to_owned(),
        TestReason::HeldTooShort(Some(seconds)) => {
            format!("held for {seconds} s, minimum {LEAST_HOLD_S} s")
        }
        TestReason::TooLow(is, asked) => {
            let (is, asked) = figures.pressures(is, asked);
            format!("tested at {is}, required {asked}")
        }
        TestReason::TooHigh(is, asked) => {
            let (is, asked) = figures.pressures(is, asked);
            format!("air test at {is}, maximum {asked}: compressed air stores much energy")
        }
        TestReason::NoPressure(none) => why_no_pressure(none).to_owned(),
    }
}

/// Why a hose has no pressure to be tested at, in words.
pub fn why_no_pressure(none: NoPressure) -> &'static str {
    match none {
        NoPressure::WorkingNotGiven => "working pressure not given, test pressure unknown",
        NoPressure::TooWeakForAir => "hose rated below the pressure of an air test: use liquid",
        NoPressure::LeftToOthers => {
            "brake hoses are tested by their manufacturers, refrigerant hoses by licensed technicians"
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::{LeakTest, Reading};

    fn found(edit: impl Fn(&mut LeakTest)) -> Vec<Finding> {
        let reading =
            || Reading { bar: Some(6.9), temperature_c: Some(20.0), ..Reading::default() };
        let mut test = LeakTest {
            method: TestMethod::Air,
            before: reading(),
            after: reading(),
            hold_s: Some(120.0),
            leak_seen: Some(false),
            ..LeakTest::default()
        };
        edit(&mut test);
        check(&Fixture::edited(|bay| run(bay).bench.leak_tests = vec![test.clone()]).context())
    }

    #[test]
    fn a_pass_and_no_test_are_quiet_a_failure_fails_and_half_a_test_warns() {
        assert_eq!(check(&Fixture::z().context()), []);
        assert_eq!(found(|_| {}), []);
        let failed = found(|test| test.after.bar = Some(6.4));
        assert_eq!(failed[0].severity, Severity::Fail);
        assert!(
            failed[0].message.starts_with("Leak check failed: lost 0.5 bar more"),
            "{}",
            failed[0].message
        );
        let half = found(|test| test.hold_s = Some(30.0));
        assert_eq!(half[0].severity, Severity::Warn);
        assert!(half[0].message.contains("held for 30 s, minimum 60 s"), "{}", half[0].message);
    }

    #[test]
    fn the_last_test_counts() {
        let fixture = Fixture::edited(|bay| {
            let failed = LeakTest { leak_seen: Some(true), ..LeakTest::default() };
            let reading = Reading { bar: Some(6.9), ..Reading::default() };
            let passed = LeakTest {
                method: TestMethod::Air,
                before: reading.clone(),
                after: reading,
                hold_s: Some(60.0),
                leak_seen: Some(false),
                ..LeakTest::default()
            };
            run(bay).bench.leak_tests = vec![failed, passed];
        });
        assert_eq!(check(&fixture.context()), []);
    }
}
