//! Lengths.

use super::fraction::{STEPS_PER_INCH, sixteenths_text, steps_text};
use super::number::significant;
use super::parse::spelling::{INCH, LENGTH, MM, MM_PER_INCH, TENTHS_PER_INCH};
use super::parse::{ParseError, Unit, parse_sum};
use super::{EPS_MM, decimal};

/// Units of length for display and for bare numbers. Stored numbers are always millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum LengthUnit {
    /// Inches, shown as fractions.
    Inch,
    /// Millimetres.
    #[default]
    Mm,
}

impl LengthUnit {
    /// Its sign after a number.
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Mm => "mm",
        }
    }

    /// The step of the bench, mm: what a hose is cut and marked to, 1 mm or 1/16 in.
    pub const fn bench_step_mm(self) -> f64 {
        match self {
            Self::Inch => 25.4 / 16.0,
            Self::Mm => 1.0,
        }
    }

    /// The other one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Inch => Self::Mm,
            Self::Mm => Self::Inch,
        }
    }

    const fn unit(self) -> Unit {
        match self {
            Self::Inch => INCH,
            Self::Mm => MM,
        }
    }
}

/// A length, kept in millimetres.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Length(f64);

impl Length {
    /// From millimetres.
    pub const fn from_mm(mm: f64) -> Self {
        Self(mm)
    }

    /// From inches (25.4 mm exactly).
    pub const fn from_inches(inches: f64) -> Self {
        // Sixteenths come out as the nearest number there is: 3/8 in as 9.525 mm.
        Self(inches * TENTHS_PER_INCH / 10.0)
    }

    /// In millimetres.
    pub const fn mm(self) -> f64 {
        self.0
    }

    /// In inches.
    pub const fn inches(self) -> f64 {
        self.0 / MM_PER_INCH
    }

    /// Reads what people type: `12 3/8`, `12-3/8 in`, `5' 2"`, `31.2 cm`, `3,5`, `12⅜″`,
    /// `12 3/8 + 5mm`, `2 * 3 1/2 in`, `(100 + 20) / 2`. A bare number is in `bare`, each term of a
    /// sum by itself; a factor is a plain number; a number after feet is in inches.
    ///
    /// A hyphen with nothing around it joins a fraction to its whole number (`12-3/8`) and inches
    /// to feet (`5'-2"`); with a space, or as the sign U+2212, it takes away. A bar between whole
    /// numbers makes a fraction (`1/2 in`); a second one divides only with spaces about it
    /// (`12 3/8 / 2`).
    ///
    /// # Errors
    /// [`ParseError`], with the place, for everything else.
    pub fn parse(text: &str, bare: LengthUnit) -> Result<Self, ParseError> {
        parse_sum(text, &LENGTH, bare.unit()).map(Self)
    }

    /// With its unit, to what a feeler gauge or a caliper tells: `0.025 in`, `0.64 mm`.
    pub fn show_fine(self, unit: LengthUnit) -> String {
        let places = match unit {
            LengthUnit::Mm => 2,
            LengthUnit::Inch => 3,
        };
        let value = match unit {
            LengthUnit::Mm => self.0,
            LengthUnit::Inch => self.inches(),
        };
        format!("{} {}", decimal(value, places), unit.sign())
    }

    /// With its unit, to so many significant figures: `0.311 in`, `7.9 mm`.
    pub fn show_significant(self, unit: LengthUnit, figures: u32) -> String {
        let value = match unit {
            LengthUnit::Mm => self.0,
            LengthUnit::Inch => self.inches(),
        };
        format!("{} {}", significant(value, figures), unit.sign())
    }

    /// With its unit: `12 3/8 in` (nearest 1/16), `314.3 mm` (nearest 0.1).
    pub fn show(self, unit: LengthUnit) -> String {
        format!("{} {}", self.number(unit), unit.sign())
    }

    /// As [`Self::show`], without the unit.
    pub fn number(self, unit: LengthUnit) -> String {
        match unit {
            LengthUnit::Inch => sixteenths_text((self.inches() * STEPS_PER_INCH).round() as i64),
            LengthUnit::Mm => decimal(self.0, 1),
        }
    }

    /// To the nearest of so many steps in a unit, without the unit: `8 5/16`, `210.5`.
    pub fn in_steps(self, unit: LengthUnit, per_unit: u32) -> String {
        let steps = f64::from(per_unit);
        match unit {
            LengthUnit::Inch => {
                steps_text((self.inches() * steps).round() as i64, u64::from(per_unit))
            }
            LengthUnit::Mm => decimal((self.0 * steps).round() / steps, 1),
        }
    }

    /// Millimetres for the bench: rounded up to 1 mm.
    pub fn bench_mm(self) -> i64 {
        self.steps_up(1.0)
    }

    /// Sixteenths of an inch for the bench: rounded up.
    pub fn bench_sixteenths(self) -> i64 {
        self.steps_up(MM_PER_INCH / STEPS_PER_INCH)
    }

    /// Inches for the bench, rounded up to 1/16, without the unit: `33 5/8`.
    pub fn bench_inch(self) -> String {
        sixteenths_text(self.bench_sixteenths())
    }

    /// For the bench, with its unit: `38 13/16 in`, `985 mm`.
    pub fn bench(self, unit: LengthUnit) -> String {
        match unit {
            LengthUnit::Inch => format!("{} in", self.bench_inch()),
            LengthUnit::Mm => format!("{} mm", decimal(self.bench_mm() as f64, 0)),
        }
    }

    /// In feet and inches for the bench: `4 ft`, `3 ft 7/16 in`, `11 in`.
    pub fn bench_feet(self) -> String {
        const PER_FOOT: i64 = 12 * STEPS_PER_INCH as i64;
        let steps = self.bench_sixteenths();
        let inches = || format!("{} in", sixteenths_text(steps % PER_FOOT));
        match (steps / PER_FOOT, steps % PER_FOOT) {
            (0, _) => inches(),
            (feet, 0) => format!("{feet} ft"),
            (feet, _) => format!("{feet} ft {}", inches()),
        }
    }

    /// For the bench: rounded up to its step, mm.
    pub fn up_to_bench_mm(self, unit: LengthUnit) -> f64 {
        let step_mm = unit.bench_step_mm();
        self.steps_up(step_mm) as f64 * step_mm
    }

    /// Number of steps, rounded up; within [`EPS_MM`] of a step counts as on it.
    fn steps_up(self, step_mm: f64) -> i64 {
        let nearest = (self.0 / step_mm).round();
        let steps = if (self.0 - nearest * step_mm).abs() <= EPS_MM {
            nearest
        } else {
            (self.0 / step_mm).ceil()
        };
        steps as i64
    }
}

#[cfg(test)]
mod tests {
    use super::{Length, LengthUnit};

    fn inches(text: &str) -> f64 {
        Length::parse(text, LengthUnit::Inch).unwrap().inches()
    }

    fn mm(text: &str) -> f64 {
        Length::parse(text, LengthUnit::Mm).unwrap().mm()
    }

    #[test]
    fn inches_as_people_type_them() {
        for (text, value) in [
            ("12 3/8", 12.375),
            ("12-3/8 in", 12.375),
            ("12 3/8\"", 12.375),
            ("12⅜″", 12.375),
            ("12 ⅜ inches", 12.375),
            ("3/8", 0.375),
            ("3⁄8", 0.375),
            ("9/8", 1.125),
            ("½", 0.5),
            (".5in", 0.5),
            ("5' 2\"", 62.0),
            ("5' 2", 62.0),
            ("5'-2\"", 62.0),
            ("5' - 2\"", 58.0),
            ("5'2 1/2\"", 62.5),
            ("5ft 6in", 66.0),
            ("5ft6in", 66.0),
            ("−1 1/2 in", -1.5),
            ("-1-1/2 in", -1.5),
            ("-5' 2\"", -62.0),
            ("12 - 3/8", 11.625),
            ("12−3/8", 11.625),
            ("12.5-3/8", 12.125),
            ("12 3/8-1/8", 12.25),
            ("  7  ", 7.0),
            ("-5", -5.0),
            ("5' 2\" - 1/2", 61.5),
            ("2 * 3 1/2 in", 7.0),
            ("3 1/2 in * 2", 7.0),
            ("2 x 3 1/2", 7.0),
            ("2x3", 6.0),
            ("2 × 12-3/8", 24.75),
            ("1.5/2", 0.75),
            ("1/2.5", 0.4),
            ("1/2 in", 0.5),
            ("1 / 2 in", 0.5),
            ("12 3/8 / 2", 6.1875),
            ("12 in / 4", 3.0),
            ("12 in/4", 3.0),
            ("12 / 3 1/2", 12.0 / 3.5),
            ("100 / 2 / 5", 10.0),
            ("8 in / 2 / 4", 1.0),
            ("12 / ½", 24.0),
            ("12 ÷ 4", 3.0),
            ("12/(1 + 2)", 4.0),
            ("(12 + 3/8) in", 12.375),
            ("(1 + 1in) * 3", 6.0),
            ("((2))", 2.0),
            ("-(2 + 3)", -5.0),
            ("2 * -3", -6.0),
            ("10 - 2 * 3", 4.0),
            ("1' * 2", 24.0),
            ("-1 1/2 * 2", -3.0),
            ("7 IN", 7.0),
        ] {
            assert!((inches(text) - value).abs() < 1e-12, "{text}: {}", inches(text));
        }
    }

    #[test]
    fn millimetres_as_people_type_them() {
        for (text, value) in [
            ("312", 312.0),
            ("312 mm", 312.0),
            ("31.2 cm", 312.0),
            ("1.2 m", 1200.0),
            ("3,5", 3.5),
            ("0,125", 0.125),
            ("12 3/8in + 5mm", 319.325),
            ("12 3/8 in + 5", 319.325),
            ("100-5", 95.0),
            ("100 - 5 + 1cm", 105.0),
            ("+5", 5.0),
            ("(100 + 20) / 2", 60.0),
            ("100 / 2", 50.0),
            ("12,5 mm", 12.5),
            ("2 * 12,5", 25.0),
            ("1 cm + 2 * 3", 16.0),
            ("2 * 1 in + 5", 55.8),
            ("5' 2\" - 1/2", 1574.3),
        ] {
            assert!((mm(text) - value).abs() < 1e-9, "{text}: {}", mm(text));
        }
    }

    #[test]
    fn a_fraction_of_an_inch_is_the_nearest_number_there_is() {
        assert_eq!(mm("3/8 in").to_string(), "9.525");
        assert_eq!(Length::from_inches(0.375), Length::from_mm(9.525));
        assert_eq!(mm("1' 3/8\"").to_string(), "314.325");
    }

    #[test]
    fn shown_to_the_nearest_sixteenth_and_tenth() {
        for (length, inch, metric) in [
            (12.375 * 25.4, "12 3/8 in", "314.3 mm"),
            (15.99 * 25.4, "16 in", "406.1 mm"),
            (-1.5 * 25.4, "\u{2212}1 1/2 in", "\u{2212}38.1 mm"),
            (0.0, "0 in", "0 mm"),
            (-0.01, "0 in", "0 mm"),
            (300.0, "11 13/16 in", "300 mm"),
        ] {
            assert_eq!(Length::from_mm(length).show(LengthUnit::Inch), inch);
            assert_eq!(Length::from_mm(length).show(LengthUnit::Mm), metric);
        }
    }

    #[test]
    fn the_bench_rounds_up() {
        for (mm, whole, inch) in [
            (853.0, 853, "33 5/8"),
            (853.000_000_5, 853, "33 5/8"),
            (852.999_999_5, 853, "33 5/8"),
            (853.01, 854, "33 5/8"),
            (0.0, 0, "0"),
            (7.9375, 8, "5/16"),
            (7.937_500_9, 8, "5/16"),
            (7.9376, 8, "3/8"),
            (-0.5, 0, "0"),
            (-25.4, -25, "\u{2212}1"),
        ] {
            assert_eq!(Length::from_mm(mm).bench_mm(), whole, "{mm}");
            assert_eq!(Length::from_mm(mm).bench_inch(), inch, "{mm}");
        }
        assert_eq!(Length::from_mm(984.2).bench(LengthUnit::Mm), "985 mm");
        for (inches, feet) in
            [(48.0, "4 ft"), (36.43, "3 ft 7/16 in"), (11.0, "11 in"), (0.0, "0 in")]
        {
            assert_eq!(Length::from_inches(inches).bench_feet(), feet);
            let read = Length::parse(feet, LengthUnit::Mm).unwrap();
            assert_eq!(read.bench_sixteenths(), Length::from_inches(inches).bench_sixteenths());
        }
        assert_eq!(Length::from_inches(38.8).bench(LengthUnit::Inch), "38 13/16 in");
    }
}
