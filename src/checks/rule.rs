//! What a rule says of itself, for lists of rules in window, help and docs.

use super::Severity;
use crate::model::Source;

/// A rule.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuleInfo {
    /// Its id, as in the report.
    pub id: &'static str,
    /// The worst its findings get.
    pub severity: Severity,
    /// A few words for a heading.
    pub title: &'static str,
    /// What it looks at, its limits, and how its value and limit are to be read.
    pub what: &'static str,
    /// Where it comes from.
    pub source: Source,
}
