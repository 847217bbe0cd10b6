//! Shares, plain numbers and counts.

use super::decimal;
use super::parse::spelling::{NUMBER, ONE, PERCENT};
use super::parse::{Fault, ParseError, parse_sum};

/// A share, kept in per cent.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Percent(f64);

impl Percent {
    /// From per cent.
    pub const fn from_pct(pct: f64) -> Self {
        Self(pct)
    }

    /// In per cent.
    pub const fn pct(self) -> f64 {
        self.0
    }

    /// Reads what people type: `5`, `5 %`, `7,5 per cent`.
    ///
    /// # Errors
    /// [`ParseError`], with the place.
    pub fn parse(text: &str) -> Result<Self, ParseError> {
        parse_sum(text, &PERCENT, ONE).map(Self)
    }

    /// With its sign, to the nearest 0.1: `5 %`.
    pub fn show(self) -> String {
        format!("{} %", decimal(self.0, 1))
    }
}

/// A number to so many significant figures, zeros at the end dropped: `8400`, `0.013`.
pub fn significant(value: f64, figures: u32) -> String {
    if value == 0.0 || !value.is_finite() {
        return decimal(value, 0);
    }
    let exponent = value.abs().log10().floor() as i32;
    let places = i32::try_from(figures).unwrap_or(i32::MAX).saturating_sub(1) - exponent;
    if places >= 0 {
        return decimal(value, places as usize);
    }
    let step = 10_f64.powi(-places);
    decimal((value / step).round() * step, 0)
}

/// Reads a plain number, or a sum that comes to one.
///
/// # Errors
/// [`ParseError`], with the place.
pub fn parse_number(text: &str) -> Result<f64, ParseError> {
    parse_sum(text, &NUMBER, ONE)
}

/// Reads a count: a whole number, or a sum that comes to one.
///
/// # Errors
/// [`ParseError`], with the place; also for a fraction and for anything below 0.
pub fn parse_count(text: &str) -> Result<u32, ParseError> {
    let number = parse_number(text)?;
    let fault = if number < 0.0 {
        Fault::Negative
    } else if number > f64::from(u32::MAX) {
        Fault::TooLarge
    } else if number.fract() != 0.0 {
        Fault::NotWhole
    } else {
        return Ok(number as u32);
    };
    Err(ParseError::whole(text, fault))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_as_people_type_them() {
        for (text, pct) in [
            ("5", 5.0),
            ("5 %", 5.0),
            ("5%", 5.0),
            ("7,5 per cent", 7.5),
            ("5 + 2 1/2 %", 7.5),
            ("(5 + 8) / 2", 6.5),
        ] {
            let read = Percent::parse(text).unwrap().pct();
            assert!((read - pct).abs() < 1e-12, "{text}: {read}");
        }
        assert_eq!(Percent::from_pct(7.5).show(), "7.5 %");
        let error = Percent::parse("5 mm").unwrap_err();
        assert_eq!(error.said(), "mm is a unit of length, not of a share");
    }

    #[test]
    fn significant_figures() {
        for (value, figures, text) in [
            (8412.3, 2, "8400"),
            (0.013_12, 2, "0.013"),
            (0.5, 3, "0.5"),
            (99.96, 3, "100"),
            (-1234.0, 3, "\u{2212}1230"),
            (0.0, 2, "0"),
        ] {
            assert_eq!(significant(value, figures), text);
        }
    }

    #[test]
    fn numbers_and_counts() {
        assert_eq!(parse_number("-0.5"), Ok(-0.5));
        assert_eq!(parse_number("3 * (2 - 1/2)"), Ok(4.5));
        assert_eq!(parse_number("5 mm").unwrap_err().fault(), Fault::NoUnit);
        assert_eq!(parse_count("2 * 3"), Ok(6));
        assert_eq!(parse_count("0"), Ok(0));
        for (text, fault) in [
            ("2.5", Fault::NotWhole),
            ("-1", Fault::Negative),
            ("99999999999", Fault::TooLarge),
            ("", Fault::Empty),
        ] {
            assert_eq!(parse_count(text).unwrap_err().fault(), fault, "{text}");
        }
    }
}
