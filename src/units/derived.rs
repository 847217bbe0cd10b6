//! Quantities with one unit beside millimetres and one beside inches.

use super::parse::spelling::{
    DENSITY, KG_M3_PER_LB_FT3, KG_PER_LB, METRES_PER_FOOT, NUMBER, VISCOSITY,
};
use super::parse::{ParseError, Unit, parse_sum};
use super::{LengthUnit, significant};

/// Joule in a foot-pound-force, exactly: standard gravity is 9.80665 m/s².
const J_PER_FT_LBF: f64 = KG_PER_LB * 9.806_65 * METRES_PER_FOOT;

/// A quantity, stored in the unit that goes with millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Derived {
    /// Metres, feet per second.
    Velocity,
    /// Kilograms, pounds.
    Mass,
    /// Kilograms per cubic metre, pounds per cubic foot.
    Density,
    /// Kinematic: square millimetres per second, which are centistokes.
    Viscosity,
    /// Joule, foot-pounds-force.
    Energy,
    /// What hose is sold and priced by: metres, feet.
    HoseSold,
}

impl Derived {
    /// Its sign after a number.
    pub const fn sign(self, unit: LengthUnit) -> &'static str {
        let [metric, inch] = match self {
            Self::Velocity => ["m/s", "ft/s"],
            Self::Mass => ["kg", "lb"],
            Self::Density => ["kg/m³", "lb/ft³"],
            Self::Viscosity => ["mm²/s", "cSt"],
            Self::Energy => ["J", "ft·lbf"],
            Self::HoseSold => ["m", "ft"],
        };
        match unit {
            LengthUnit::Mm => metric,
            LengthUnit::Inch => inch,
        }
    }

    /// Stored units in one that is shown.
    const fn stored_per(self, unit: LengthUnit) -> f64 {
        match (unit, self) {
            (LengthUnit::Mm, _) | (LengthUnit::Inch, Self::Viscosity) => 1.0,
            (LengthUnit::Inch, Self::Velocity | Self::HoseSold) => METRES_PER_FOOT,
            (LengthUnit::Inch, Self::Mass) => KG_PER_LB,
            (LengthUnit::Inch, Self::Density) => KG_M3_PER_LB_FT3,
            (LengthUnit::Inch, Self::Energy) => J_PER_FT_LBF,
        }
    }

    /// The number in the unit that is shown.
    pub fn number(self, stored: f64, unit: LengthUnit) -> f64 {
        stored / self.stored_per(unit)
    }

    /// The other way round.
    pub fn stored(self, number: f64, unit: LengthUnit) -> f64 {
        number * self.stored_per(unit)
    }

    /// With its unit, to so many significant figures: `0.82 m/s`, `2.7 ft/s`.
    pub fn show(self, stored: f64, unit: LengthUnit, figures: u32) -> String {
        format!("{} {}", significant(self.number(stored, unit), figures), self.sign(unit))
    }

    /// The price of a metre or a foot of hose, from that of a metre.
    pub fn hose_price(per_m: f64, unit: LengthUnit) -> f64 {
        Self::HoseSold.stored(per_m, unit)
    }

    /// Reads what people type: a density `810 kg/m³`, `50.6 lb/ft³`, a viscosity `6.7 cSt`. A bare
    /// number is in the unit beside `unit`.
    ///
    /// # Errors
    /// [`ParseError`], with the place.
    pub fn parse(self, text: &str, unit: LengthUnit) -> Result<f64, ParseError> {
        let grammar = match self {
            Self::Density => &DENSITY,
            Self::Viscosity => &VISCOSITY,
            _ => &NUMBER,
        };
        parse_sum(text, grammar, Unit::of(self.stored_per(unit)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_in_the_unit_beside_the_length() {
        for (quantity, stored, figures, metric, inch) in [
            (Derived::Velocity, 0.82, 2, "0.82 m/s", "2.7 ft/s"),
            (Derived::Mass, 1.65, 3, "1.65 kg", "3.64 lb"),
            (Derived::Density, 998.0, 3, "998 kg/m³", "62.3 lb/ft³"),
            (Derived::Viscosity, 0.502, 3, "0.502 mm²/s", "0.502 cSt"),
            (Derived::Energy, 20.0, 2, "20 J", "15 ft·lbf"),
            (Derived::HoseSold, 1.2192, 2, "1.2 m", "4 ft"),
        ] {
            assert_eq!(quantity.show(stored, LengthUnit::Mm, figures), metric);
            assert_eq!(quantity.show(stored, LengthUnit::Inch, figures), inch);
        }
        assert!((Derived::hose_price(10.0, LengthUnit::Inch) - 3.048).abs() < 1e-12);
        assert!((Derived::hose_price(10.0, LengthUnit::Mm) - 10.0).abs() < 1e-12);
    }

    #[test]
    fn densities_and_viscosities_as_people_type_them() {
        for (text, unit, stored) in [
            ("810", LengthUnit::Mm, 810.0),
            ("0.81 g/cm³", LengthUnit::Inch, 810.0),
            ("810 kg/m3", LengthUnit::Inch, 810.0),
            ("62.4", LengthUnit::Inch, 999.552_114_5),
        ] {
            let read = Derived::Density.parse(text, unit).unwrap();
            assert!((read - stored).abs() < 1e-6, "{text}: {read}");
        }
        assert_eq!(Derived::Viscosity.parse("6.7 cSt", LengthUnit::Inch), Ok(6.7));
        let error = Derived::Density.parse("5 cSt", LengthUnit::Inch).unwrap_err();
        assert_eq!(error.said(), "cSt is a unit of viscosity, not of density");
    }
}
