//! What is done with the pointer in a view, and on what.

use glam::DVec2;

use super::camera::View;
use super::thing::Thing;

/// Something under the pointer.
#[derive(Debug, Clone, PartialEq)]
pub enum Hit {
    /// A thing of the bay.
    Thing {
        /// Which.
        thing: Thing,
        /// Where on it: for a hose, how far along its drawn centre line, mm.
        along_mm: Option<f64>,
    },
    /// A finding, by its place in the list.
    Finding(usize),
}

impl Hit {
    /// The thing.
    pub fn thing(&self) -> Option<&Thing> {
        match self {
            Self::Thing { thing, .. } => Some(thing),
            Self::Finding(_) => None,
        }
    }
}

/// What was done with the pointer in a view.
#[derive(Debug, Clone, PartialEq)]
pub struct Gesture {
    /// What.
    pub kind: Kind,
    /// In which view.
    pub view: View,
    /// Where, in the plane of the view, mm.
    pub at: DVec2,
    /// Where on the screen.
    pub on_screen: DVec2,
    /// What is there.
    pub hit: Option<Hit>,
    /// The hose nearest to where a drag begins, and how far along its drawn centre line, mm.
    pub near_hose: Option<(String, f64)>,
    /// Screen points a millimetre.
    pub points_per_mm: f64,
    /// Shift: adds to what is selected.
    pub adds: bool,
    /// Alt or Ctrl: nothing snaps.
    pub free: bool,
}

/// The kinds of gesture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// The button was pressed here and the pointer has moved on.
    Begin,
    /// The pointer is dragged, or moves without a button while something is being drawn.
    Move,
    /// The button was released.
    End,
    /// Pressed and released without moving.
    Click,
    /// Twice in a row.
    DoubleClick,
}
