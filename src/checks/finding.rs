//! A finding: diagnostics as data.

use glam::DVec3;

/// Ordered worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// To fix before cutting.
    Fail,
    /// Wants a look.
    Warn,
    /// Information.
    Note,
}

impl Severity {
    /// The key of the report.
    pub fn word(self) -> &'static str {
        match self {
            Self::Fail => "fail",
            Self::Warn => "warn",
            Self::Note => "note",
        }
    }

    /// What it is called to people.
    pub fn noun(self) -> &'static str {
        match self {
            Self::Fail => "fault",
            Self::Warn => "warning",
            Self::Note => "note",
        }
    }
}

/// The unit of a finding's value and limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names say it")]
pub enum Unit {
    Mm,
    Degree,
    Percent,
    Bar,
    Celsius,
    Dash,
    None,
}

impl Unit {
    /// The word of the report; empty for a bare number.
    pub fn word(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Degree => "deg",
            Self::Percent => "%",
            Self::Bar => "bar",
            Self::Celsius => "C",
            Self::Dash => "dash",
            Self::None => "",
        }
    }
}

/// One fault, warning or note. Messages name lengths in the bay's units for display; `value`, `limit` and
/// `unit` are always the contract's units.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Id of the rule, such as `bend-radius`.
    pub rule: &'static str,
    /// Fault, warning or note.
    pub severity: Severity,
    /// Id of the run; none for the bay as a whole.
    pub run: Option<String>,
    /// Id of another thing that it is about: a port, an end fitting, a JSON Pointer.
    pub other: Option<String>,
    /// Distance along the drawn centre line from `E_A`.
    pub at_mm: Option<f64>,
    /// The place in the bay.
    pub point: Option<DVec3>,
    /// The figure found.
    pub value: Option<f64>,
    /// Its limit.
    pub limit: Option<f64>,
    /// Unit of both.
    pub unit: Unit,
    /// What is wrong, with the figure and its limit; no place, no full stop at the end.
    pub message: String,
    /// What to do about it; no full stop at the end.
    pub hint: String,
    /// Where the rule comes from.
    pub source: String,
}
