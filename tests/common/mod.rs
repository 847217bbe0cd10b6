//! Shared by the test targets.
#![allow(dead_code, unreachable_pub, reason = "each test target uses its own part")]

pub mod build;
