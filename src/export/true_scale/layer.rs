//! The layers and how their lines look; all tell apart without colour.

use crate::drawing::{Dash, Shade};
use crate::model::Nature;

/// What a shape is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layer {
    /// Obstacles that are simply there.
    ObstaclesPlain,
    /// Hot obstacles.
    ObstaclesHot,
    /// Moving obstacles.
    ObstaclesMoving,
    /// Sharp obstacles.
    ObstaclesSharp,
    /// Where the hoses' sides may not come.
    MinClearance,
    /// Hoses at their outside diameter.
    HoseSides,
    /// Axes of the end fittings, from seat to hose.
    Ends,
    /// the installed shape of the hoses: their centre lines.
    Installed,
    /// Drawn centre lines.
    Hoses,
    /// Clamps.
    Clamps,
    /// Seats.
    Ports,
    /// What must be fixed or looked at.
    Findings,
    /// Names and the title.
    Text,
}

/// How the lines of a layer look.
pub(super) struct Look {
    /// Times the thinnest line.
    pub(super) width: f64,
    pub(super) dash: Dash,
    pub(super) shade: Shade,
    /// The colour number of the DXF layer: 1 red, 5 blue, 6 magenta, 7 black or white, 8 grey (the
    /// numbers of the format, from memory).
    pub(super) colour: u8,
}

impl Layer {
    /// All, from back to front.
    pub const ALL: [Self; 13] = [
        Self::ObstaclesPlain,
        Self::ObstaclesHot,
        Self::ObstaclesMoving,
        Self::ObstaclesSharp,
        Self::MinClearance,
        Self::HoseSides,
        Self::Ends,
        Self::Installed,
        Self::Hoses,
        Self::Clamps,
        Self::Ports,
        Self::Findings,
        Self::Text,
    ];

    /// Its name in the file.
    pub fn name(self) -> &'static str {
        match self {
            Self::ObstaclesPlain => "OBSTACLES_PLAIN",
            Self::ObstaclesHot => "OBSTACLES_HOT",
            Self::ObstaclesMoving => "OBSTACLES_MOVING",
            Self::ObstaclesSharp => "OBSTACLES_SHARP",
            Self::MinClearance => "MIN_CLEARANCE",
            Self::HoseSides => "HOSE_SIDES",
            Self::Ends => "ENDS",
            Self::Installed => "LIE",
            Self::Hoses => "HOSES",
            Self::Clamps => "CLAMPS",
            Self::Ports => "PORTS",
            Self::Findings => "FINDINGS",
            Self::Text => "TEXT",
        }
    }

    pub(super) fn of_obstacle(nature: Nature) -> Self {
        match nature {
            Nature::Plain => Self::ObstaclesPlain,
            Nature::Hot => Self::ObstaclesHot,
            Nature::Moving => Self::ObstaclesMoving,
            Nature::Sharp => Self::ObstaclesSharp,
        }
    }

    pub(super) fn look(self) -> Look {
        let (width, dash, shade, colour) = match self {
            Self::ObstaclesPlain => (1.3, Dash::Obstacle, Shade::Soft, 8),
            Self::ObstaclesHot => (2.5, Dash::Obstacle, Shade::Soft, 1),
            Self::ObstaclesMoving => (1.8, Dash::Dashed, Shade::Soft, 5),
            Self::ObstaclesSharp => (2.5, Dash::Dashed, Shade::Soft, 5),
            Self::MinClearance => (1.2, Dash::Dotted, Shade::Soft, 8),
            Self::HoseSides | Self::Ports => (2.0, Dash::Obstacle, Shade::Ink, 7),
            Self::Ends => (3.0, Dash::Obstacle, Shade::Ink, 7),
            Self::Installed => (1.5, Dash::Dashed, Shade::Accent, 6),
            Self::Hoses => (1.0, Dash::DashDot, Shade::Ink, 7),
            Self::Clamps => (2.5, Dash::Obstacle, Shade::Ink, 7),
            Self::Findings => (2.5, Dash::Obstacle, Shade::Fail, 1),
            Self::Text => (0.7, Dash::Obstacle, Shade::Ink, 7),
        };
        Look { width, dash, shade, colour }
    }
}
