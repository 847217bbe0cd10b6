//! What was done on the bench with one hose, as its builder wrote it down.

use super::Extra;

/// The record of one assembly.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BenchRecord {
    /// Lot of the hose it was cut from.
    pub lot: String,
    /// Who made it.
    pub made_by: String,
    /// The day, as it was written.
    pub made_on: String,
    /// The day to replace the hose by, as it was written.
    pub replace_by: String,
    /// The length to which it was really cut.
    pub cut_mm: Option<f64>,
    /// The finished assembly from seat centre to seat centre, measured along the hose laid straight.
    pub final_mm: Option<f64>,
    /// Leak tests in the order in which they were made; the last counts.
    pub leak_tests: Vec<LeakTest>,
    /// Unknown keys.
    pub extra: Extra,
}

impl BenchRecord {
    /// The test that counts.
    pub fn last_test(&self) -> Option<&LeakTest> {
        self.leak_tests.last()
    }
}

/// One leak test.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LeakTest {
    /// With what it was filled.
    pub method: TestMethod,
    /// What the tester says of it.
    pub result: Option<TestResult>,
    /// The day, as it was written.
    pub on: String,
    /// Who tested.
    pub by: String,
    /// The gauge when the pressure stood.
    pub before: Reading,
    /// The gauge at the end.
    pub after: Reading,
    /// How long it was held, s.
    pub hold_s: Option<f64>,
    /// The finest step the gauge was read to, bar.
    pub gauge_step_bar: Option<f64>,
    /// Whether bubbles kept coming, or drops were seen.
    pub leak_seen: Option<bool>,
    /// Remarks.
    pub notes: String,
    /// Unknown keys.
    pub extra: Extra,
}

/// A gauge and a thermometer, read together.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Reading {
    /// Gauge pressure.
    pub bar: Option<f64>,
    /// Of the hose and what is in it.
    pub temperature_c: Option<f64>,
    /// Unknown keys.
    pub extra: Extra,
}

/// With what a hose is filled to be tested.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum TestMethod {
    /// Filled with liquid, bled of air.
    #[default]
    Liquid,
    /// Air, the hose under water.
    Air,
}

impl TestMethod {
    /// All, with the word of the bay file.
    pub const ALL: [(Self, &'static str); 2] = [(Self::Liquid, "liquid"), (Self::Air, "air")];
}

/// What a tester says of a test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TestResult {
    /// It held.
    Pass,
    /// It did not.
    Fail,
}

impl TestResult {
    /// All, with the word of the bay file.
    pub const ALL: [(Self, &'static str); 2] = [(Self::Pass, "pass"), (Self::Fail, "fail")];
}
