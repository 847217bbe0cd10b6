//! `positions-chosen`: not every combination of movements is checked.

use crate::checks::context::blank;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::motion::Positions;
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "positions-chosen",
    severity: Severity::Note,
    title: "Not every position checked",
    what: "Where the extremes of all movements have more than 64 combinations, 64 of them are \
           checked, such that any three movements still meet in all eight of their combinations; \
           beyond 31 movements each is checked by itself.",
    source: Source::fixed(
        Mark::Memory,
        "orthogonal array of strength three (Hedayat, Sloane and Stufken, 1999)",
    ),
};

/// At most one finding.
pub(in crate::checks) fn check(positions: &Positions) -> Option<Finding> {
    (!positions.is_whole()).then(|| Finding {
        message: format!(
            "{} of {} combinations of movements checked",
            positions.all.len() - 1,
            positions.combinations
        ),
        hint: "Delete movements that do not matter here".to_owned(),
        ..blank(&RULE, None)
    })
}
