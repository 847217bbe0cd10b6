//! Changes that clear faults: each is tried, solved and checked as a whole before a hint names it.
//!
//! A hint that no one has tried sends a builder in circles: less slack pulls a hose tight, one clamp more bends
//! it. Every change named here leaves a routing with fewer faults (or as many, none, and fewer warnings), so
//! that following the first hint again and again comes to an end.

mod change;
mod hint;
mod places;
mod search;

pub use change::Change;
pub use hint::{hint, is_clearable, with_tried_hints};
pub use search::{Remedy, RemedySearch, search_routing, search_run};
