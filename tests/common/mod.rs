//! Shared by the test targets.
#![allow(
    dead_code,
    unreachable_pub,
    clippy::expect_used,
    reason = "each test target uses its own part"
)]

pub mod build;
pub mod xorshift;
