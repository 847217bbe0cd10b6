//! How much a hydraulic brake hose may swell at most: a limit, not a value of any hose.

use crate::model::{Mark, Source};

/// Where [`brake_expansion_ml_per_m`] comes from. 49 CFR 571.106, Table I, has the same figures.
pub const SOURCE: Source =
    Source::fixed(Mark::Published, "MIL-DTL-13719G, Table III, regular expansion hose");

/// The pressure of the table's column, psi.
pub const AT_PSI: f64 = 1500.0;

/// Bore to, mm; free length swells by at most, cm³ a metre, at [`AT_PSI`]: 0.79, 1.02, 1.30 cm³ a foot.
const TABLE: [(f64, f64); 3] = [(3.2, 2.59), (5.0, 3.35), (f64::INFINITY, 4.27)];

/// By how much the free length of a brake hose of this bore may swell at [`AT_PSI`], cm³ a metre.
pub fn brake_expansion_ml_per_m(bore_mm: f64) -> f64 {
    TABLE.iter().find(|(to_mm, _)| bore_mm <= *to_mm).map_or(f64::NAN, |(_, ml_per_m)| *ml_per_m)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_by_its_own_feet() {
        // cm³ a foot, by MIL-DTL-13719G, Table III.
        for (bore_mm, cc_per_ft) in [(3.0, 0.79), (3.175, 0.79), (4.76, 1.02), (6.35, 1.30)] {
            assert!((brake_expansion_ml_per_m(bore_mm) - cc_per_ft / 0.3048).abs() < 0.01);
        }
    }
}
