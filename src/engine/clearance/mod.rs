//! Clearance: how near hoses come to obstacles and to each other.
//!
//! A hose is a [`Tube`]: a chain of straights and arcs, whichever route it is, with an outside
//! diameter. **Gap**: surface to surface, the signed distance of the axis less half the outside
//! diameter; negative where they cut into each other. **Minimum clearance**: the gap to keep. Where the
//! outside diameter is not known the bore stands in, as everywhere, and `outside-not-known` says so.
//!
//! What counts:
//! - A run that leaves a port `on` a plain obstacle has to be near that obstacle: it counts, for this run, only
//!   from the first place, seen from that end, whose gap reaches the minimum clearance; if none does, from the
//!   socket's mouth on. So at both ends, each from its own. Cutting into it counts everywhere.
//! - Heat, movement and edges do harm to a hose beside its own port too: of a hot, moving or sharp obstacle the
//!   stretch from the socket's mouth to that first place is told apart ([`NearOwnPort`]), with its real gap.
//! - Two hoses whose ends sit on one port, or on neighbouring ports, have to be near each other there.
//!   The last stretches of both, each as far as the first place whose gap to the other hose reaches
//!   the hose clearance (if none does, as far as the socket's mouth), are not checked against each other; each
//!   counts against all the rest. *Neighbouring* are seats nearer to each other than two hoses side by
//!   side that keep the gap: half of both diameters and the gap. On neighbouring ports cutting into
//!   each other counts everywhere; on one port it cannot be helped.
//! - A hose is not checked against itself.

mod against_obstacles;
mod hoses;
mod obstacles;
mod own_port;
mod routing;
mod tube;

pub use against_obstacles::{NearObstacle, TubeClearance};
pub(in crate::engine) use hoses::PairsMemo;
pub use hoses::{HosePair, hose_pairs};
pub use obstacles::ClearanceIndex;
pub use own_port::NearOwnPort;
pub(in crate::engine) use own_port::tightest_with;
pub use routing::RoutingClearance;
pub use tube::{Tube, TubeEnd};

pub(super) use routing::{RunDrawn, end};
