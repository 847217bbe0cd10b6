//! Density and viscosity at a temperature.

use crate::model::catalogue::fluids::{At, Grade, Known, Point};

/// 0 °C in K, exactly (definition of the Celsius scale).
const ZERO_C: f64 = 273.15;

/// A liquid as it flows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Liquid {
    /// Density, above 0.
    pub density_kg_m3: f64,
    /// Kinematic viscosity, above 0.
    pub viscosity_mm2_s: f64,
}

/// The thinnest and the thickest liquid that it may be at a temperature; twice the same where there is but
/// one. None outside the range of the figures: nothing is drawn on beyond them.
///
/// Between the points of a table density runs straight, and ln μ straight over 1/T: within 0.5 % of the
/// library it was made with, halfway between the points.
pub fn liquid_at(known: &Known, celsius: f64) -> Option<[Liquid; 2]> {
    let [from, to] = known.range_c();
    if !(from..=to).contains(&celsius) {
        return None;
    }
    match known {
        Known::Table(points) => between(points, celsius).map(|liquid| [liquid; 2]),
        Known::Oils(oils) => {
            let density_kg_m3 =
                oils.density_at_20_kg_m3 - oils.density_loss_per_k * (celsius - 20.0);
            let at = |grade: &Grade| d341_mm2_s(grade.through, grade.steep_as, celsius);
            let least = oils.grades.iter().map(at).fold(f64::INFINITY, f64::min);
            let most = oils.grades.iter().map(at).fold(0.0, f64::max);
            Some([least, most].map(|viscosity_mm2_s| Liquid { density_kg_m3, viscosity_mm2_s }))
        }
    }
}

fn between(points: &[Point], celsius: f64) -> Option<Liquid> {
    let next = points.iter().position(|point| point.celsius >= celsius)?;
    let (a, b) = (&points[next.saturating_sub(1)], &points[next]);
    let inverse = |celsius: f64| 1.0 / (celsius + ZERO_C);
    let share =
        |at: f64, from: f64, to: f64| if from == to { 0.0 } else { (at - from) / (to - from) };
    let by_temperature = share(celsius, a.celsius, b.celsius);
    let by_inverse = share(inverse(celsius), inverse(a.celsius), inverse(b.celsius));
    let density_kg_m3 = a.density_kg_m3 + by_temperature * (b.density_kg_m3 - a.density_kg_m3);
    let viscosity_mpa_s =
        a.viscosity_mpa_s * (b.viscosity_mpa_s / a.viscosity_mpa_s).powf(by_inverse);
    Some(Liquid { density_kg_m3, viscosity_mm2_s: viscosity_mpa_s / density_kg_m3 * 1000.0 })
}

/// Kinematic viscosity of an oil at a temperature: ASTM D341,
///
/// `log10 log10(ν + 0.7) = A − B log10 T`,
///
/// with the B of the line through `steep_as` and the A of the point `through`. Viscosities above 0.3 mm²/s,
/// temperatures above absolute zero.
pub fn d341_mm2_s(through: At, steep_as: [At; 2], celsius: f64) -> f64 {
    let of_viscosity = |mm2_s: f64| (mm2_s + 0.7).log10().log10();
    let of_temperature = |celsius: f64| (celsius + ZERO_C).log10();
    let [(c0, v0), (c1, v1)] = steep_as;
    let b = (of_viscosity(v0) - of_viscosity(v1)) / (of_temperature(c1) - of_temperature(c0));
    let value = of_viscosity(through.1) - b * (of_temperature(celsius) - of_temperature(through.0));
    10_f64.powf(10_f64.powf(value)) - 0.7
}
