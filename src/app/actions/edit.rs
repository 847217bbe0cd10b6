//! Changes of the bay that are asked for in words.

use glam::DVec2;

use crate::app::canvas::camera::View;
use crate::app::canvas::thing::Thing;
use crate::model::Nature;

/// A change asked for.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs, reason = "the names say it; fields are those of the things they name")]
pub enum Edit {
    /// Takes out what is selected.
    Delete,
    Duplicate,
    /// Remembers what is selected.
    Copy,
    /// Puts in again what was copied.
    Paste,
    Mirror {
        copy: bool,
    },
    /// Begins a hose on a port.
    HoseFrom(String),
    AddPort {
        view: View,
        at: DVec2,
    },
    AddCorner {
        run: String,
        at_mm: f64,
    },
    AddClamp {
        run: String,
        at_mm: f64,
    },
    /// A corner becomes a clamp, a clamp a corner.
    TurnVia {
        run: String,
        via: usize,
    },
    SwapEnds(String),
    SetNature(String, Nature),
    /// Locks the selected ports and obstacles against the pointer, or unlocks them.
    SetLocked(bool),
    /// Puts the selected ports and obstacles on a new group that pivots.
    NewGroup,
    /// Puts them on a group, or fixes them to the bay.
    PutOn(Option<String>),
    /// Opens the little box to type a name in.
    Rename(Thing),
    /// The name that was typed there.
    Renamed(Thing, String),
    /// Closes it.
    StopRenaming,
}
