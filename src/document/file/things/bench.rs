//! What was done on the bench.

use crate::model::{BenchRecord, LeakTest, Reading, TestMethod, TestResult};

use super::keys::{Key, List, Maybe, Must, Part, Rest, lines};
use super::kind::{Flag, Words};
use super::quantity::Quantity;
use super::{Entries, Fields, Thing, thing};

const READING: &str = "a reading of gauge and thermometer: an object";

thing!(BenchRecord {
    lot: lines("lot"),
    made_by: lines("made_by"),
    made_on: lines("made_on"),
    replace_by: lines("replace_by"),
    cut_mm: Maybe("cut_mm", Quantity::SIZE),
    final_mm: Maybe("final_mm", Quantity::SIZE),
    leak_tests: List::new("leak_tests", "a test", "tests"),
    extra: Rest,
});

thing!(LeakTest {
    method: Must("method", Words(&TestMethod::ALL)),
    result: Maybe("result", Words(&TestResult::ALL)),
    on: lines("on"),
    by: lines("by"),
    before: Part("before", READING),
    after: Part("after", READING),
    hold_s: Maybe("hold_s", Quantity::SECONDS),
    gauge_step_bar: Maybe("gauge_step_bar", Quantity::GAUGE_STEP),
    leak_seen: Maybe("leak_seen", Flag),
    notes: lines("notes"),
    extra: Rest,
});

thing!(Reading {
    bar: Maybe("bar", Quantity::GAUGE),
    temperature_c: Maybe("c", Quantity::AIR_CELSIUS),
    extra: Rest,
});
