//! The layers and how their lines look; all tell apart without colour.

use crate::export::drawing::{Dash, Shade};
use crate::model::Nature;

/// What a shape is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layer {
    /// Solids that are simply there.
    SolidsPlain,
    /// Hot solids.
    SolidsHot,
    /// Moving solids.
    SolidsMoving,
    /// Sharp solids.
    SolidsSharp,
    /// Where the hoses' sides may not come.
    KeepOff,
    /// Hoses at their outside diameter.
    HoseSides,
    /// Axes of the end fittings, from seat to hose.
    Ends,
    /// How the hoses will really lie: their centre lines.
    Lie,
    /// Drawn centre lines.
    Hoses,
    /// Clamps.
    Clamps,
    /// Seats.
    Ports,
    /// What must be mended or looked at.
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
        Self::SolidsPlain,
        Self::SolidsHot,
        Self::SolidsMoving,
        Self::SolidsSharp,
        Self::KeepOff,
        Self::HoseSides,
        Self::Ends,
        Self::Lie,
        Self::Hoses,
        Self::Clamps,
        Self::Ports,
        Self::Findings,
        Self::Text,
    ];

    /// Its name in the file.
    pub fn name(self) -> &'static str {
        match self {
            Self::SolidsPlain => "SOLIDS_PLAIN",
            Self::SolidsHot => "SOLIDS_HOT",
            Self::SolidsMoving => "SOLIDS_MOVING",
            Self::SolidsSharp => "SOLIDS_SHARP",
            Self::KeepOff => "KEEP_OFF",
            Self::HoseSides => "HOSE_SIDES",
            Self::Ends => "ENDS",
            Self::Lie => "LIE",
            Self::Hoses => "HOSES",
            Self::Clamps => "CLAMPS",
            Self::Ports => "PORTS",
            Self::Findings => "FINDINGS",
            Self::Text => "TEXT",
        }
    }

    pub(super) fn of_solid(nature: Nature) -> Self {
        match nature {
            Nature::Plain => Self::SolidsPlain,
            Nature::Hot => Self::SolidsHot,
            Nature::Moving => Self::SolidsMoving,
            Nature::Sharp => Self::SolidsSharp,
        }
    }

    pub(super) fn look(self) -> Look {
        let (width, dash, shade, colour) = match self {
            Self::SolidsPlain => (1.3, Dash::Solid, Shade::Soft, 8),
            Self::SolidsHot => (2.5, Dash::Solid, Shade::Soft, 1),
            Self::SolidsMoving => (1.8, Dash::Dashed, Shade::Soft, 5),
            Self::SolidsSharp => (2.5, Dash::Dashed, Shade::Soft, 5),
            Self::KeepOff => (1.2, Dash::Dotted, Shade::Soft, 8),
            Self::HoseSides | Self::Ports => (2.0, Dash::Solid, Shade::Ink, 7),
            Self::Ends => (3.0, Dash::Solid, Shade::Ink, 7),
            Self::Lie => (1.5, Dash::Dashed, Shade::Accent, 6),
            Self::Hoses => (1.0, Dash::DashDot, Shade::Ink, 7),
            Self::Clamps => (2.5, Dash::Solid, Shade::Ink, 7),
            Self::Findings => (2.5, Dash::Solid, Shade::Fail, 1),
            Self::Text => (0.7, Dash::Solid, Shade::Ink, 7),
        };
        Look { width, dash, shade, colour }
    }
}
