//! Pressures, above that of the air around (gauge).

use super::decimal;
use super::length::LengthUnit;
use super::number::significant;
use super::parse::spelling::{BAR, PRESSURE, PSI};
use super::parse::{ParseError, Unit, parse_sum};

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

    const fn unit(self) -> Unit {
        match self {
            Self::Bar => BAR,
            Self::Psi => PSI,
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
        Self(psi * PSI.scale)
    }

    /// In bar.
    pub const fn bar(self) -> f64 {
        self.0
    }

    /// In pound-force per square inch.
    pub const fn psi(self) -> f64 {
        self.0 / PSI.scale
    }

    /// Reads what people type: `69 bar`, `1000 psi`, `6.9 MPa`, `700 kPa`. A bare number is in
    /// `bare`. Absolute pressures (`psia`) are refused: hoses are rated in gauge pressure.
    ///
    /// # Errors
    /// [`ParseError`], with the place.
    pub fn parse(text: &str, bare: PressureUnit) -> Result<Self, ParseError> {
        parse_sum(text, &PRESSURE, bare.unit()).map(Self)
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
