//! Pure answers about a bay: end frames, the drawn centre line, lengths, the clock angle, the marks
//! for the bench, clearances, flow and pressure drop, the cut list and the shopping list.
//!
//! [`solve`] takes a bay and gives a [`Solution`]; it reads no file, keeps no state and cannot
//! fail: whatever can be drawn is drawn and measured, and [`crate::checks`] finds fault with it.

mod as_made;
mod bench;
pub mod bend_table;
pub mod clearance;
pub mod compare;
pub mod cutting;
pub mod drain;
mod ends;
pub mod fittings;
pub mod flow;
pub mod installed;
pub mod lay;
pub mod leak_test;
pub mod lengths;
mod measure;
pub mod motion;
mod ports;
mod rating;
mod resolve;
mod route;
mod run_memo;
mod solution;
mod solve;
mod straights;

pub use as_made::{AsMade, as_made, corrected_ends};
pub use ends::end_frame;
pub use rating::{PartRating, ratings, weakest};
pub use resolve::{
    Missing, ResolvedEnd, ResolvedHose, end_kind, hose_kind, hose_of, resolve_end, resolve_hose,
};
pub use route::STRAIGHT_DIAMETERS;
pub use solution::{
    Bend, BendPlace, ClampMark, EndSolution, FreeSpan, RoutingSolution, RunSolution, Solution,
};
pub use solve::{Depth, Solver, solve, solve_routing, solve_run, solve_whole};
