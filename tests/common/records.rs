//! Random bench records, all valid.

use hosewright::model::{BenchRecord, LeakTest, Reading, TestMethod, TestResult};
use proptest::collection::vec;
use proptest::option::of;
use proptest::prelude::*;
use proptest::sample::select;

use super::{extra, length, text};

/// What was done on the bench: mostly nothing.
pub(crate) fn any_bench() -> impl Strategy<Value = BenchRecord> {
    let made = (text(), text(), text(), text(), [of(length(1.0, 3000.0)), of(length(1.0, 3000.0))]);
    let record = (made, vec(any_test(), 0..3), extra()).prop_map(
        |((lot, made_by, made_on, replace_by, [cut_mm, final_mm]), leak_tests, extra)| {
            BenchRecord { lot, made_by, made_on, replace_by, cut_mm, final_mm, leak_tests, extra }
        },
    );
    prop_oneof![3 => Just(BenchRecord::default()), 1 => record]
}

fn any_test() -> impl Strategy<Value = LeakTest> {
    let reading = || {
        (of(length(0.0, 300.0)), of(length(-40.0, 90.0)), extra())
            .prop_map(|(bar, temperature_c, extra)| Reading { bar, temperature_c, extra })
    };
    let said = (
        select(&TestMethod::ALL[..]),
        of(select(&TestResult::ALL[..])),
        of(any::<bool>()),
        text(),
        text(),
        text(),
    );
    let read = (reading(), reading(), of(length(0.0, 600.0)), of(length(0.0, 1.0)));
    (said, read, extra()).prop_map(
        |((method, result, leak_seen, on, by, notes), (before, after, hold_s, step), extra)| {
            LeakTest {
                method: method.0,
                result: result.map(|(result, _)| result),
                on,
                by,
                before,
                after,
                hold_s,
                gauge_step_bar: step,
                leak_seen,
                notes,
                extra,
            }
        },
    )
}
