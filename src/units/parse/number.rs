//! Numbers: decimals, fractions, whole numbers with a fraction.

use super::super::fraction::vulgar;
use super::scanner::{Bar, Scanner, is_bar, is_separator};
use super::{Fault, ParseError};

/// A number that was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Number {
    pub(super) value: f64,
    /// Whether it is written with a fraction bar.
    pub(super) barred: bool,
}

/// The number that stands here, after spaces; finite, without a sign. Where it `divides`, a bar
/// stands before it, and a fraction alone could be read in two ways.
pub(super) fn number(at: &mut Scanner, divides: bool) -> Result<Number, ParseError> {
    let plain = |value| Number { value, barred: false };
    at.skip_spaces();
    let start = *at;
    if let Some(value) = take_vulgar(at) {
        return Ok(plain(value));
    }
    let digits = at.take_while(|c| c.is_ascii_digit() || is_separator(c));
    if digits.chars().any(is_separator) {
        return decimal(start, digits).map(plain);
    }
    let value = whole(start, digits)?;
    let bar = at.bar_ahead();
    if divides && bar == Some(Bar::Tight) {
        let mut ahead = *at;
        return match denominator(&mut ahead)? {
            Some(_) => Err(start.error_to(&ahead, Fault::TwoWays)),
            None => Ok(plain(value)),
        };
    }
    if let (Some(bar), false) = (bar, divides) {
        let before = *at;
        if let Some(denominator) = denominator(at)? {
            // `12 / 3 1/2` divides by a number that a fraction belongs to.
            if bar == Bar::Tight || fraction_behind(&mut at.clone())?.is_none() {
                return Ok(Number { value: value / denominator, barred: true });
            }
        }
        *at = before;
        return Ok(plain(value));
    }
    Ok(match fraction_behind(at)? {
        Some(fraction) => Number { value: value + fraction.value, ..fraction },
        None => plain(value),
    })
}

/// Digits with a point or a comma.
fn decimal(start: Scanner, digits: &str) -> Result<f64, ParseError> {
    let (before, after) = digits.split_once(is_separator).unwrap_or((digits, ""));
    if let Some(second) = after.find(is_separator) {
        let mut at = start;
        at.advance(before.len() + 1 + second);
        return Err(at.error(after.len() - second, Fault::TwoSeparators));
    }
    if before.is_empty() && after.is_empty() {
        return Err(expected(start));
    }
    if digits.contains(',') {
        if after.is_empty() {
            return Err(start.error(digits.len(), Fault::DigitExpected));
        }
        if after.len() == 3 && (1..=3).contains(&before.len()) && !before.starts_with('0') {
            return Err(start.error(digits.len(), Fault::Thousands));
        }
    }
    finite(start, digits.len(), &format!("0{before}.{after}0"))
}

/// Digits alone.
fn whole(start: Scanner, digits: &str) -> Result<f64, ParseError> {
    if digits.is_empty() {
        return Err(expected(start));
    }
    finite(start, digits.len(), digits)
}

fn finite(start: Scanner, length: usize, digits: &str) -> Result<f64, ParseError> {
    let value: f64 = digits.parse().map_err(|_| start.error(length, Fault::NumberExpected))?;
    if value.is_finite() { Ok(value) } else { Err(start.error(length, Fault::TooLarge)) }
}

/// The fraction that belongs to a whole number just read: `12 3/8`, `12-3/8`, `12⅜`.
fn fraction_behind(at: &mut Scanner) -> Result<Option<Number>, ParseError> {
    let mut ahead = *at;
    let hyphen = ahead.take(|c| c == '-').is_some();
    if !hyphen {
        ahead.skip_spaces();
    }
    let start = ahead;
    if let Some(value) = take_vulgar(&mut ahead) {
        *at = ahead;
        return Ok(Some(Number { value, barred: false }));
    }
    let digits = ahead.take_while(|c| c.is_ascii_digit());
    // What is no fraction is left for the caller: "12 +", "12-5 mm", "1 2".
    let Some(bar) = ahead.bar_ahead().filter(|_| !digits.is_empty()) else { return Ok(None) };
    let numerator = whole(start, digits)?;
    let below = ahead;
    let Some(denominator) = denominator(&mut ahead)? else {
        return Err(missing_denominator(below));
    };
    if hyphen && bar == Bar::Spaced {
        return Err(at.error_to(&ahead, Fault::TwoWays));
    }
    if numerator >= denominator {
        return Err(start.error_to(&ahead, Fault::FractionNotProper));
    }
    *at = ahead;
    Ok(Some(Number { value: numerator / denominator, barred: true }))
}

/// What stands below the fraction bar that stands here; none where what is behind the bar can only
/// be divided by: `1/2.5`, `12/(1 + 2)`.
fn denominator(at: &mut Scanner) -> Result<Option<f64>, ParseError> {
    let before = *at;
    at.skip_spaces();
    at.take(|c| is_bar(Some(c)));
    at.skip_spaces();
    let start = *at;
    let digits = at.take_while(|c| c.is_ascii_digit());
    let next = at.peek();
    let divides = match next {
        Some(c) if digits.is_empty() => {
            matches!(c, '(' | '+' | '-' | '\u{2212}') || at.starts_number()
        }
        Some(c) => is_separator(c) || vulgar(c).is_some(),
        None => false,
    };
    if divides {
        *at = before;
        return Ok(None);
    }
    if digits.is_empty() {
        return Err(missing_denominator(before));
    }
    let value = whole(start, digits)?;
    if value == 0.0 {
        return Err(start.error(digits.len(), Fault::DividedByZero));
    }
    Ok(Some(value))
}

/// Blames what is behind the bar that stands here.
fn missing_denominator(mut at: Scanner) -> ParseError {
    at.skip_spaces();
    at.take(|c| is_bar(Some(c)));
    at.skip_spaces();
    at.error(at.rest().trim_end().len(), Fault::DenominatorExpected)
}

fn take_vulgar(at: &mut Scanner) -> Option<f64> {
    at.take(|c| vulgar(c).is_some()).and_then(vulgar)
}

fn expected(start: Scanner) -> ParseError {
    start.error(start.rest().trim_end().len(), Fault::NumberExpected)
}
