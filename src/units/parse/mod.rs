//! Reading quantities: one small grammar, shared by all of them.
//!
//! ```text
//! sum      = [sign] term { sign term }
//! term     = number [unit] [joined]       joined: inches after feet
//! number   = decimal | [whole ("-" | spaces)] fraction
//! fraction = whole "/" whole | "⅜" and its like
//! ```
//!
//! A decimal point or a decimal comma may be used, one only. Anything that could be read in two
//! ways is refused rather than guessed: a wrong length is a wrong hose.

mod error;
mod number;
mod scanner;

pub use error::{Fault, ParseError, Quantity};

use number::number;
use scanner::Scanner;

/// A unit: stored value = (number + shift) · scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Unit {
    /// Added first; 0 but for temperatures.
    pub(super) shift: f64,
    /// Stored units in one of this unit.
    pub(super) scale: f64,
}

impl Unit {
    /// A unit whose zero is the stored unit's zero.
    pub(super) const fn of(scale: f64) -> Self {
        Self { shift: 0.0, scale }
    }

    fn stored(self, number: f64) -> f64 {
        (number + self.shift) * self.scale
    }
}

/// How many terms a quantity may be written with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Terms {
    /// One number only.
    One,
    /// Sums and differences.
    Sum,
}

/// How one quantity is written.
#[derive(Debug)]
pub(super) struct Grammar {
    pub(super) quantity: Quantity,
    pub(super) terms: Terms,
    /// A unit, and the smaller one of a number that may follow it without a sign.
    pub(super) joined: Option<(Unit, Unit)>,
    /// Spellings; case does not matter.
    pub(super) units: &'static [(&'static str, Unit)],
}

/// Every grammar, to tell a unit of the wrong quantity from one that does not exist.
const ALL: [&Grammar; 5] = [
    &super::length::LENGTH,
    &super::angle::ANGLE,
    &super::pressure::PRESSURE,
    &super::temperature::TEMPERATURE,
    &super::flow::FLOW,
];

/// Reads `text` as a sum of quantities, each bare number in `bare`. In stored units; finite.
pub(super) fn parse_sum(text: &str, grammar: &Grammar, bare: Unit) -> Result<f64, ParseError> {
    let mut at = Scanner::new(text);
    if at.at_end() {
        return Err(ParseError::whole(text, Fault::Empty));
    }
    let mut negative = at.take_sign().unwrap_or(false);
    let mut sum = 0.0;
    loop {
        sum += term(&mut at, grammar, bare, negative)?;
        if at.at_end() {
            break;
        }
        let before_sign = at;
        negative = match at.take_sign() {
            Some(negative) if grammar.terms == Terms::Sum => negative,
            _ => return Err(unexpected(before_sign)),
        };
    }
    if sum.is_finite() { Ok(sum) } else { Err(ParseError::whole(text, Fault::TooLarge)) }
}

/// One term, and what is joined to it.
fn term(
    at: &mut Scanner,
    grammar: &Grammar,
    bare: Unit,
    negative: bool,
) -> Result<f64, ParseError> {
    // The sign belongs to the number: −40 °F is −40 °C, not −(40 °F).
    let signed = |number: f64| if negative { -number } else { number };
    let value = number(at)?;
    let unit = unit(at, grammar)?;
    let mut stored = unit.unwrap_or(bare).stored(signed(value));
    if let Some((larger, smaller)) = grammar.joined
        && unit == Some(larger)
        && at.take_joint()
    {
        let value = number(at)?;
        let before_unit = *at;
        match self::unit(at, grammar)? {
            Some(unit) if unit != smaller => return Err(unexpected(before_unit)),
            _ => stored += smaller.stored(signed(value)),
        }
    }
    Ok(stored)
}

/// The unit that stands here, the longest spelling that fits; none where no unit stands here.
fn unit(at: &mut Scanner, grammar: &Grammar) -> Result<Option<Unit>, ParseError> {
    at.skip_spaces();
    if let Some((length, unit)) = longest(*at, grammar) {
        at.advance(length);
        return Ok(Some(unit));
    }
    let word = at.word();
    if word.is_empty() {
        return Ok(None);
    }
    let other = ALL.iter().find_map(|g| longest(*at, g).map(|(length, _)| (length, g.quantity)));
    Err(match other {
        Some((length, is)) => at.error(length, Fault::WrongUnit { is, wanted: grammar.quantity }),
        None => at.error(word.len(), Fault::UnknownUnit { wanted: grammar.quantity }),
    })
}

fn longest(at: Scanner, grammar: &Grammar) -> Option<(usize, Unit)> {
    let fits = grammar.units.iter().filter(|(spelling, _)| at.stands_here(spelling));
    fits.max_by_key(|(spelling, _)| spelling.len()).map(|&(spelling, unit)| (spelling.len(), unit))
}

/// What to say of text left over after a term.
fn unexpected(mut at: Scanner) -> ParseError {
    at.skip_spaces();
    let fault = if at.starts_number() { Fault::TwoNumbers } else { Fault::NotUnderstood };
    at.error(at.rest().trim_end().len(), fault)
}

#[cfg(test)]
mod tests {
    use super::super::{Length, LengthUnit, Pressure, PressureUnit};
    use super::ParseError;

    fn refused(text: &str) -> ParseError {
        Length::parse(text, LengthUnit::Inch).unwrap_err()
    }

    /// The text, the part of it that is blamed, and what is said.
    const REFUSED: [(&str, &str, &str); 31] = [
        ("", "", "nothing is written here"),
        ("   ", "   ", "nothing is written here"),
        ("1/0", "0", "divided by zero"),
        ("1//2", "/2", "below the fraction bar"),
        ("1/", "", "below the fraction bar"),
        ("1/x", "x", "below the fraction bar"),
        ("1 2", "2", "two numbers"),
        ("1 2/3 4", "4", "two numbers"),
        ("12 9/8", "9/8", "less than one"),
        ("12-8/8", "8/8", "less than one"),
        ("1.5/2", "/2", "not understood"),
        ("1/2.5", "2.5", "below the fraction bar"),
        ("1/2/3", "/3", "not understood"),
        ("1.000,5", ",5", "one decimal"),
        ("1.2.3", ".3", "one decimal"),
        ("1,000", "1,000", "thousand"),
        ("5,", "5,", "digit"),
        (".", ".", "a number is expected"),
        ("abc", "abc", "a number is expected"),
        ("NaN", "NaN", "a number is expected"),
        ("inf", "inf", "a number is expected"),
        ("-inf", "inf", "a number is expected"),
        ("1e5", "e", "no unit of length"),
        ("12 parsecs", "parsecs", "no unit of length"),
        ("12 psi", "psi", "psi is a unit of pressure, not of length"),
        ("12 in in", "in", "not understood"),
        ("12 +", "", "a number is expected"),
        ("3 + -2", "-2", "a number is expected"),
        ("5' 2 mm", "mm", "not understood"),
        ("12 mm 3", "3", "two numbers"),
        ("12 in;", ";", "not understood"),
    ];

    #[test]
    fn what_is_refused_is_told_with_its_place() {
        for (text, blamed, said) in REFUSED {
            let error = refused(text);
            assert_eq!(&text[error.range()], blamed, "{text}: {error}");
            assert!(error.to_string().contains(said), "{text}: {error}");
        }
    }

    #[test]
    fn too_large_is_refused_not_infinite() {
        let huge = "9".repeat(400);
        for text in [huge.clone(), format!("1/{huge}"), format!("{} ft", "9".repeat(308))] {
            assert!(refused(&text).to_string().contains("too large"), "{text}");
        }
    }

    #[test]
    fn the_pointer_stands_under_the_place() {
        assert_eq!(refused("12⅜ + 1//2").pointed(), "12⅜ + 1//2\n        ^");
        assert_eq!(refused("12\t1//2").pointed(), "12 1//2\n     ^");
        assert_eq!(refused("12 +").pointed(), "12 +\n    ^");
    }

    #[test]
    fn one_sentence_with_the_place() {
        assert_eq!(
            refused("12⅜ + 1//2").to_string(),
            "a whole number is expected below the fraction bar, at character 9 of \u{201c}12⅜ + 1//2\u{201d}"
        );
        let error = Pressure::parse("12 mm", PressureUnit::Bar).unwrap_err();
        assert_eq!(
            error.to_string(),
            "mm is a unit of length, not of pressure, at character 4 of \u{201c}12 mm\u{201d}"
        );
    }
}
