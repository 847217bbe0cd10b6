//! What was done on the bench.

use crate::model::{BenchRecord, LeakTest, Reading, TestMethod, TestResult};

use super::cursor::{At, Fields};
use super::kind::{Flag, Lines, Words};
use super::quantity::Quantity;

pub(super) fn read_bench(at: &At<'_>) -> BenchRecord {
    let f = at.fields("what was done on the bench: an object");
    BenchRecord {
        lot: text(&f, "lot"),
        made_by: text(&f, "made_by"),
        made_on: text(&f, "made_on"),
        replace_by: text(&f, "replace_by"),
        cut_mm: f.maybe("cut_mm", &Quantity::SIZE),
        final_mm: f.maybe("final_mm", &Quantity::SIZE),
        leak_tests: f.objects("leak_tests", "a list of tests", "a test: an object", read_test),
        extra: f.extra(),
    }
}

fn read_test(f: &Fields<'_>) -> LeakTest {
    LeakTest {
        method: f.must("method", &Words(&TestMethod::ALL)).unwrap_or_default(),
        result: f.maybe("result", &Words(&TestResult::ALL)),
        on: text(f, "on"),
        by: text(f, "by"),
        before: f.get("before", read_reading).unwrap_or_default(),
        after: f.get("after", read_reading).unwrap_or_default(),
        hold_s: f.maybe("hold_s", &Quantity::SECONDS),
        gauge_step_bar: f.maybe("gauge_step_bar", &Quantity::GAUGE_STEP),
        leak_seen: f.maybe("leak_seen", &Flag),
        notes: text(f, "notes"),
        extra: f.extra(),
    }
}

fn read_reading(at: &At<'_>) -> Reading {
    let f = at.fields("a reading of gauge and thermometer: an object");
    Reading {
        bar: f.maybe("bar", &Quantity::GAUGE),
        temperature_c: f.maybe("c", &Quantity::AIR_CELSIUS),
        extra: f.extra(),
    }
}

fn text(f: &Fields<'_>, key: &'static str) -> String {
    f.maybe(key, &Lines).unwrap_or_default()
}
