//! `positions-chosen`: not every combination of movements was looked at.

use crate::checks::context::blank;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::motion::Positions;
use crate::model::{Mark, Source};

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "positions-chosen",
    severity: Severity::Note,
    title: "Not every position looked at",
    what: "Where the extremes of all movements have more than 64 combinations, 64 of them are looked at, \
           chosen so that any three movements still meet in all eight of their combinations; past 31 \
           movements each is looked at by itself.",
    source: Source::fixed(
        Mark::Memory,
        "orthogonal array of strength three (Hedayat, Sloane and Stufken, 1999)",
    ),
};

/// At most one finding.
pub(in crate::checks) fn check(positions: &Positions) -> Option<Finding> {
    (!positions.is_whole()).then(|| Finding {
        message: format!(
            "{} of {} combinations of movements are looked at",
            positions.all.len() - 1,
            positions.combinations
        ),
        hint: "Leave out movements that do not matter here".to_owned(),
        ..blank(&RULE, None)
    })
}
