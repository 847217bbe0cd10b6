//! What is wrong, or wants looking at: one rule a file, each from a bay and its solution to
//! [`Finding`]s.

mod finding;

pub use finding::{Finding, Severity, Unit};
