//! The installed shapes of a routing, checked against obstacles, against each other and in every position:
//! what is calculated on top of the drawn routes.

mod routing;

pub use routing::{RoutingLay, RunLay};

pub(super) use routing::{Drawn, ends_of, lay};
