//! What a hose that swells under pressure stores.

use crate::model::HoseSize;
use crate::units::Pressure;

/// Where [`swelling_energy_j`] comes from.
pub const SWELLING_SOURCE: &str = "½ p ΔV, the expansion taken in proportion to the pressure";

/// Energy stored by a hose that swells by `ml_per_m` under `at`, at another pressure, J: `½ p ΔV` with
/// `ΔV` in proportion to the pressure. 0 without pressure.
pub fn swelling_energy_j(ml_per_m: f64, at: Pressure, length_mm: f64, gauge: Pressure) -> f64 {
    let bar = gauge.bar().max(0.0);
    let swollen_m3 = ml_per_m * 1e-6 * (length_mm / 1000.0) * bar / at.bar();
    0.5 * bar * 1e5 * swollen_m3
}

/// The same by what the manufacturer gives for the size; none where he gives nothing.
pub fn swelling_of_size_j(size: &HoseSize, length_mm: f64, gauge: Pressure) -> Option<f64> {
    let at = size.expansion_at_bar.filter(|bar| *bar > 0.0)?;
    Some(swelling_energy_j(size.expansion_ml_per_m?, Pressure::from_bar(at), length_mm, gauge))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 0.5 cm³ a metre at 100 bar; 2 m at 200 bar swell by 2 cm³: `½ · 20 MPa · 2e-6 m³ = 20 J`.
    #[test]
    fn what_the_swelling_hose_stores_by_hand() {
        let energy = |bar| {
            swelling_energy_j(0.5, Pressure::from_bar(100.0), 2000.0, Pressure::from_bar(bar))
        };
        assert!((energy(200.0) - 20.0).abs() < 1e-9);
        assert!((energy(100.0) - 5.0).abs() < 1e-9);
        assert_eq!(energy(-0.2), 0.0);
    }
}
