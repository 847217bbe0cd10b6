//! Numbers: decimals, fractions, whole numbers with a fraction.

use super::super::fraction::vulgar;
use super::scanner::{Scanner, is_separator};
use super::{Fault, ParseError};

/// The number that stands here, after spaces; finite, without a sign.
pub(super) fn number(at: &mut Scanner) -> Result<f64, ParseError> {
    at.skip_spaces();
    let start = *at;
    if let Some(value) = take_vulgar(at) {
        return Ok(value);
    }
    let digits = at.take_while(|c| c.is_ascii_digit() || is_separator(c));
    if digits.chars().any(is_separator) {
        return decimal(start, digits);
    }
    let value = whole(start, digits)?;
    if let Some(denominator) = denominator(at)? {
        return Ok(value / denominator);
    }
    Ok(value + fraction_behind(at)?)
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

/// The fraction that belongs to a whole number just read: `12 3/8`, `12-3/8`, `12⅜`; 0 if none.
fn fraction_behind(at: &mut Scanner) -> Result<f64, ParseError> {
    let mut ahead = *at;
    if ahead.take(|c| c == '-').is_none() {
        ahead.skip_spaces();
    }
    let start = ahead;
    if let Some(value) = take_vulgar(&mut ahead) {
        *at = ahead;
        return Ok(value);
    }
    let digits = ahead.take_while(|c| c.is_ascii_digit());
    // What is no fraction is left for the caller: "12 +", "12-5 mm", "1 2".
    if digits.is_empty() || !is_bar(ahead.peek_after_spaces()) {
        return Ok(0.0);
    }
    let numerator = whole(start, digits)?;
    let Some(denominator) = denominator(&mut ahead)? else { return Ok(0.0) };
    if numerator >= denominator {
        let length = start.rest().len() - ahead.rest().len();
        return Err(start.error(length, Fault::FractionNotProper));
    }
    *at = ahead;
    Ok(numerator / denominator)
}

/// What stands below a fraction bar, if a bar stands here.
fn denominator(at: &mut Scanner) -> Result<Option<f64>, ParseError> {
    if !is_bar(at.peek_after_spaces()) {
        return Ok(None);
    }
    at.skip_spaces();
    at.take(|c| is_bar(Some(c)));
    at.skip_spaces();
    let start = *at;
    let digits = at.take_while(|c| c.is_ascii_digit());
    if digits.is_empty() || at.peek().is_some_and(is_separator) {
        return Err(start.error(start.rest().trim_end().len(), Fault::DenominatorExpected));
    }
    let value = whole(start, digits)?;
    if value == 0.0 {
        return Err(start.error(digits.len(), Fault::DividedByZero));
    }
    Ok(Some(value))
}

fn take_vulgar(at: &mut Scanner) -> Option<f64> {
    at.take(|c| vulgar(c).is_some()).and_then(vulgar)
}

/// The solidus and the fraction slash U+2044.
fn is_bar(c: Option<char>) -> bool {
    matches!(c, Some('/' | '\u{2044}'))
}

fn expected(start: Scanner) -> ParseError {
    start.error(start.rest().trim_end().len(), Fault::NumberExpected)
}
