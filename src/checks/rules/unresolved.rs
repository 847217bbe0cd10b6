//! `unresolved`: a hose that names what is not in the bay.

use crate::checks::context::blank;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::Missing;
use crate::model::{Bay, Mark, Run, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "unresolved",
    severity: Severity::Fail,
    title: "Hose cannot be calculated",
    what: "Hoses that name a port, hose, size or end fitting that does not exist: they have no \
           lengths, and no other rule checks them.",
    source: Source::fixed(Mark::BayFile, ""),
};

/// The one finding of such a run, placed at its first port where that one is there.
pub(in crate::checks) fn check(bay: &Bay, run: &Run, missing: &Missing) -> Finding {
    Finding {
        point: bay.port(&run.from.port).map(|port| port.at),
        message: format!("Hose cannot be calculated: {missing}"),
        hint: "Select one that exists, or add it to the bay".to_owned(),
        ..blank(&RULE, Some(run.id.clone()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::engine::solve_run;

    #[test]
    fn the_missing_thing_is_named() {
        let mut bay = Fixture::z().bay;
        run(&mut bay).hose = "gone".to_owned();
        let run = &bay.routings[0].runs[0];
        let missing = solve_run(&bay, run).unwrap_err();
        let found = check(&bay, run, &missing);
        assert!(found.message.contains("there is no hose \"gone\""), "{}", found.message);
        assert_eq!(found.point, Some(bay.ports[0].at));
    }
}
