//! `refrigerant`: licensed practice only.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Fluid, Mark, Source};

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "refrigerant",
    severity: Severity::Note,
    title: "Refrigerant is licensed practice",
    what: "Every run that carries refrigerant: licensed practice, and hose made for it. This program \
           sizes no refrigerant line.",
    source: Source::fixed(Mark::Practice, "licensed practice; your local rules"),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    if run.run.service.fluid != Some(Fluid::Refrigerant) {
        return Vec::new();
    }
    vec![Finding {
        message: "Carries refrigerant: work on it is for licensed people, with hose and ends made \
                  for it"
            .to_owned(),
        hint: "Have this line made, filled and tested by a licensed workshop; this program does \
               not size it"
            .to_owned(),
        ..run.finding(&RULE)
    }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn refrigerant_and_nothing_else() {
        let of = |fluid: Option<Fluid>| {
            check(&Fixture::edited(|bay| run(bay).service.fluid = fluid).context()).len()
        };
        assert_eq!(of(Some(Fluid::Refrigerant)), 1);
        assert_eq!(of(Some(Fluid::Coolant)) + of(None), 0);
    }
}
