//! At which pressure hot water and coolant boil.

use crate::model::{Fluid, Mark, Source};

/// Mean pressure of the air at sea level, bar, exactly (standard atmosphere).
pub const ATMOSPHERE_BAR: f64 = 1.013_25;

/// How its figures are known.
pub const WATER: Source = Source::fixed(
    Mark::Published,
    "saturation pressure of water: IAPWS SR1-86 (Wagner and Pruss); at sea level",
);
/// The same of coolant.
pub const COOLANT: Source = Source::fixed(
    Mark::Calculated,
    "saturation pressure of 50 vol-% ethylene glycol by Raoult's law, water by IAPWS SR1-86, glycol by Antoine's \
     equation with constants from memory; ±2 °C; at sea level",
);

/// Mole fraction of water in 50 vol-% ethylene glycol (52.7 mass-%).
const WATER_IN_COOLANT: f64 = 0.7555;

/// Temperatures that this answers for, °C.
const RANGE_C: [f64; 2] = [0.0, 150.0];

/// The gauge pressure at or below which a liquid boils, at sea level, and where that comes from. None for a
/// liquid that is not known, or outside `RANGE_C`.
pub fn boils_at_bar(fluid: &Fluid, celsius: f64) -> Option<(f64, Source)> {
    let [from, to] = RANGE_C;
    if !(from..=to).contains(&celsius) {
        return None;
    }
    let (absolute, source) = match fluid {
        Fluid::Water => (water_bar(celsius), WATER),
        Fluid::Coolant => (coolant_bar(celsius), COOLANT),
        _ => return None,
    };
    Some((absolute - ATMOSPHERE_BAR, source))
}

/// The temperature at which it boils at a gauge pressure; none outside `RANGE_C`.
pub fn boiling_c(fluid: &Fluid, gauge_bar: f64) -> Option<f64> {
    let [mut low, mut high] = RANGE_C;
    let at = |celsius| boils_at_bar(fluid, celsius).map(|(bar, _)| bar);
    if !(at(low)?..=at(high)?).contains(&gauge_bar) {
        return None;
    }
    // To a millionth of a degree.
    for _ in 0..28 {
        let middle = low.midpoint(high);
        if at(middle)? < gauge_bar { low = middle } else { high = middle }
    }
    Some(low.midpoint(high))
}

/// IAPWS SR1-86 (Wagner and Pruss, 1993), absolute.
fn water_bar(celsius: f64) -> f64 {
    const CRITICAL_K: f64 = 647.096;
    const CRITICAL_BAR: f64 = 220.64;
    const TERMS: [(f64, f64); 6] = [
        (-7.859_517_83, 1.0),
        (1.844_082_59, 1.5),
        (-11.786_649_7, 3.0),
        (22.680_741_1, 3.5),
        (-15.961_871_9, 4.0),
        (1.801_225_02, 7.5),
    ];
    let kelvin = celsius + 273.15;
    let left = 1.0 - kelvin / CRITICAL_K;
    let sum: f64 = TERMS.iter().map(|(factor, power)| factor * left.powf(*power)).sum();
    CRITICAL_BAR * (CRITICAL_K / kelvin * sum).exp()
}

/// Raoult's law, absolute; glycol by Antoine's equation, constants from memory.
fn coolant_bar(celsius: f64) -> f64 {
    let glycol = 10_f64.powf(4.970_12 - 1914.951 / (celsius + 273.15 - 84.996));
    WATER_IN_COOLANT * water_bar(celsius) + (1.0 - WATER_IN_COOLANT) * glycol
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boiling_point_and_pressure_are_each_other_s_inverse() {
        for fluid in [Fluid::Water, Fluid::Coolant] {
            for celsius in [5.0, 90.0, 107.0, 140.0] {
                let (bar, _) = boils_at_bar(&fluid, celsius).unwrap();
                assert!((boiling_c(&fluid, bar).unwrap() - celsius).abs() < 1e-5);
            }
            assert_eq!(boiling_c(&fluid, 100.0), None);
        }
        assert_eq!(boils_at_bar(&Fluid::Atf, 100.0), None);
        assert_eq!(boils_at_bar(&Fluid::Water, 151.0), None);
    }
}
