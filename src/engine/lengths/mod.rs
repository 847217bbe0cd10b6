//! Acceptable cut lengths: those that meet every limit of a hose at once. The installed shape keeps its radius
//! and its clearances, and the hose reaches, shortened by pressure, in every position. One window, from
//! which the advice on length, the least slack for motion and what is recommended are taken.
//!
//! It takes longer than a frame, and is calculated when it is asked for.

mod advice;
mod bench;
mod ranges;
mod trial;

pub use advice::{
    LengthAdvice, NeededSlack, Recommended, advise, advise_run, needed_slacks, with_cut_length,
};
pub use bench::BenchStop;
pub(super) use bench::bench_stop;
pub use ranges::{Care, InchEffect, LengthRange, RangeScan, inch_effect, radius_ranges, ranges};
pub use trial::Stop;
