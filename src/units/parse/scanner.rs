//! A place in the text, and steps from there.

use super::super::fraction::vulgar;
use super::{Fault, ParseError};

/// A fraction bar or division sign, and what is about it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Bar {
    /// Nothing: `3/8`.
    Tight,
    /// Spaces, on one side at least: `100 / 8`.
    Spaced,
}

/// What stands between two factors.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Operator {
    /// `*`, `×`, `x`
    Times,
    /// `/` with a space about it, `÷`
    Bar,
    /// `/` with nothing about it
    TightBar,
}

/// A place in a text. Copied to remember it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scanner<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Scanner<'a> {
    pub(super) fn new(text: &'a str) -> Self {
        Self { text, at: 0 }
    }

    /// What is left.
    pub(super) fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    /// The next character.
    pub(super) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    pub(super) fn advance(&mut self, bytes: usize) {
        self.at += bytes;
    }

    pub(super) fn skip_spaces(&mut self) {
        self.advance(self.rest().len() - self.rest().trim_start().len());
    }

    /// Whether only spaces are left; skips them.
    pub(super) fn at_end(&mut self) -> bool {
        self.skip_spaces();
        self.rest().is_empty()
    }

    /// The longest stretch from here of characters that hold; steps over it.
    pub(super) fn take_while(&mut self, holds: impl Fn(char) -> bool) -> &'a str {
        let rest = self.rest();
        let length = rest.find(|c| !holds(c)).unwrap_or(rest.len());
        self.advance(length);
        rest.get(..length).unwrap_or_default()
    }

    /// Steps over one character that holds.
    pub(super) fn take(&mut self, holds: impl Fn(char) -> bool) -> Option<char> {
        let next = self.peek().filter(|&c| holds(c))?;
        self.advance(next.len_utf8());
        Some(next)
    }

    /// A plus or minus, after spaces: whether it is a minus.
    pub(super) fn take_sign(&mut self) -> Option<bool> {
        let before = *self;
        self.skip_spaces();
        let sign = self.take(|c| matches!(c, '+' | '-' | '\u{2212}')).map(|c| c != '+');
        if sign.is_none() {
            *self = before;
        }
        sign
    }

    /// The bar that stands here, after spaces.
    pub(super) fn bar_ahead(&self) -> Option<Bar> {
        let mut ahead = *self;
        ahead.skip_spaces();
        ahead.take(|c| is_bar(Some(c)))?;
        let spaced = !is_bar(self.peek()) || ahead.peek().is_some_and(char::is_whitespace);
        Some(if spaced { Bar::Spaced } else { Bar::Tight })
    }

    /// An operator, after spaces.
    pub(super) fn take_operator(&mut self) -> Option<Operator> {
        let mut ahead = *self;
        ahead.skip_spaces();
        let operator = match (self.bar_ahead(), ahead.peek()?) {
            (Some(Bar::Tight), _) => Operator::TightBar,
            (Some(Bar::Spaced), _) | (None, '÷') => Operator::Bar,
            (None, '*' | '×') => Operator::Times,
            (None, _) if ahead.starts_times() => Operator::Times,
            (None, _) => return None,
        };
        ahead.take(|_| true);
        *self = ahead;
        Some(operator)
    }

    /// Whether the letter x stands here as a multiplication sign.
    pub(super) fn starts_times(&self) -> bool {
        let mut letters = self.rest().chars();
        matches!(letters.next(), Some('x' | 'X'))
            && !letters.next().is_some_and(char::is_alphabetic)
    }

    /// What joins inches to feet: nothing, spaces, or a hyphen with nothing around it. Whether a
    /// number follows; stands before it then, and where it was if not.
    pub(super) fn take_joint(&mut self) -> bool {
        let before = *self;
        if self.take(|c| c == '-').is_none() {
            self.skip_spaces();
        }
        let joined = self.starts_number();
        if !joined {
            *self = before;
        }
        joined
    }

    pub(super) fn starts_number(&self) -> bool {
        self.peek().is_some_and(|c| c.is_ascii_digit() || is_separator(c) || vulgar(c).is_some())
    }

    /// Whether this spelling stands here, as a whole word; ASCII letters in either case.
    pub(super) fn stands_here(&self, spelling: &str) -> bool {
        let Some((here, after)) = self.rest().split_at_checked(spelling.len()) else {
            return false;
        };
        let whole = |c: char| !(c.is_alphabetic() && spelling.ends_with(char::is_alphabetic));
        here.eq_ignore_ascii_case(spelling) && after.chars().next().is_none_or(whole)
    }

    /// The letters and signs from here that could be meant as a unit.
    pub(super) fn word(&self) -> &'a str {
        let mut ahead = *self;
        if ahead.peek().is_some_and(|c| c.is_alphabetic() || "°º\"'″′”’%".contains(c)) {
            ahead.take_while(|c| c.is_alphabetic() || "°º\"'″′”’%./".contains(c))
        } else {
            ""
        }
    }

    /// An error about `length` bytes from here.
    pub(super) fn error(&self, length: usize, fault: Fault) -> ParseError {
        ParseError::new(self.text, self.at..self.at + length, fault)
    }

    /// An error about all from here to another place in the same text, without spaces at its end.
    pub(super) fn error_to(&self, end: &Self, fault: Fault) -> ParseError {
        let between = self.text.get(self.at..end.at).unwrap_or_default();
        self.error(between.trim_end().len(), fault)
    }
}

/// The solidus and the fraction slash U+2044.
pub(super) fn is_bar(c: Option<char>) -> bool {
    matches!(c, Some('/' | '\u{2044}'))
}

pub(super) fn is_separator(c: char) -> bool {
    matches!(c, '.' | ',')
}
