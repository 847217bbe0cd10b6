//! Why a thing landed where it did.

use glam::DVec3;

use super::offer::{Key, Kind};
use crate::app::canvas::thing::Thing;

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
