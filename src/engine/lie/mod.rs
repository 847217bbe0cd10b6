//! How a hose really lies: gripped straight in sockets and clamps, and between them, span by span,
//! the shape of least bending energy for its length (contract §5).
//!
//! [`LieSolver`] solves one run; [`lies`] all runs of an option side by side. [`ranges`] finds
//! the cut lengths that will do.

mod drawn;
mod holds;
mod ranges;
mod result;
mod solver;

pub use holds::{ClampHold, EndHold, Holds};
pub use ranges::{InchEffect, LengthRange, RangeScan, inch_effect, radius_ranges, ranges};
pub use result::{Bulge, RunLie, SpanLie, SpanNote, Tightest};
pub use solver::{CHAIN_ACCURACY_MM, LieSolver, Sketch, lies};

pub(super) use holds::held_spans;
