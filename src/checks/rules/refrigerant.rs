//! `refrigerant`: licensed technicians only.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Fluid, Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "refrigerant",
    severity: Severity::Note,
    title: "Refrigerant: licensed technicians only",
    what: "Each hose that carries refrigerant: work for a licensed technician, and hose made for \
           it. This program sizes no refrigerant hose.",
    source: Source::fixed(Mark::Practice, "licensed technicians; your local rules"),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    if run.run.service.fluid != Some(Fluid::Refrigerant) {
        return Vec::new();
    }
    vec![Finding {
        message: "Refrigerant: work for a licensed technician, with hose and ends made for it"
            .to_owned(),
        hint:
            "Have this hose made, fitted, filled and tested by a licensed technician. This program \
               does not size it"
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
