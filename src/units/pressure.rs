//! Pressures, above that of the air around (gauge).

use super::decimal;
use super::length::LengthUnit;
use super::number::significant;
use super::parse::{Grammar, ParseError, Quantity, Terms, Unit, parse_sum};

/// Pascal in a pound-force per square inch: 6894.757293168…, from the definitions, which are exact:
/// 1 lb = 0.45359237 kg, standard gravity 9.80665 m/s², 1 in = 0.0254 m.
const PA_PER_PSI: f64 = 0.453_592_37 * 9.806_65 / (0.0254 * 0.0254);

/// Pascal in a bar, exactly.
const PA_PER_BAR: f64 = 1e5;

/// Units of pressure for display and for bare numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum PressureUnit {
    /// Bar.
    #[default]
    Bar,
    /// Pound-force per square inch.
    Psi,
}

/// psi beside inches, bar beside millimetres.
impl From<LengthUnit> for PressureUnit {
    fn from(length: LengthUnit) -> Self {
        match length {
            LengthUnit::Inch => Self::Psi,
            LengthUnit::Mm => Self::Bar,
        }
    }
}

impl PressureUnit {
    /// Its sign after a number.
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Bar => "bar",
            Self::Psi => "psi",
        }
    }

    const fn in_bar(self) -> f64 {
        match self {
            Self::Bar => 1.0,
            Self::Psi => PA_PER_PSI / PA_PER_BAR,
        }
    }
}

/// A gauge pressure, kept in bar.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Pressure(f64);

impl Pressure {
    /// From bar.
    pub const fn from_bar(bar: f64) -> Self {
        Self(bar)
    }

    /// From pound-force per square inch.
    pub const fn from_psi(psi: f64) -> Self {
        Self(psi * PressureUnit::Psi.in_bar())
    }

    /// In bar.
    pub const fn bar(self) -> f64 {
        self.0
    }

    /// In pound-force per square inch.
    pub const fn psi(self) -> f64 {
        self.0 / PressureUnit::Psi.in_bar()
    }

    /// Reads what people type: `69 bar`, `1000 psi`, `6.9 MPa`, `700 kPa`. A bare number is in
    /// `bare`. Absolute pressures (`psia`) are refused: hoses are rated in gauge pressure.
    ///
    /// # Errors
    /// [`ParseError`], with the place.
    pub fn parse(text: &str, bare: PressureUnit) -> Result<Self, ParseError> {
        parse_sum(text, &PRESSURE, Unit::of(bare.in_bar())).map(Self)
    }

    /// A pressure that is lost, with its unit: to two significant figures, which is what formulas of
    /// flow are worth. `0.013 bar`, `0.19 psi`, `under 0.0001 bar`.
    pub fn show_lost(self, unit: impl Into<PressureUnit>) -> String {
        const LEAST: f64 = 1e-4;
        let unit = unit.into();
        let value = match unit {
            PressureUnit::Bar => self.bar(),
            PressureUnit::Psi => self.psi(),
        };
        if value > 0.0 && value < LEAST {
            return format!("under {LEAST} {}", unit.sign());
        }
        format!("{} {}", significant(value, 2), unit.sign())
    }

    /// With its unit, to about three figures: `0.35 bar`, `3.5 bar`, `69 bar`, `1001 psi`.
    pub fn show(self, unit: impl Into<PressureUnit>) -> String {
        let unit = unit.into();
        let (value, coarse_from, places) = match unit {
            PressureUnit::Bar => (self.bar(), 10.0, 2),
            PressureUnit::Psi => (self.psi(), 100.0, 1),
        };
        let places = if value.abs() < coarse_from { places } else { places - 1 };
        format!("{} {}", decimal(value, places), unit.sign())
    }
}

const BAR: Unit = Unit::of(1.0);
const PSI: Unit = Unit::of(PressureUnit::Psi.in_bar());
const PASCAL: Unit = Unit::of(1.0 / PA_PER_BAR);
const KILOPASCAL: Unit = Unit::of(0.01);
const MEGAPASCAL: Unit = Unit::of(10.0);

/// How pressures are written.
pub(super) const PRESSURE: Grammar = Grammar {
    quantity: Quantity::Pressure,
    terms: Terms::Sum,
    joined: None,
    units: &[
        ("bar", BAR),
        ("barg", BAR),
        ("bar(g)", BAR),
        ("psi", PSI),
        ("psig", PSI),
        ("psi(g)", PSI),
        ("lbf/in2", PSI),
        ("lbf/in²", PSI),
        ("lb/in2", PSI),
        ("lb/in²", PSI),
        ("pa", PASCAL),
        ("kpa", KILOPASCAL),
        ("mpa", MEGAPASCAL),
    ],
};

#[cfg(test)]
mod tests {
    use super::{Pressure, PressureUnit};

    fn bar(text: &str) -> f64 {
        Pressure::parse(text, PressureUnit::Bar).unwrap().bar()
    }

    #[test]
    fn pressures_as_people_type_them() {
        for (text, value) in [
            ("69 bar", 69.0),
            ("69", 69.0),
            ("6.9 MPa", 69.0),
            ("700 kPa", 7.0),
            ("500 Pa", 0.005),
            ("1000 psi", 68.947_572_931_683_61),
            ("1000psig", 68.947_572_931_683_61),
            ("1000 lb/in²", 68.947_572_931_683_61),
            ("−0.5 bar", -0.5),
        ] {
            assert!((bar(text) - value).abs() < 1e-12, "{text}: {}", bar(text));
        }
        let bare = Pressure::parse("1000", PressureUnit::Psi).unwrap();
        assert!((bare.psi() - 1000.0).abs() < 1e-9);
        assert_eq!(bare, Pressure::from_psi(1000.0));
    }

    #[test]
    fn shown_to_three_figures() {
        for (bar, metric, imperial) in [
            (0.35, "0.35 bar", "5.1 psi"),
            (3.5, "3.5 bar", "50.8 psi"),
            (69.0, "69 bar", "1001 psi"),
            (206.84, "206.8 bar", "3000 psi"),
        ] {
            assert_eq!(Pressure::from_bar(bar).show(PressureUnit::Bar), metric);
            assert_eq!(Pressure::from_bar(bar).show(PressureUnit::Psi), imperial);
        }
    }

    #[test]
    fn what_is_lost_is_shown_to_two_figures() {
        for (bar, metric, imperial) in [
            (0.013_12, "0.013 bar", "0.19 psi"),
            (1.284, "1.3 bar", "19 psi"),
            (123.0, "120 bar", "1800 psi"),
            (0.000_02, "under 0.0001 bar", "0.00029 psi"),
            (0.0, "0 bar", "0 psi"),
        ] {
            assert_eq!(Pressure::from_bar(bar).show_lost(PressureUnit::Bar), metric);
            assert_eq!(Pressure::from_bar(bar).show_lost(PressureUnit::Psi), imperial);
        }
    }

    #[test]
    fn absolute_pressures_are_refused() {
        assert!(Pressure::parse("30 psia", PressureUnit::Bar).is_err());
    }
}
