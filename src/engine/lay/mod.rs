//! How the hoses of an option really lie, held against solids, against each other and in every pose:
//! what is worked out on top of the drawn routes.

mod advice;
mod kept;
mod routing;

pub use advice::{LengthAdvice, MOST_SLACK_PCT, advise, advise_run};
pub use kept::Kept;
pub use routing::{RoutingLay, RunLay};

pub(super) use routing::{Drawn, ends_of};
