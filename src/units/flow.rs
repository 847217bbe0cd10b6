//! Flow.

use super::parse::spelling::{FLOW, LPM, US_GPM};
use super::parse::{ParseError, Unit, parse_sum};
use super::{LengthUnit, decimal};

/// Units of flow for display and for bare numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum FlowUnit {
    /// Litres per minute.
    #[default]
    Lpm,
    /// US gallons per minute.
    UsGpm,
}

/// US gal/min beside inches, L/min beside millimetres.
impl From<LengthUnit> for FlowUnit {
    fn from(length: LengthUnit) -> Self {
        match length {
            LengthUnit::Inch => Self::UsGpm,
            LengthUnit::Mm => Self::Lpm,
        }
    }
}

impl FlowUnit {
    /// Its sign after a number.
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Lpm => "L/min",
            Self::UsGpm => "US gal/min",
        }
    }

    const fn unit(self) -> Unit {
        match self {
            Self::Lpm => LPM,
            Self::UsGpm => US_GPM,
        }
    }
}

/// A flow, kept in litres per minute.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Flow(f64);

impl Flow {
    /// From litres per minute.
    pub const fn from_lpm(lpm: f64) -> Self {
        Self(lpm)
    }

    /// From US gallons per minute.
    pub const fn from_us_gpm(gpm: f64) -> Self {
        Self(gpm * US_GPM.scale)
    }

    /// In litres per minute.
    pub const fn lpm(self) -> f64 {
        self.0
    }

    /// In US gallons per minute.
    pub const fn us_gpm(self) -> f64 {
        self.0 / US_GPM.scale
    }

    /// In this unit.
    pub fn number(self, unit: FlowUnit) -> f64 {
        self.0 / unit.unit().scale
    }

    /// Reads what people type: `2.5 L/min`, `2,5 lpm`, `0.7 gal/min`, `150 L/h`. Gallons are US
    /// gallons. A bare number is in `bare`.
    ///
    /// # Errors
    /// [`ParseError`], with the place.
    pub fn parse(text: &str, bare: FlowUnit) -> Result<Self, ParseError> {
        parse_sum(text, &FLOW, bare.unit()).map(Self)
    }

    /// With its unit, to about three figures: `2.5 L/min`, `0.66 US gal/min`.
    pub fn show(self, unit: impl Into<FlowUnit>) -> String {
        let unit = unit.into();
        let value = self.number(unit);
        let places = match value.abs() {
            small if small < 0.1 => 3,
            middling if middling < 10.0 => 2,
            _ => 1,
        };
        format!("{} {}", decimal(value, places), unit.sign())
    }
}

#[cfg(test)]
mod tests {
    use super::{Flow, FlowUnit, LengthUnit};

    #[test]
    fn flows_as_people_type_them() {
        for (text, lpm) in [
            ("2.5", 2.5),
            ("2,5 L/min", 2.5),
            ("2.5 lpm", 2.5),
            ("150 l/h", 2.5),
            ("1 gal/min", 3.785_411_784),
            ("1 US gal/min", 3.785_411_784),
            ("60 gph", 3.785_411_784),
        ] {
            let read = Flow::parse(text, FlowUnit::Lpm).unwrap().lpm();
            assert!((read - lpm).abs() < 1e-12, "{text}: {read}");
        }
        assert!(Flow::parse("1 imp gal/min", FlowUnit::Lpm).is_err());
    }

    #[test]
    fn shown_in_both_units() {
        assert_eq!(Flow::from_lpm(2.5).show(FlowUnit::Lpm), "2.5 L/min");
        assert_eq!(Flow::from_lpm(2.5).show(FlowUnit::UsGpm), "0.66 US gal/min");
        assert_eq!(Flow::from_lpm(0.2).show(LengthUnit::Inch), "0.053 US gal/min");
        assert_eq!(Flow::from_us_gpm(4.0).show(FlowUnit::UsGpm), "4 US gal/min");
    }
}
