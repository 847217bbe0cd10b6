//! `leak-test`: what the recorded leak test shows.

use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::leak_test::{
    LEAST_HOLD_S, NoPressure, TestReason, TestState, TestVerdict, tested,
};
use crate::model::{Mark, Source};
use crate::units::LengthUnit;

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "leak-test",
    severity: Severity::Fail,
    title: "Leak test",
    what: "The last leak test in the hose's bench record. It fails where a leak was seen, where the tester \
           says so, or where the pressure fell by more than a step of the gauge and, with air, more than \
           the temperatures explain (ideal gas at constant volume). It is incomplete, a warning, where it \
           was held for less than 60 s, at another pressure than asked for, or something was not written \
           down. A hose without a test has no finding: it says so on card and sheet.",
    source: Source::fixed(
        Mark::Published,
        "proof pressure NAVEDTRA 14018 ch. 6; air at 100 ± 5 psi for at least 60 s: SB 740-94-8; no \
         steady bubbles: common practice",
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
    let (what, hint) = match severity {
        Severity::Fail => (
            "The leak test failed",
            "Do not use this hose: take it apart or scrap it, make it anew, and test again",
        ),
        _ => (
            "The leak test does not show that it holds",
            "Test again, and write down every reading",
        ),
    };
    vec![Finding {
        severity,
        message: format!("{what}: {}", why_no_pass(&verdict, run.bay.show_units)),
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
        TestReason::SaidToFail => "the tester says that it failed".to_owned(),
        TestReason::LeakSeen => "a leak was seen".to_owned(),
        TestReason::Lost(bar) => {
            format!("it lost {} more than is explained", figures.pressures(bar, 0.0).0)
        }
        TestReason::NotWatched => "it is not said whether a leak was seen".to_owned(),
        TestReason::NoReading => "a reading of the gauge is missing".to_owned(),
        TestReason::HeldTooShort(None) => "it is not said how long it was held".to_owned(),
        TestReason::HeldTooShort(Some(seconds)) => {
            format!("held for {seconds} s, and {LEAST_HOLD_S} s are the least")
        }
        TestReason::TooLow(is, asked) => {
            let (is, asked) = figures.pressures(is, asked);
            format!("tested at {is}, and {asked} is asked for")
        }
        TestReason::TooHigh(is, asked) => {
            let (is, asked) = figures.pressures(is, asked);
            format!("tested with air at {is}: air stores much, {asked} is asked for and no more")
        }
        TestReason::NoPressure(none) => why_no_pressure(none).to_owned(),
    }
}

/// Why a hose has no pressure to be tested at, in words.
pub fn why_no_pressure(none: NoPressure) -> &'static str {
    match none {
        NoPressure::WorkingNotGiven => {
            "the working pressure is not given, so the test pressure is not known"
        }
        NoPressure::TooWeakForAir => "the hose is rated for less than an air test: use liquid",
        NoPressure::LeftToOthers => {
            "brake and refrigerant lines are tested by their makers and by licensed practice"
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::{LeakTest, Reading, TestMethod};

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
        assert!(failed[0].message.contains("lost 0.5 bar more"), "{}", failed[0].message);
        let half = found(|test| test.hold_s = Some(30.0));
        assert_eq!(half[0].severity, Severity::Warn);
        assert!(half[0].message.contains("held for 30 s, and 60 s"), "{}", half[0].message);
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
