//! Shared by the test targets.
#![allow(
    dead_code,
    unreachable_pub,
    clippy::expect_used,
    reason = "each test target uses its own part"
)]

pub mod build;
pub mod xorshift;

use std::sync::Arc;

use hosewright::model::Bay;
use hosewright::report::answer::Answer;

/// All that follows from the first routing of a bay.
pub fn answer(bay: &Bay) -> Answer {
    Answer::of(Arc::new(bay.clone()), 0).expect("a routing")
}
