//! Tolerances of the bench: cut length, square cut, clock angle. The one place for them.

use super::{Mark, Source};
use crate::units::{EPS_MM, Length};

/// Where [`cut_length_tolerance_mm`] comes from.
pub const CUT_LENGTH: Source = Source::fixed(Mark::Published, "RMA/IP-2, Table 4-8");
/// Where [`square_cut_tolerance_mm`] comes from.
pub const SQUARE_CUT: Source = Source::fixed(Mark::Published, "RMA/IP-2, Table 4-8");
/// Where [`clock_tolerance_deg`] comes from.
pub const CLOCK: Source = Source::fixed(Mark::Published, "MIL-DTL-83796/5");
/// Where [`clock_tolerance_army_deg`] comes from; it is wider, so show both.
pub const CLOCK_ARMY: Source = Source::fixed(Mark::Published, "Army TM 1-1500-204-23-2");

/// Length to, in; ± in. RMA/IP-2, Table 4-8.
const CUT_STEPS_IN: [(f64, f64); 5] =
    [(12.0, 0.125), (24.0, 0.188), (36.0, 0.250), (48.0, 0.375), (72.0, 0.500)];
/// Beyond the last step, share of the length (same table).
const CUT_BEYOND: f64 = 0.01;

/// Bore to, in; out of square, in. RMA/IP-2, Table 4-8.
const SQUARE_STEPS_IN: [(f64, f64); 2] = [(0.75, 0.063), (2.0, 0.125)];

/// Cut length, ±, of a hose of this cut length ([`CUT_LENGTH`]).
pub fn cut_length_tolerance_mm(length_mm: f64) -> f64 {
    step_mm(&CUT_STEPS_IN, length_mm).unwrap_or(CUT_BEYOND * length_mm)
}

/// How far out of square a cut may be on a hose of this bore ([`SQUARE_CUT`]); none above 2 in,
/// where the table ends.
pub fn square_cut_tolerance_mm(bore_mm: f64) -> Option<f64> {
    step_mm(&SQUARE_STEPS_IN, bore_mm)
}

/// Clock angle between two elbows, ±, of an assembly of this length ([`CLOCK`]): 3° to 24 in, 5°
/// above.
pub fn clock_tolerance_deg(length_mm: f64) -> f64 {
    if within(length_mm, 24.0) { 3.0 } else { 5.0 }
}

/// The same by [`CLOCK_ARMY`]: 5° to 36 in, 10° above.
pub fn clock_tolerance_army_deg(length_mm: f64) -> f64 {
    if within(length_mm, 36.0) { 5.0 } else { 10.0 }
}

fn step_mm(steps_in: &[(f64, f64)], mm: f64) -> Option<f64> {
    steps_in
        .iter()
        .find(|(to_in, _)| within(mm, *to_in))
        .map(|(_, tolerance)| Length::from_inches(*tolerance).mm())
}

fn within(mm: f64, limit_in: f64) -> bool {
    mm <= Length::from_inches(limit_in).mm() + EPS_MM
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_holds_to_its_end() {
        assert_eq!(cut_length_tolerance_mm(12.0 * 25.4), 0.125 * 25.4);
        assert_eq!(cut_length_tolerance_mm(12.0 * 25.4 + 0.001), 0.188 * 25.4);
        assert_eq!(cut_length_tolerance_mm(72.0 * 25.4), 0.5 * 25.4);
        assert_eq!(cut_length_tolerance_mm(2000.0), 20.0);
        assert_eq!(square_cut_tolerance_mm(60.0), None);
        assert_eq!((clock_tolerance_deg(609.6), clock_tolerance_deg(609.7)), (3.0, 5.0));
        assert_eq!((clock_tolerance_army_deg(914.4), clock_tolerance_army_deg(914.5)), (5.0, 10.0));
    }
}
