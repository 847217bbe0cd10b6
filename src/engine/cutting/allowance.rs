//! What a cut takes. The one place for the defaults.

use crate::model::tolerance;
use crate::model::{HoseSize, Mark, Source};
use crate::units::LengthUnit;

/// What one cut takes away, mm: 3 mm, or 1/8 in where inches are shown, so that what is calculated with
/// is what is read ([`KERF_SOURCE`]).
pub const fn default_kerf_mm(unit: LengthUnit) -> f64 {
    match unit {
        LengthUnit::Mm => 3.0,
        LengthUnit::Inch => 25.4 / 8.0,
    }
}

/// Where [`default_kerf_mm`] comes from.
pub const KERF_SOURCE: Source = Source::fixed(
    Mark::Practice,
    "the most that a thin cut-off wheel takes; a shear takes nothing",
);

/// Where the trim allowance comes from where none is given.
pub const TRIM_SOURCE: Source = tolerance::SQUARE_CUT;

/// The bore up to which the wider step of the square-cut table goes, mm: what is taken where the bore
/// is not known or beyond the table.
const WIDEST_BORE_MM: f64 = 50.8;

/// What is allowed for each cut.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Allowances {
    /// What one cut takes away, mm; where absent, [`default_kerf_mm`].
    pub kerf_mm: Option<f64>,
    /// What each piece is cut longer, mm, so that an end out of square can be dressed; where absent,
    /// as far as a cut of this bore may be out of square ([`TRIM_SOURCE`]).
    pub trim_mm: Option<f64>,
}

impl Allowances {
    /// The kerf in force, mm.
    pub fn kerf_in_force_mm(&self, unit: LengthUnit) -> f64 {
        self.kerf_mm.unwrap_or(default_kerf_mm(unit))
    }

    /// The trim allowance in force for a hose of this size, mm.
    pub fn trim_for(&self, size: Option<&HoseSize>) -> f64 {
        let by_bore = || {
            let bore = size.and_then(|size| size.bore_mm).unwrap_or(WIDEST_BORE_MM);
            tolerance::square_cut_tolerance_mm(bore)
                .or_else(|| tolerance::square_cut_tolerance_mm(WIDEST_BORE_MM))
                .unwrap_or(0.0)
        };
        self.trim_mm.unwrap_or_else(by_bore)
    }
}
