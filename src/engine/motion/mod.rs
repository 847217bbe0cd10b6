//! How hoses lie while bodies rock and shift: in every pose the ends ride with their bodies, the cut
//! length stays, and the lie is solved again (contract §5).
//!
//! Clamps are fixed to the bay: the bay file gives them no body. A span's share of the hose stays
//! what it was in the neutral pose, for its clamps hold it.

mod needed_slack;
mod poses;
mod run;

pub use needed_slack::{NeededSlack, Stop};
pub use poses::{MOST_COMBINATIONS, Pose, Poses};
pub use run::{Reach, RoutingMotion, RunMotion, RunPose, holds_in};

pub(super) use needed_slack::needed_slack;
pub(super) use run::of_routing;
