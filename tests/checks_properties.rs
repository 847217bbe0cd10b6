//! What holds for the findings on every bay: finite, complete, of a listed rule, in order, the same
//! each time.

#[path = "common/bays.rs"]
mod bays;
mod common;

use bays::any_bay;
use hosewright::checks::{Finding, check, rule};
use hosewright::engine::solve_whole;
use proptest::prelude::*;

fn is_sound(finding: &Finding) -> Result<(), TestCaseError> {
    let rule = rule(finding.rule);
    prop_assert!(rule.is_some_and(|rule| finding.severity >= rule.severity), "{finding:?}");
    for figure in [finding.at_mm, finding.value, finding.limit].into_iter().flatten() {
        prop_assert!(figure.is_finite(), "{finding:?}");
    }
    prop_assert!(finding.point.is_none_or(glam::DVec3::is_finite), "{finding:?}");
    for text in [&finding.message, &finding.hint, &finding.source] {
        prop_assert!(!text.is_empty(), "{finding:?}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn findings_are_sound_and_the_same_each_time(bay in any_bay()) {
        for option in &bay.options {
            let solution = solve_whole(&bay, option);
            let found = check(&bay, option, &solution);
            for finding in &found {
                is_sound(finding)?;
            }
            prop_assert!(found.is_sorted_by_key(|finding| finding.severity));
            prop_assert_eq!(&found, &check(&bay, option, &solution));
        }
    }
}
