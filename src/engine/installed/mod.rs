//! How a hose really lies: gripped straight in sockets and clamps, and between them, span by span,
//! the shape of least bending energy for its length (contract §5).
//!
//! [`InstalledSolver`] solves one run; [`installed`] all runs of a routing side by side. [`ranges`] finds
//! the cut lengths that will do.

mod drawn;
mod holds;
mod ranges;
mod result;
mod solver;

pub use holds::{ClampHold, EndHold, Holds};
pub use ranges::{InchEffect, LengthRange, RangeScan, inch_effect, radius_ranges, ranges};
pub use result::{Bulge, InstalledRun, InstalledSpan, SpanNote, Tightest};
pub use solver::{CHAIN_ACCURACY_MM, InstalledSolver, Sketch, installed};

pub(super) use holds::held_spans;
