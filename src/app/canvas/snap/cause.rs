//! Why a thing landed where it did.

use glam::DVec3;

use super::offer::Key;
use crate::app::canvas::thing::Thing;

/// What decided a coordinate, or both. In the order of precedence where two are equally near.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// The route runs straight on.
    Tangent,
    /// A right angle, half of one, or along an axis.
    Square,
    /// The axis of a port.
    PortAxis,
    /// A coordinate of another thing.
    Align,
    /// A whole cut length.
    CutLength,
    /// The grid.
    Grid,
}

/// A cause, to be shown.
#[derive(Debug, Clone, PartialEq)]
pub struct Cause {
    /// Which snapper.
    pub kind: Kind,
    /// What a builder would say: "level with Filter, outlet".
    pub words: String,
    /// Lines that show it, in the bay: from and to.
    pub guides: Vec<[DVec3; 2]>,
    /// What was snapped to, where it can be selected.
    pub target: Option<Thing>,
    /// Tells whether it is the same cause as before.
    pub(super) key: Key,
}
