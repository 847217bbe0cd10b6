//! `brake-line`: brakes take approved assemblies only.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Fluid, Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "brake-line",
    severity: Severity::Note,
    title: "Brakes: approved assemblies only",
    what: "Each hose that carries brake fluid: brakes take complete assemblies approved for \
           them. Clutch hydraulics may carry the same fluid. This program sizes no brake hose.",
    source: Source::fixed(Mark::Practice, "FMVSS 106 and the like; your local rules"),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    if run.run.service.fluid != Some(Fluid::BrakeFluid) {
        return Vec::new();
    }
    vec![Finding {
        message:
            "Brake fluid: on brakes only a complete assembly approved for them, never one made \
                  up by hand"
                .to_owned(),
        hint: "Have brake hoses made and approved to the rules where you drive (FMVSS 106 and the \
               like). This program does not size them"
            .to_owned(),
        ..run.finding(&RULE)
    }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn brake_fluid_and_nothing_else() {
        let of = |fluid: Option<Fluid>| {
            check(&Fixture::edited(|bay| run(bay).service.fluid = fluid).context()).len()
        };
        assert_eq!(of(Some(Fluid::BrakeFluid)), 1);
        assert_eq!(of(Some(Fluid::PowerSteering)) + of(None), 0);
    }
}
