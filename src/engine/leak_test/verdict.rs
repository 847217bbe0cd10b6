//! What a recorded leak test shows.

use super::{ATMOSPHERE_PA, proof_pressure};
use crate::engine::hose_of;
use crate::model::{Bay, Fluid, HoseSize, LeakTest, Run, Service, TestMethod, TestResult};
use crate::units::Pressure;

/// The air test of the nearest published one: 100 ± 5 psi for at least 60 s.
const AIR_TEST_PSI: f64 = 100.0;
/// See [`AIR_TEST_PSI`].
const AIR_TEST_TOLERANCE_PSI: f64 = 5.0;
/// A shorter hold shows nothing, s.
pub const LEAST_HOLD_S: f64 = 60.0;
/// Where the air test and the least hold come from.
pub const AIR_TEST_SOURCE: &str = "SB 740-94-8 (published)";

/// From degrees Celsius to kelvin.
const ZERO_C_IN_K: f64 = 273.15;
/// Arithmetic, bar: far below any gauge.
const EPS_BAR: f64 = 1e-9;

/// What a test, or none, shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TestState {
    /// No test is recorded.
    NotTested,
    /// It holds.
    Passed,
    /// It does not.
    Failed,
    /// What is recorded shows neither.
    Incomplete,
}

impl TestState {
    /// For reading.
    pub fn words(self) -> &'static str {
        match self {
            Self::NotTested => "not tested",
            Self::Passed => "test passed",
            Self::Failed => "TEST FAILED",
            Self::Incomplete => "test incomplete",
        }
    }

    /// For programs.
    pub fn key(self) -> &'static str {
        match self {
            Self::NotTested => "not-tested",
            Self::Passed => "passed",
            Self::Failed => "failed",
            Self::Incomplete => "incomplete",
        }
    }
}

/// Why a test shows what it shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TestReason {
    /// The tester says that it failed.
    SaidToFail,
    /// Bubbles kept coming, or drops were seen.
    LeakSeen,
    /// The pressure fell by so much more than is explained, bar.
    Lost(f64),
    /// Nobody wrote whether a leak was seen.
    NotWatched,
    /// A reading of the pressure is missing.
    NoReading,
    /// It was held for so long, s; none: not written down.
    HeldTooShort(Option<f64>),
    /// It stood at less than it should have, bar: what it stood at, and should have.
    TooLow(f64, f64),
    /// An air test stood at more than it may, bar: what it stood at, and may.
    TooHigh(f64, f64),
    /// There is no pressure to test at with this method.
    NoPressure(NoPressure),
}

/// Why a hose has no pressure to be tested at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoPressure {
    /// The working pressure is not given, and proof is twice that.
    WorkingNotGiven,
    /// The hose is rated for less than an air test.
    TooWeakForAir,
    /// Brakes and refrigerant: left to the manufacturer and licensed technicians.
    LeftToOthers,
}

/// What a test shows, and why.
#[derive(Debug, Clone, PartialEq)]
pub struct TestVerdict {
    /// What.
    pub state: TestState,
    /// Why it is no pass; empty where it is one.
    pub reasons: Vec<TestReason>,
    /// What the gauge should read at the end, bar, where both readings and, of air, both temperatures
    /// are known.
    pub expected_bar: Option<f64>,
    /// How much less it reads, bar.
    pub lost_bar: Option<f64>,
    /// Whether a change of temperature was allowed for.
    pub is_corrected: bool,
}

/// The pressure to test a hose of this service and size at: proof with liquid, or the hose's own proof
/// pressure where that is lower; with air, which stores far more, the published low one whatever the
/// hose works at.
///
/// # Errors
/// [`NoPressure`].
pub fn test_pressure(
    method: TestMethod,
    service: &Service,
    size: Option<&HoseSize>,
) -> Result<Pressure, NoPressure> {
    if matches!(service.fluid, Some(Fluid::BrakeFluid | Fluid::Refrigerant)) {
        return Err(NoPressure::LeftToOthers);
    }
    match method {
        TestMethod::Liquid => {
            let working = service.pressure_bar.ok_or(NoPressure::WorkingNotGiven)?;
            let proof = proof_pressure(Pressure::from_bar(working));
            let own = size.and_then(|size| size.proof_bar).map(Pressure::from_bar);
            Ok(own.filter(|own| *own < proof).unwrap_or(proof))
        }
        TestMethod::Air => {
            let air = Pressure::from_psi(AIR_TEST_PSI);
            let rating = size.and_then(|size| size.max_pressure_bar);
            if rating.is_some_and(|bar| bar < air.bar()) {
                return Err(NoPressure::TooWeakForAir);
            }
            Ok(air)
        }
    }
}

/// What the last leak test of a run shows.
pub fn tested(bay: &Bay, run: &Run) -> TestVerdict {
    judge(run.bench.last_test(), &run.service, size_of(bay, run))
}

/// The size of the hose of a run, where it is known.
pub fn size_of<'a>(bay: &'a Bay, run: &Run) -> Option<&'a HoseSize> {
    hose_of(bay, run).ok().map(|(_, size)| size)
}

/// What the gauge reads once air that is shut in has come from one temperature to another, bar: the
/// ideal gas at constant volume, `(p + pa) T₂/T₁ − pa` with the standard atmosphere.
fn air_after_bar(before_bar: f64, before_c: f64, after_c: f64) -> f64 {
    let atmosphere_bar = ATMOSPHERE_PA / 1e5;
    let ratio = (after_c + ZERO_C_IN_K) / (before_c + ZERO_C_IN_K);
    (before_bar + atmosphere_bar) * ratio - atmosphere_bar
}

/// What a test of a hose shows; none is not tested.
pub fn judge(test: Option<&LeakTest>, service: &Service, size: Option<&HoseSize>) -> TestVerdict {
    let Some(test) = test else { return verdict(TestState::NotTested, Vec::new(), None) };
    let fall = fall(test);
    let mut failed = Vec::new();
    if test.result == Some(TestResult::Fail) {
        failed.push(TestReason::SaidToFail);
    }
    if test.leak_seen == Some(true) {
        failed.push(TestReason::LeakSeen);
    }
    if let Some(fall) = fall
        && fall.lost_bar > test.gauge_step_bar.unwrap_or(0.0) + EPS_BAR
    {
        failed.push(TestReason::Lost(fall.lost_bar));
    }
    if !failed.is_empty() {
        return verdict(TestState::Failed, failed, fall);
    }
    let asked = test_pressure(test.method, service, size);
    let missing = missing(test, asked, fall.is_some());
    let state = if missing.is_empty() { TestState::Passed } else { TestState::Incomplete };
    verdict(state, missing, fall)
}

fn verdict(state: TestState, reasons: Vec<TestReason>, fall: Option<Fall>) -> TestVerdict {
    TestVerdict {
        state,
        reasons,
        expected_bar: fall.map(|fall| fall.expected_bar),
        lost_bar: fall.map(|fall| fall.lost_bar),
        is_corrected: fall.is_some_and(|fall| fall.is_corrected),
    }
}

/// What is not there, or not as it should be, to call it a pass.
fn missing(test: &LeakTest, asked: Result<Pressure, NoPressure>, is_read: bool) -> Vec<TestReason> {
    let mut missing = Vec::new();
    if test.leak_seen.is_none() {
        missing.push(TestReason::NotWatched);
    }
    if !is_read {
        missing.push(TestReason::NoReading);
    }
    if test.hold_s.is_none_or(|hold| hold < LEAST_HOLD_S) {
        missing.push(TestReason::HeldTooShort(test.hold_s));
    }
    let off = match test.method {
        TestMethod::Air => Pressure::from_psi(AIR_TEST_TOLERANCE_PSI).bar(),
        TestMethod::Liquid => 0.0,
    };
    match (asked.map(Pressure::bar), test.before.bar) {
        (Err(none), _) => missing.push(TestReason::NoPressure(none)),
        (Ok(asked), Some(bar)) if bar < asked - off - EPS_BAR => {
            missing.push(TestReason::TooLow(bar, asked));
        }
        (Ok(asked), Some(bar)) if test.method == TestMethod::Air && bar > asked + off + EPS_BAR => {
            missing.push(TestReason::TooHigh(bar, asked));
        }
        _ => {}
    }
    missing
}

#[derive(Clone, Copy)]
struct Fall {
    expected_bar: f64,
    lost_bar: f64,
    is_corrected: bool,
}

/// How far the pressure fell beyond what temperature explains. Liquid is not corrected: how much it
/// swells hangs on the liquid, the hose and every bubble left in it.
fn fall(test: &LeakTest) -> Option<Fall> {
    let (before, after) = (test.before.bar?, test.after.bar?);
    let temperatures = test.before.temperature_c.zip(test.after.temperature_c);
    let (expected_bar, is_corrected) = match (test.method, temperatures) {
        (TestMethod::Air, Some((from, to))) => (air_after_bar(before, from, to), true),
        _ => (before, false),
    };
    Some(Fall { expected_bar, lost_bar: expected_bar - after, is_corrected })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::{Reading, catalogue};

    fn size() -> HoseSize {
        catalogue::hoses()[0].sizes[0].clone()
    }

    fn reading(bar: f64, temperature_c: f64) -> Reading {
        Reading { bar: Some(bar), temperature_c: Some(temperature_c), ..Reading::default() }
    }

    fn air_test() -> LeakTest {
        LeakTest {
            method: TestMethod::Air,
            result: Some(TestResult::Pass),
            before: reading(6.9, 20.0),
            after: reading(6.9, 20.0),
            hold_s: Some(120.0),
            gauge_step_bar: Some(0.05),
            leak_seen: Some(false),
            ..LeakTest::default()
        }
    }

    fn state(test: &LeakTest) -> TestState {
        judge(Some(test), &Service::default(), None).state
    }

    #[test]
    fn without_a_test_nothing_is_claimed() {
        assert_eq!(judge(None, &Service::default(), None).state, TestState::NotTested);
    }

    /// 6.9 bar gauge at 20 °C, cooled to 10 °C: 7.91325 bar absolute · 283.15/293.15 = 7.6433 bar.
    #[test]
    fn what_cooling_explains_is_no_loss() {
        let after = air_after_bar(6.9, 20.0, 10.0);
        assert!((after - 6.630_06).abs() < 1e-4, "{after}");
        let mut test = air_test();
        test.after = reading(6.63, 10.0);
        let found = judge(Some(&test), &Service::default(), None);
        assert_eq!((found.state, found.is_corrected), (TestState::Passed, true));
        // The same fall without the cold is a leak, and so is more of it.
        test.after = reading(6.63, 20.0);
        let found = judge(Some(&test), &Service::default(), None);
        assert_eq!(found.state, TestState::Failed);
        assert!(
            matches!(found.reasons[..], [TestReason::Lost(lost)] if (lost - 0.27).abs() < 1e-9)
        );
        test.after = reading(6.55, 10.0);
        assert_eq!(state(&test), TestState::Failed);
        // Warmed air that reads the same has lost some.
        test.after = reading(6.9, 30.0);
        assert_eq!(state(&test), TestState::Failed);
    }

    #[test]
    fn a_fall_within_a_step_of_the_gauge_is_not_seen() {
        let mut test = air_test();
        test.after = reading(6.85, 20.0);
        assert_eq!(state(&test), TestState::Passed);
        test.gauge_step_bar = None;
        assert_eq!(state(&test), TestState::Failed, "read exactly, it is a fall");
    }

    #[test]
    fn a_leak_that_was_seen_fails_whatever_the_gauge_and_the_tester_say() {
        assert_eq!(state(&LeakTest { leak_seen: Some(true), ..air_test() }), TestState::Failed);
        let said = LeakTest { result: Some(TestResult::Fail), ..air_test() };
        assert_eq!(state(&said), TestState::Failed);
    }

    #[test]
    fn what_is_not_written_down_shows_nothing() {
        let base = air_test;
        for test in [
            LeakTest { leak_seen: None, ..base() },
            LeakTest { hold_s: None, ..base() },
            LeakTest { hold_s: Some(59.0), ..base() },
            LeakTest { after: Reading::default(), ..base() },
            LeakTest { before: reading(6.5, 20.0), after: reading(6.5, 20.0), ..base() },
            LeakTest { before: reading(7.3, 20.0), after: reading(7.3, 20.0), ..base() },
        ] {
            assert_eq!(state(&test), TestState::Incomplete, "{test:?}");
        }
    }

    #[test]
    fn with_liquid_it_is_proof_pressure_that_counts() {
        let bar = |bar: f64| Reading { bar: Some(bar), ..Reading::default() };
        let test = |at: f64| LeakTest {
            method: TestMethod::Liquid,
            before: bar(at),
            after: bar(at),
            ..air_test()
        };
        let service = Service { pressure_bar: Some(10.0), ..Service::default() };
        assert_eq!(judge(Some(&test(20.0)), &service, None).state, TestState::Passed);
        let low = judge(Some(&test(19.0)), &service, None);
        assert_eq!(low.reasons, [TestReason::TooLow(19.0, 20.0)]);
        let own = HoseSize { proof_bar: Some(15.0), ..size() };
        let weak = judge(Some(&test(15.0)), &service, Some(&own));
        assert_eq!(weak.state, TestState::Passed, "the hose's own proof pressure is lower");
        let unknown = judge(Some(&test(20.0)), &Service::default(), None);
        assert_eq!(unknown.reasons, [TestReason::NoPressure(NoPressure::WorkingNotGiven)]);
    }

    #[test]
    fn no_air_for_a_weak_hose_and_neither_for_what_is_left_to_others() {
        let pressure = |fluid, max_pressure_bar| {
            let service = Service { fluid, ..Service::default() };
            let size = HoseSize { max_pressure_bar, ..size() };
            test_pressure(TestMethod::Air, &service, Some(&size)).map(|air| air.psi().round())
        };
        assert_eq!(pressure(None, None), Ok(100.0));
        assert_eq!(pressure(None, Some(6.9)), Ok(100.0));
        assert_eq!(pressure(None, Some(5.0)), Err(NoPressure::TooWeakForAir));
        for fluid in [Fluid::BrakeFluid, Fluid::Refrigerant] {
            assert_eq!(pressure(Some(fluid), Some(200.0)), Err(NoPressure::LeftToOthers));
        }
        let weak = HoseSize { max_pressure_bar: Some(5.0), ..size() };
        let found = judge(Some(&air_test()), &Service::default(), Some(&weak));
        assert_eq!(found.reasons, [TestReason::NoPressure(NoPressure::TooWeakForAir)]);
    }
}
