//! What was done on the bench.

use super::tree::{Entries, Tree};
use crate::model::{BenchRecord, LeakTest, Reading, TestResult};

pub(super) fn bench(record: &BenchRecord) -> Tree<'_> {
    Entries::new()
        .text("lot", &record.lot)
        .text("made_by", &record.made_by)
        .text("made_on", &record.made_on)
        .text("replace_by", &record.replace_by)
        .maybe("cut_mm", record.cut_mm)
        .maybe("final_mm", record.final_mm)
        .list("leak_tests", &record.leak_tests, test)
        .extra(&record.extra)
}

fn test(test: &LeakTest) -> Tree<'_> {
    Entries::new()
        .put("method", test.method.word())
        .maybe("result", test.result.map(TestResult::word))
        .text("on", &test.on)
        .text("by", &test.by)
        .section("before", reading(&test.before))
        .section("after", reading(&test.after))
        .maybe("hold_s", test.hold_s)
        .maybe("gauge_step_bar", test.gauge_step_bar)
        .maybe("leak_seen", test.leak_seen)
        .text("notes", &test.notes)
        .extra(&test.extra)
}

fn reading(reading: &Reading) -> Tree<'_> {
    Entries::new().maybe("bar", reading.bar).maybe("c", reading.temperature_c).extra(&reading.extra)
}
