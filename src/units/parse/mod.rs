//! Reading quantities: one small grammar, shared by all of them.
//!
//! ```text
//! sum      = [sign] product { sign product }
//! product  = factor { ("*" | "×" | "x" | "/" | "÷") [sign] factor }
//! factor   = number [unit] [joined] | "(" sum ")" [unit]     joined: inches after feet
//! number   = decimal | [whole ("-" | spaces)] fraction
//! fraction = whole "/" whole | "⅜" and its like
//! ```
//!
//! A decimal point or a decimal comma may be used, one only. Anything that could be read in two
//! ways is refused rather than guessed: a wrong length is a wrong hose.
//!
//! - A bar between two whole numbers makes a fraction, which holds together more firmly than
//!   anything else: `1/2 in` is half an inch, `2 * 3/4` one and a half. `100 / 2` comes to the same
//!   either way. A bar behind a fraction or another bar divides only with spaces about it:
//!   `12 3/8 / 2`, `100 / 2 / 5`; `1/2/3` is refused.
//! - A hyphen with nothing around it joins a fraction to its whole number (`12-3/8` is 12 3/8); with
//!   a space, or as the sign U+2212, it takes away (`12 - 3/8` is 11 5/8).
//! - A factor is a plain number: `2 * 3 1/2 in` is 7 in. A bare number that is added to something
//!   counts in the unit asked for, `12 3/8 + 5mm`.

mod calculate;
mod error;
mod number;
mod scanner;
pub(super) mod spelling;

pub use error::{Fault, ParseError, Quantity};

use calculate::Calculation;
use scanner::Scanner;

/// A unit: stored value = (number + shift) · scale / over. Two whole numbers keep what is exact on
/// paper exact here: 3/8 in · 254 / 10 is 9.525 mm, · 25.4 is not.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Unit {
    /// Added first; 0 but for temperatures.
    pub(super) shift: f64,
    /// Stored units in `over` of this unit.
    pub(super) scale: f64,
    /// How many of this unit `scale` is in.
    pub(super) over: f64,
}

impl Unit {
    /// A unit whose zero is the stored unit's zero.
    pub(super) const fn of(scale: f64) -> Self {
        Self { shift: 0.0, scale, over: 1.0 }
    }

    fn stored(self, number: f64) -> f64 {
        (number + self.shift) * self.scale / self.over
    }
}

/// What may be calculated with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Terms {
    /// Bare numbers only; what has a unit stands alone.
    One,
    /// Everything.
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

/// Reads `text` as a sum of quantities, each bare number in `bare`. In stored units; finite.
pub(super) fn parse_sum(text: &str, grammar: &Grammar, bare: Unit) -> Result<f64, ParseError> {
    let mut at = Scanner::new(text);
    if at.at_end() {
        return Err(ParseError::whole(text, Fault::Empty));
    }
    let calculation = Calculation::new(grammar, bare);
    let sum = calculation.sum(&mut at, 0)?;
    if !at.at_end() {
        return Err(unexpected(at));
    }
    // Adding 0 makes 0 of −0.
    let stored = calculation.stored(sum) + 0.0;
    if stored.is_finite() { Ok(stored) } else { Err(ParseError::whole(text, Fault::TooLarge)) }
}

/// The unit that stands here, the longest spelling that fits; none where no unit stands here.
fn unit(at: &mut Scanner, grammar: &Grammar) -> Result<Option<Unit>, ParseError> {
    at.skip_spaces();
    if let Some((length, unit)) = longest(*at, grammar) {
        at.advance(length);
        return Ok(Some(unit));
    }
    let word = at.word();
    if word.is_empty() || at.starts_times() {
        return Ok(None);
    }
    let wanted = grammar.quantity;
    if grammar.units.is_empty() {
        return Err(at.error(word.len(), Fault::NoUnit));
    }
    let other =
        spelling::ALL.iter().find_map(|g| longest(*at, g).map(|(length, _)| (length, g.quantity)));
    Err(match other {
        Some((length, is)) => at.error(length, Fault::WrongUnit { is, wanted }),
        None => at.error(word.len(), Fault::UnknownUnit { wanted }),
    })
}

fn longest(at: Scanner, grammar: &Grammar) -> Option<(usize, Unit)> {
    let fits = grammar.units.iter().filter(|(spelling, _)| at.stands_here(spelling));
    fits.max_by_key(|(spelling, _)| spelling.len()).map(|&(spelling, unit)| (spelling.len(), unit))
}

/// What to say of text left over after a term.
fn unexpected(mut at: Scanner) -> ParseError {
    at.skip_spaces();
    let fault = match at.peek() {
        Some(')') => Fault::NotOpened,
        Some('(') => Fault::NothingBetween,
        _ if at.starts_number() => Fault::TwoNumbers,
        _ => Fault::NotUnderstood,
    };
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
    const REFUSED: [(&str, &str, &str); 55] = [
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
        ("12 1/2.5", "2.5", "below the fraction bar"),
        ("1/2/3", "/3", "read in two ways"),
        ("100 / 2/5", "/5", "read in two ways"),
        ("12 3/8/2", "/2", "read in two ways"),
        ("12 in / 3/4", "3/4", "read in two ways"),
        ("12 in/3/4", "3/4", "read in two ways"),
        ("12-3 / 8", "-3 / 8", "read in two ways"),
        ("5 / 0", "0", "divided by zero"),
        ("5.5 / 0", "0", "divided by zero"),
        ("5 / (2 - 2)", "(2 - 2)", "divided by zero"),
        ("2 in * 3 in", "3 in", "one of the two has to be a plain number"),
        ("12 / (3 in)", "(3 in)", "what is divided by has to be a plain number"),
        ("12 in / 3.5 in", "3.5 in", "what is divided by has to be a plain number"),
        ("(1 + 2", "(1 + 2", "never closed"),
        ("2 * (3", "(3", "never closed"),
        ("1 + 2)", ")", "never opened"),
        ("()", ")", "a number is expected"),
        ("2 (3 + 4)", "(3 + 4)", "nothing between them"),
        ("(3 + 4) 2", "2", "two numbers"),
        ("(3 mm + 4) in", "in", "not understood"),
        ("2 * ", "", "a number is expected"),
        ("* 2", "* 2", "a number is expected"),
        ("2 ** 3", "* 3", "a number is expected"),
        ("1'000", "000", "thousand"),
        ("12,375 mm", "12,375", "thousand"),
        ("1 000", "000", "two numbers"),
        ("5x", "", "a number is expected"),
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
    fn parentheses_without_end_are_refused_not_followed() {
        let deep = "(".repeat(100_000);
        assert!(refused(&deep).to_string().contains("too many parentheses"));
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
