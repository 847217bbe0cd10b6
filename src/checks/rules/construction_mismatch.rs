//! `construction-mismatch`: ends made for the construction of the hose.

use crate::checks::context::{RunContext, SIDES};
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Mark, Side, Source, name_or};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "construction-mismatch",
    severity: Severity::Fail,
    title: "End fitting for another kind of hose",
    what: "The construction that an end fitting is made for, where it gives one, against that of \
           the hose.",
    source: Source::fixed(
        Mark::Practice,
        "an end grips only the construction it is made for; PTFE and rubber ends differ inside",
    ),
};

/// One finding for each end that does not fit the hose.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    SIDES.into_iter().filter_map(|side| judge(run, side)).collect()
}

fn judge(run: &RunContext<'_>, side: Side) -> Option<Finding> {
    let end = run.end_kind(side)?;
    let made_for = end.for_construction.as_ref()?;
    if *made_for == run.hose.construction {
        return None;
    }
    Some(Finding {
        other: Some(end.id.clone()),
        message: format!(
            "End {}: {} is made for {} hose, this hose is {}: it does not grip",
            side.letter(),
            name_or(&end.name, &end.id),
            made_for.word(),
            run.hose.construction.word(),
        ),
        hint: format!("Select an end fitting for {} hose", run.hose.construction.word()),
        ..run.finding_at_end(&RULE, side)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::Fixture;
    use crate::model::Construction;

    #[test]
    fn a_rubber_end_on_ptfe_hose_fails() {
        let fixture = Fixture::edited(|bay| {
            bay.stock.ends[0].for_construction = Some(Construction::RubberBraid);
        });
        let found = check(&fixture.context());
        assert_eq!(found.len(), 2);
        assert!(found[1].message.contains("made for rubber-braid hose, this hose is ptfe-braid"));
    }

    #[test]
    fn the_right_end_or_one_that_does_not_say_passes() {
        assert_eq!(check(&Fixture::z().context()), []);
        let fixture = Fixture::edited(|bay| bay.stock.ends[0].for_construction = None);
        assert_eq!(check(&fixture.context()), []);
    }
}
