//! `maker-mix`: hose and end fittings of one manufacturer.

use crate::checks::context::{RunContext, SIDES};
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Mark, Side, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "maker-mix",
    severity: Severity::Warn,
    title: "Hose and end fitting of two manufacturers",
    what: "The manufacturer of the hose against that of each end fitting, where both are given \
           (capitals and spaces around the name do not count).",
    source: Source::fixed(
        Mark::Practice,
        "tolerances differ between manufacturers, and they may not seal",
    ),
};

/// One finding for each end fitting of another manufacturer.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    SIDES.into_iter().filter_map(|side| judge(run, side)).collect()
}

fn judge(run: &RunContext<'_>, side: Side) -> Option<Finding> {
    let end = run.end_kind(side)?;
    let (hose_by, end_by) = (run.hose.maker.as_deref()?, end.maker.as_deref()?);
    if plain(hose_by) == plain(end_by) {
        return None;
    }
    Some(Finding {
        other: Some(end.id.clone()),
        message: format!(
            "End {}: hose by {hose_by}, end fitting by {end_by}; it may not seal",
            side.letter(),
        ),
        hint: "Select hose and end fittings of one manufacturer, or ask both whether they fit together"
            .to_owned(),
        ..run.finding_at_end(&RULE, side)
    })
}

fn plain(name: &str) -> String {
    name.trim().to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::Fixture;

    fn makers(hose: Option<&str>, end: Option<&str>) -> Vec<Finding> {
        let fixture = Fixture::edited(|bay| {
            bay.stock.hoses[0].maker = hose.map(str::to_owned);
            bay.stock.ends[0].maker = end.map(str::to_owned);
        });
        check(&fixture.context())
    }

    #[test]
    fn two_makers_are_named_at_both_ends() {
        let found = makers(Some("Invented One"), Some("Invented Two"));
        assert_eq!(found.len(), 2);
        assert!(found[0].message.contains("Invented One") && found[0].message.contains("Two"));
    }

    #[test]
    fn one_maker_or_an_unknown_one_passes() {
        assert_eq!(makers(Some("Invented One"), Some(" invented one ")), []);
        assert_eq!(makers(Some("Invented One"), None), []);
        assert_eq!(makers(None, Some("Invented One")), []);
    }
}
