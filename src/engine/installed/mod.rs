//! The installed shape of a hose: gripped straight in sockets and clamps, and between them, span by span,
//! the shape of least bending energy for its length (contract §5).
//!
//! [`InstalledSolver`] solves one run; [`installed`] all runs of a routing side by side. [`super::lengths`] finds
//! the acceptable cut lengths.

mod drawn;
mod holds;
mod result;
mod solver;

pub use holds::{ClampHold, EndHold, Holds};
pub use result::{Bulge, InstalledRun, InstalledSpan, SpanNote, Tightest};
pub use solver::{CHAIN_ACCURACY_MM, InstalledSolver, Sketch, installed};

pub(super) use holds::held_spans;
