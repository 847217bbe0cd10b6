//! Temperatures.

use super::parse::spelling::{ABSOLUTE_ZERO_C, CELSIUS, FAHRENHEIT, TEMPERATURE};
use super::parse::{Fault, ParseError, parse_sum};
use super::{LengthUnit, decimal};

/// Units of temperature for display and for bare numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum TemperatureUnit {
    /// Degrees Celsius.
    #[default]
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
}

/// °F beside inches, °C beside millimetres.
impl From<LengthUnit> for TemperatureUnit {
    fn from(length: LengthUnit) -> Self {
        match length {
            LengthUnit::Inch => Self::Fahrenheit,
            LengthUnit::Mm => Self::Celsius,
        }
    }
}

impl TemperatureUnit {
    /// Its sign after a number.
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Celsius => "°C",
            Self::Fahrenheit => "°F",
        }
    }
}

/// A temperature, kept in degrees Celsius.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Temperature(f64);

impl Temperature {
    /// From degrees Celsius.
    pub const fn from_celsius(celsius: f64) -> Self {
        Self(celsius)
    }

    /// From degrees Fahrenheit.
    pub const fn from_fahrenheit(fahrenheit: f64) -> Self {
        Self((fahrenheit - 32.0) / 1.8)
    }

    /// In degrees Celsius.
    pub const fn celsius(self) -> f64 {
        self.0
    }

    /// In degrees Fahrenheit.
    pub const fn fahrenheit(self) -> f64 {
        self.0 * 1.8 + 32.0
    }

    /// Reads what people type: `400F`, `400 °F`, `90 °C`, `90C`, `363 K`. A bare number is in
    /// `bare`.
    ///
    /// # Errors
    /// [`ParseError`], with the place; also for anything below absolute zero.
    pub fn parse(text: &str, bare: TemperatureUnit) -> Result<Self, ParseError> {
        let bare = match bare {
            TemperatureUnit::Celsius => CELSIUS,
            TemperatureUnit::Fahrenheit => FAHRENHEIT,
        };
        let read = parse_sum(text, &TEMPERATURE, bare)?;
        if read < ABSOLUTE_ZERO_C {
            return Err(ParseError::whole(text, Fault::BelowAbsoluteZero));
        }
        Ok(Self(read))
    }

    /// With its unit, to the nearest 0.1: `90 °C`, `400 °F`.
    pub fn show(self, unit: impl Into<TemperatureUnit>) -> String {
        let unit = unit.into();
        let value = match unit {
            TemperatureUnit::Celsius => self.celsius(),
            TemperatureUnit::Fahrenheit => self.fahrenheit(),
        };
        format!("{} {}", decimal(value, 1), unit.sign())
    }
}

#[cfg(test)]
mod tests {
    use super::{Temperature, TemperatureUnit};

    #[test]
    fn temperatures_as_people_type_them() {
        for (text, celsius) in [
            ("90 °C", 90.0),
            ("90C", 90.0),
            ("90", 90.0),
            ("400F", 204.444_444_444_444_44),
            ("400 °F", 204.444_444_444_444_44),
            ("212 deg F", 100.0),
            ("−54 °C", -54.0),
            ("-40 F", -40.0),
            ("373,15 K", 100.0),
            ("(80 + 100) / 2", 90.0),
            ("(180 + 32) F", 100.0),
        ] {
            let read = Temperature::parse(text, TemperatureUnit::Celsius).unwrap().celsius();
            assert!((read - celsius).abs() < 1e-9, "{text}: {read}");
        }
        let bare = Temperature::parse("212", TemperatureUnit::Fahrenheit).unwrap();
        assert!((bare.celsius() - 100.0).abs() < 1e-9);
    }

    #[test]
    fn shown_to_a_tenth() {
        let hot = Temperature::from_fahrenheit(400.0);
        assert_eq!(hot.show(TemperatureUnit::Fahrenheit), "400 °F");
        assert_eq!(hot.show(TemperatureUnit::Celsius), "204.4 °C");
        assert_eq!(
            Temperature::from_celsius(-54.0).show(TemperatureUnit::Celsius),
            "\u{2212}54 °C"
        );
    }

    #[test]
    fn neither_sums_of_degrees_nor_below_absolute_zero() {
        let not_calculated = [
            "90 C + 10 C",
            "90 + 10 C",
            "90 C - 10",
            "2 * 45 C",
            "90 C / 2",
            "-(40 F)",
            "-300 C",
            "-500 F",
        ];
        for text in not_calculated {
            assert!(Temperature::parse(text, TemperatureUnit::Celsius).is_err(), "{text}");
        }
    }
}
