//! What is wrong with what was typed, and where.

use std::fmt;
use std::ops::Range;

/// The quantities that can be typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names say it")]
pub enum Quantity {
    Length,
    Angle,
    Pressure,
    Temperature,
    Flow,
    Density,
    Viscosity,
    Percent,
    Number,
}

impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Length => "length",
            Self::Angle => "angle",
            Self::Pressure => "pressure",
            Self::Temperature => "temperature",
            Self::Flow => "flow",
            Self::Density => "density",
            Self::Viscosity => "viscosity",
            Self::Percent => "a share",
            Self::Number => "a plain number",
        })
    }
}

/// What is wrong with a quantity as it was typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// Only spaces.
    #[error("nothing is written here")]
    Empty,
    /// No number where one has to be.
    #[error("a number is expected")]
    NumberExpected,
    /// `(1 + 2`
    #[error("this parenthesis is never closed")]
    NotClosed,
    /// `1 + 2)`
    #[error("this parenthesis was never opened")]
    NotOpened,
    /// `((((…`
    #[error("there are too many parentheses within each other")]
    TooDeep,
    /// `2 (3 + 4)`
    #[error(
        "there is nothing between them; write +, \u{2212}, * or / between a number and a parenthesis"
    )]
    NothingBetween,
    /// `1/2/3`
    #[error("this can be read in two ways; use parentheses, or spaces about the bar that divides")]
    TwoWays,
    /// `2 in * 3 in`
    #[error("one of the two has to be a plain number")]
    Product,
    /// `12 in / 3.5 in`
    #[error("what is divided by has to be a plain number")]
    Divisor,
    /// `90 °C + 10 °C`
    #[error("temperatures cannot be calculated with; write one number with its unit")]
    OneOnly,
    /// A unit where none can be.
    #[error("a plain number is expected here, without a unit")]
    NoUnit,
    /// `2.5` for a count.
    #[error("a whole number is expected here")]
    NotWhole,
    /// `-2` for a count.
    #[error("a number of 0 or more is expected here")]
    Negative,
    /// `-0` for a dash number.
    #[error("sizes are numbered from 1")]
    NoDash,
    /// `1/0`
    #[error("nothing can be divided by zero")]
    DividedByZero,
    /// `1//2`
    #[error("a whole number is expected below the fraction bar")]
    DenominatorExpected,
    /// `12 9/8`
    #[error("a fraction behind a whole number must be less than one")]
    FractionNotProper,
    /// `1.000,5`
    #[error("a number has one decimal point or comma at most, and no marks for thousands")]
    TwoSeparators,
    /// `1,000`
    #[error(
        "this can be read as one thousand or as one with decimals; leave out the comma or use a point"
    )]
    Thousands,
    /// `1'000`
    #[error(
        "this can be read as one thousand or as feet and inches; put a space behind the foot sign"
    )]
    FeetOrThousands,
    /// `5,`
    #[error("a digit is expected behind the decimal comma")]
    DigitExpected,
    /// `1 2`
    #[error(
        "two numbers stand here with nothing between them; write + or \u{2212}, a unit or a fraction"
    )]
    TwoNumbers,
    /// A unit nobody knows.
    #[error("this is no unit of {wanted}")]
    UnknownUnit {
        /// The quantity asked for.
        wanted: Quantity,
    },
    /// A unit of another quantity.
    #[error("a unit of {is}, not of {wanted}")]
    WrongUnit {
        /// What it is a unit of.
        is: Quantity,
        /// The quantity asked for.
        wanted: Quantity,
    },
    /// Beyond what a number can hold.
    #[error("this number is too large")]
    TooLarge,
    /// A temperature that cannot be.
    #[error("this is below absolute zero")]
    BelowAbsoluteZero,
    /// Anything else.
    #[error("this is not understood")]
    NotUnderstood,
}

/// What was typed, what is wrong with it, and where. `Display` is one sentence.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}, at character {} of \u{201c}{}\u{201d}", self.said(), self.character() + 1, one_line(.text))]
pub struct ParseError {
    text: String,
    range: Range<usize>,
    fault: Fault,
}

impl ParseError {
    /// `range` is in bytes of `text`, on character borders.
    pub(super) fn new(text: &str, range: Range<usize>, fault: Fault) -> Self {
        Self { text: text.to_owned(), range, fault }
    }

    /// The whole text is to blame.
    pub(in crate::units) fn whole(text: &str, fault: Fault) -> Self {
        Self::new(text, 0..text.len(), fault)
    }

    /// What is wrong.
    pub fn fault(&self) -> Fault {
        self.fault
    }

    /// The place, in bytes of the text; empty at its end where something is missing.
    pub fn range(&self) -> Range<usize> {
        self.range.clone()
    }

    /// What is wrong, without the place.
    pub fn said(&self) -> String {
        match self.fault {
            Fault::WrongUnit { .. } => format!("{} is {}", self.blamed(), self.fault),
            fault => fault.to_string(),
        }
    }

    /// What is wrong, with the place in it, to be read beside the text itself.
    pub fn beside(&self) -> String {
        if self.range.start == 0 && self.range.end == self.text.len() {
            return self.said();
        }
        if self.range.is_empty() {
            return format!("{}, at the end", self.said());
        }
        format!("{}, at character {}", self.said(), self.character() + 1)
    }

    /// Two lines for a fixed-width font: the text, and a `^` under the place.
    pub fn pointed(&self) -> String {
        format!("{}\n{}^", one_line(&self.text), " ".repeat(self.character()))
    }

    fn blamed(&self) -> &str {
        self.text.get(self.range.clone()).unwrap_or_default()
    }

    /// Characters before the place.
    fn character(&self) -> usize {
        self.text.get(..self.range.start).map_or(0, |before| before.chars().count())
    }
}

/// Tabs and line breaks as spaces, one for one, so that places stay.
fn one_line(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect()
}
