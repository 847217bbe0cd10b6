//! `unknown-key`: keys of the bay file that this version does not know.

use crate::checks::context::blank;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Bay, Mark, Source, unknown_keys};
use crate::units::quotable;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "unknown-key",
    severity: Severity::Warn,
    title: "Unknown key in the file",
    what: "Keys of the bay file that this version does not know: kept on saving, not read. They \
           are named by their JSON Pointer (RFC 6901), for the whole file and not for one \
           routing.",
    source: Source::fixed(Mark::BayFile, ""),
};

/// One finding for each key, in the order of the file.
pub(in crate::checks) fn check(bay: &Bay) -> Vec<Finding> {
    unknown_keys(bay)
        .into_iter()
        .map(|pointer| Finding {
            message: format!("Unknown key {}: kept in the file, not read", quotable(&pointer)),
            hint: "Check the spelling. If it is your own, leave it".to_owned(),
            other: Some(pointer),
            ..blank(&RULE, None)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn each_key_is_named_by_its_place() {
        let mut bay = Fixture::z().bay;
        assert_eq!(check(&bay), []);
        run(&mut bay).extra.push(("colour/size".to_owned(), serde_json::Value::Null));
        let found = check(&bay);
        assert_eq!(found[0].other.as_deref(), Some("/routings/0/runs/0/colour~1size"));
        assert_eq!(found[0].run, None);
    }
}
