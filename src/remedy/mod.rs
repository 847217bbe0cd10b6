//! Changes that clear what was found: each is tried, solved and checked as a whole, before it is told.
//!
//! A hint that no one has tried sends a builder in circles: less slack pulls a hose tight, a clamp more bends
//! it. What is told here leaves a routing with fewer faults than it had (with as many and fewer warnings,
//! where it had no fault), so that following the first hint, again and again, comes to an end.

mod change;
mod hint;
mod places;
mod search;

pub use change::Change;
pub use hint::{hint, is_sought, tell};
pub use search::{Remedy, Sought, seek, seek_run};
