//! A quantity to be shown and typed in a field: in its unit, exactly or saying that it is rounded.

use super::fraction::{STEPS_PER_INCH, steps_text};
use super::{
    Angle, Derived, EPS_MM, Fault, Flow, FlowUnit, Length, LengthUnit, MINUS, ParseError, Percent,
    Pressure, PressureUnit, Temperature, TemperatureUnit, decimal, parse_count, parse_number,
};

/// A quantity with the unit it is shown and typed in. Stored numbers are in the bay's own units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Measure {
    /// A length, stored in millimetres.
    Length(LengthUnit),
    /// An angle, stored in degrees.
    Angle,
    /// A gauge pressure, stored in bar.
    Pressure(PressureUnit),
    /// A temperature, stored in degrees Celsius.
    Temperature(TemperatureUnit),
    /// A flow, stored in litres per minute.
    Flow(FlowUnit),
    /// A share, stored in per cent.
    Percent,
    /// A plain number.
    Number,
    /// Another quantity, stored in its unit beside millimetres.
    Derived(Derived, LengthUnit),
    /// A whole number of 0 or more.
    Count,
    /// A size by its dash number, `−6`: the dash is part of the name and may be left out.
    Dash,
}

/// A number as it is shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// Without its unit.
    pub text: String,
    /// Whether nothing was rounded away.
    pub is_exact: bool,
}

/// Decimals that are shown before a number is said to be rounded.
const MOST_PLACES: usize = 3;

/// Ten to [`MOST_PLACES`].
const THOUSAND: f64 = 1000.0;

/// Finest steps of an inch that are shown as a fraction: a workshop rule has no finer.
const FINEST_PER_INCH: u64 = 64;

/// Relative error of the arithmetic of converting a unit, with room to spare.
const ROUNDING: f64 = 1e-12;

impl Measure {
    /// The sign of its unit; empty for plain numbers.
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Length(unit) => unit.sign(),
            Self::Angle => "°",
            Self::Pressure(unit) => unit.sign(),
            Self::Temperature(unit) => unit.sign(),
            Self::Flow(unit) => unit.sign(),
            Self::Percent => "%",
            Self::Derived(quantity, unit) => quantity.sign(unit),
            Self::Number | Self::Count | Self::Dash => "",
        }
    }

    /// Reads what was typed, a bare number in this unit. In stored units.
    ///
    /// # Errors
    /// [`ParseError`], with the place.
    pub fn parse(self, text: &str) -> Result<f64, ParseError> {
        match self {
            Self::Length(unit) => Length::parse(text, unit).map(Length::mm),
            Self::Angle => Angle::parse(text).map(Angle::deg),
            Self::Pressure(unit) => Pressure::parse(text, unit).map(Pressure::bar),
            Self::Temperature(unit) => Temperature::parse(text, unit).map(Temperature::celsius),
            Self::Flow(unit) => Flow::parse(text, unit).map(Flow::lpm),
            Self::Percent => Percent::parse(text).map(Percent::pct),
            Self::Derived(quantity, unit) => quantity.parse(text, unit),
            Self::Number => parse_number(text),
            Self::Count => parse_count(text).map(f64::from),
            Self::Dash => parse_dash(text).map(f64::from),
        }
    }

    /// The number to show, without its unit: all of it where that is short (to 1/64 in, to three
    /// decimals), else rounded as sheets round it.
    pub fn shown(self, stored: f64) -> Shown {
        if let Some(text) = self.exact(stored) {
            return Shown { text, is_exact: true };
        }
        let text = match self {
            Self::Length(unit) => Length::from_mm(stored).number(unit),
            Self::Angle | Self::Temperature(_) | Self::Percent => decimal(self.in_unit(stored), 1),
            Self::Pressure(_) | Self::Flow(_) => decimal(self.in_unit(stored), 2),
            _ => decimal(self.in_unit(stored), MOST_PLACES),
        };
        Shown { text, is_exact: false }
    }

    /// With its unit, and "≈" before it where it is rounded.
    pub fn show(self, stored: f64) -> String {
        let Shown { text, is_exact } = self.shown(stored);
        let about = if is_exact { "" } else { "\u{2248} " };
        let space = if self == Self::Angle || self.sign().is_empty() { "" } else { " " };
        format!("{about}{text}{space}{}", self.sign())
    }

    /// What to put into a field to be changed: it reads back as the stored number, whatever was
    /// rounded away in what is shown.
    pub fn typed(self, stored: f64) -> String {
        if let Some(text) = self.exact(stored) {
            return text;
        }
        let own = match self {
            Self::Length(LengthUnit::Inch) => " mm",
            Self::Pressure(PressureUnit::Psi) => " bar",
            Self::Temperature(TemperatureUnit::Fahrenheit) => " °C",
            Self::Flow(FlowUnit::UsGpm) => " L/min",
            Self::Derived(Derived::Density, LengthUnit::Inch) => " kg/m³",
            _ => "",
        };
        let sign = if stored < 0.0 { MINUS.to_string() } else { String::new() };
        format!("{sign}{}{own}", stored.abs())
    }

    /// The next whole step from a stored number: up for `steps` above 0, down below. The step is
    /// what a bench measures to: 1/16 in, 1 mm, one degree.
    pub fn step(self, stored: f64, steps: i32) -> f64 {
        let step = match self {
            Self::Length(LengthUnit::Inch) => 1.0 / STEPS_PER_INCH,
            Self::Pressure(PressureUnit::Psi) => 5.0,
            Self::Flow(_) | Self::Percent => 0.5,
            Self::Number => 0.1,
            _ => 1.0,
        };
        let now = self.in_unit(stored) / step;
        let near = now.round();
        let on_step = (now - near).abs() <= 1e-9 * now.abs().max(1.0);
        let from = match (on_step, steps > 0) {
            (true, _) => near,
            (false, true) => now.floor(),
            (false, false) => now.ceil(),
        };
        self.to_stored((from + f64::from(steps)) * step)
    }

    /// The number in this unit.
    fn in_unit(self, stored: f64) -> f64 {
        match self {
            Self::Length(LengthUnit::Inch) => Length::from_mm(stored).inches(),
            Self::Pressure(PressureUnit::Psi) => Pressure::from_bar(stored).psi(),
            Self::Temperature(TemperatureUnit::Fahrenheit) => {
                Temperature::from_celsius(stored).fahrenheit()
            }
            Self::Flow(FlowUnit::UsGpm) => Flow::from_lpm(stored).us_gpm(),
            Self::Derived(quantity, unit) => quantity.number(stored, unit),
            _ => stored,
        }
    }

    fn to_stored(self, number: f64) -> f64 {
        match self {
            Self::Length(LengthUnit::Inch) => Length::from_inches(number).mm(),
            Self::Pressure(PressureUnit::Psi) => Pressure::from_psi(number).bar(),
            Self::Temperature(TemperatureUnit::Fahrenheit) => {
                Temperature::from_fahrenheit(number).celsius()
            }
            Self::Flow(FlowUnit::UsGpm) => Flow::from_us_gpm(number).lpm(),
            Self::Derived(quantity, unit) => quantity.stored(number, unit),
            _ => number,
        }
    }

    /// The number, where it is short enough to be shown whole.
    fn exact(self, stored: f64) -> Option<String> {
        if self == Self::Dash {
            return Some(format!("{MINUS}{stored}"));
        }
        let number = self.in_unit(stored);
        if !number.is_finite() {
            return None;
        }
        // A length within EPS of a step is on it, as everywhere; else only arithmetic is forgiven.
        let apart = match self {
            Self::Length(LengthUnit::Inch) => EPS_MM / 25.4,
            Self::Length(LengthUnit::Mm) => EPS_MM,
            _ => number.abs().max(1.0) * ROUNDING,
        };
        if self == Self::Length(LengthUnit::Inch) {
            let steps = number * FINEST_PER_INCH as f64;
            let near = steps.round();
            if (steps - near).abs() <= apart * FINEST_PER_INCH as f64 && near.abs() < 1e15 {
                return Some(steps_text(near as i64, FINEST_PER_INCH));
            }
        }
        let near = (number * THOUSAND).round() / THOUSAND;
        ((number - near).abs() <= apart).then(|| decimal(number, MOST_PLACES))
    }
}

/// Reads `−6`, `-6` or `6`.
fn parse_dash(text: &str) -> Result<u32, ParseError> {
    let digits = text.trim_start();
    let before = &text[..text.len() - digits.len()];
    // A space as wide in bytes keeps the places in the text.
    let text = match digits.strip_prefix('-') {
        Some(rest) => format!("{before} {rest}"),
        None => match digits.strip_prefix(MINUS) {
            Some(rest) => format!("{before}\u{2003}{rest}"),
            None => text.to_owned(),
        },
    };
    match parse_count(&text)? {
        0 => Err(ParseError::whole(&text, Fault::NoDash)),
        dash => Ok(dash),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const INCH: Measure = Measure::Length(LengthUnit::Inch);
    const MM: Measure = Measure::Length(LengthUnit::Mm);
    const DENSITY: Measure = Measure::Derived(Derived::Density, LengthUnit::Inch);

    #[test]
    fn what_is_rounded_says_so() {
        for (measure, stored, shown, typed) in [
            (INCH, 12.375 * 25.4, "12 3/8 in", "12 3/8"),
            (INCH, 25.4 / 64.0 * 3.0, "3/64 in", "3/64"),
            (INCH, -1.5 * 25.4, "\u{2212}1 1/2 in", "\u{2212}1 1/2"),
            (INCH, 2.54, "0.1 in", "0.1"),
            (INCH, 314.0, "\u{2248} 12 3/8 in", "314 mm"),
            (INCH, -314.15, "\u{2248} \u{2212}12 3/8 in", "\u{2212}314.15 mm"),
            (MM, 314.325, "314.325 mm", "314.325"),
            (MM, 314.3254, "\u{2248} 314.3 mm", "314.3254"),
            (MM, 0.0, "0 mm", "0"),
            (Measure::Angle, 42.125, "42.125°", "42.125"),
            (Measure::Angle, 1.0 / 3.0, "\u{2248} 0.3°", "0.3333333333333333"),
            (Measure::Pressure(PressureUnit::Psi), 4.0, "\u{2248} 58.02 psi", "4 bar"),
            (Measure::Pressure(PressureUnit::Bar), 4.0, "4 bar", "4"),
            (Measure::Temperature(TemperatureUnit::Fahrenheit), 60.0, "140 °F", "140"),
            (Measure::Flow(FlowUnit::UsGpm), 2.5, "\u{2248} 0.66 US gal/min", "2.5 L/min"),
            (Measure::Percent, 5.0, "5 %", "5"),
            (Measure::Number, -0.5, "\u{2212}0.5", "\u{2212}0.5"),
            (DENSITY, 745.5, "\u{2248} 46.54 lb/ft³", "745.5 kg/m³"),
            (Measure::Derived(Derived::Viscosity, LengthUnit::Mm), 6.7, "6.7 mm²/s", "6.7"),
            (Measure::Count, 6.0, "6", "6"),
            (Measure::Dash, 6.0, "\u{2212}6", "\u{2212}6"),
        ] {
            assert_eq!(measure.show(stored), shown);
            assert_eq!(measure.typed(stored), typed);
        }
    }

    #[test]
    fn a_dash_is_a_name_not_a_sign() {
        for text in ["6", "-6", "\u{2212}6", " - 6 "] {
            assert_eq!(Measure::Dash.parse(text), Ok(6.0), "{text}");
        }
        for (text, said) in [
            ("-0", "sizes are numbered from 1"),
            ("6.5", "a whole number"),
            ("\u{2212}6 in", "without a unit, at character 4"),
        ] {
            let error = Measure::Dash.parse(text).unwrap_err();
            assert!(error.beside().contains(said), "{text}: {}", error.beside());
        }
    }

    #[test]
    fn a_step_lands_on_the_bench() {
        for (measure, from, steps, to) in [
            (MM, 20.0, 1, 21.0),
            (MM, 20.4, 1, 21.0),
            (MM, 20.4, -1, 20.0),
            (MM, 20.4, -10, 11.0),
            (MM, -0.5, 1, 0.0),
            (INCH, 25.4, 1, 25.4 * 17.0 / 16.0),
            (INCH, 26.0, 1, 25.4 * 17.0 / 16.0),
            (INCH, 26.0, -1, 25.4),
            (Measure::Angle, 89.5, 1, 90.0),
            (Measure::Percent, 5.0, 1, 5.5),
        ] {
            let got = measure.step(from, steps);
            assert!((got - to).abs() < 1e-9, "{measure:?} {from} {steps}: {got}");
        }
    }
}
