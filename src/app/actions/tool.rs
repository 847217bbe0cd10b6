//! The tools that the pointer takes up.

use eframe::egui::CursorIcon;

use crate::app::canvas::gesture::Hit;
use crate::app::canvas::thing::Thing;

/// What the pointer does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Tool {
    /// Selects, moves, pulls bends.
    #[default]
    Select,
    /// Puts down ports.
    Port,
    /// Pulls hoses from port to port.
    Hose,
    /// Puts clamps on hoses.
    Clamp,
    /// Draws obstacles.
    Obstacle,
    /// Measures.
    Measure,
}

impl Tool {
    /// What to do next, in a few words.
    pub fn advice(self) -> &'static str {
        match self {
            Self::Select => {
                "Drag a hose to pull a bend out of it, drag corners and clamps to move them, drag on paper to select several"
            }
            Self::Port => "Press where the seat is and drag the way the hose leaves",
            Self::Hose => "Press on a port and drag to another; or click port, corners, port",
            Self::Clamp => "Click a hose",
            Self::Obstacle => "Drag from corner to corner",
            Self::Measure => "Drag from one place to another",
        }
    }

    /// How the pointer looks.
    pub fn cursor(self, hit: Option<&Hit>) -> CursorIcon {
        let thing = hit.and_then(Hit::thing);
        match (self, hit, thing) {
            (Self::Select, _, Some(_)) => CursorIcon::Grab,
            (Self::Select, None, None) => CursorIcon::Default,
            (Self::Select, Some(Hit::Finding(_)), _)
            | (Self::Clamp, _, Some(Thing::Hose(_)))
            | (Self::Hose, _, Some(Thing::Port(_))) => CursorIcon::PointingHand,
            _ => CursorIcon::Crosshair,
        }
    }
}

/// The form that is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum ObstacleKind {
    /// From corner to corner.
    #[default]
    Box,
    /// Along its axis.
    Cylinder,
    /// From its middle out.
    Sphere,
}

impl ObstacleKind {
    /// All, with their words.
    pub const ALL: [(Self, &'static str); 3] =
        [(Self::Box, "Box"), (Self::Cylinder, "Cylinder"), (Self::Sphere, "Sphere")];
}
