//! The papers that a sheet is printed on.

use glam::DVec2;

use crate::units::LengthUnit;

/// A size of paper, upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    A4,
    /// 8 1/2 × 11 in (ANSI/ASME Y14.1, size A).
    Letter,
}

impl Paper {
    /// The paper usual where a unit is: Letter for inches, A4 for millimetres.
    pub fn usual_for(unit: LengthUnit) -> Self {
        match unit {
            LengthUnit::Inch => Self::Letter,
            LengthUnit::Mm => Self::A4,
        }
    }

    /// Width and height, mm.
    pub fn size_mm(self) -> DVec2 {
        match self {
            Self::A4 => DVec2::new(210.0, 297.0),
            Self::Letter => DVec2::new(215.9, 279.4),
        }
    }
}
