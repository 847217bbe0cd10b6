//! Quantities: newtypes, parsing what people type, formatting, rounding up to the bench's step.

/// The one tolerance on lengths, mm: a value within it of a step or limit counts as on it.
pub const EPS_MM: f64 = 1e-6;

/// Units of length for display and for bare numbers. Stored numbers are always millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum LengthUnit {
    /// Inches, shown as fractions.
    Inch,
    /// Millimetres.
    #[default]
    Mm,
}
