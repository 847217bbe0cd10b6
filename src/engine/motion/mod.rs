//! How hoses lie while groups pivot and shift: in every position the ends ride with their groups, the cut
//! length stays, and the installed shape is solved again (contract §5).
//!
//! Clamps are fixed to the bay: the bay file gives them no group. A span's share of the hose stays
//! what it was in the position as drawn, for its clamps hold it.

mod positions;
mod run;

pub use positions::{Position, Positions};
pub use run::{Reach, RoutingMotion, RunMotion, RunPosition};

pub(super) use run::{Mover, index_in, of_routing};
