//! `service-not-given`: fluid, pressure and temperature of a hose.

use crate::checks::context::RunContext;
use crate::checks::words::{and, first_upper};
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "service-not-given",
    severity: Severity::Warn,
    title: "Service conditions not given",
    what: "Fluid, working pressure or temperature left out of the service conditions: what rests \
           on them is not checked, and a hose without a finding looks better than it is known to \
           be.",
    source: Source::fixed(
        Mark::Practice,
        "hose is selected by size, temperature, application, fluid and pressure",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let service = &run.run.service;
    let given = [
        (service.fluid.is_some(), "fluid", &["liner", "static charge"][..]),
        (service.pressure_bar.is_some(), "working pressure", &["pressure"]),
        (service.temperature_c.is_some(), "temperature", &["temperature"]),
    ];
    let missing: Vec<_> = given.into_iter().filter(|(is_given, ..)| !is_given).collect();
    if missing.is_empty() {
        return Vec::new();
    }
    let what: Vec<&str> = missing.iter().map(|(_, what, _)| *what).collect();
    let unchecked: Vec<&str> =
        missing.iter().flat_map(|(.., unchecked)| unchecked.iter().copied()).collect();
    vec![Finding {
        message: format!("{} not given: {} not checked", first_upper(&and(&what)), and(&unchecked)),
        hint: format!("Enter {}", and(&what)),
        ..run.finding(&RULE)
    }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::Fluid;

    #[test]
    fn what_is_missing_is_named_with_what_is_then_unchecked() {
        let fixture = Fixture::edited(|bay| {
            run(bay).service.fluid = None;
            run(bay).service.pressure_bar = Some(4.0);
            run(bay).service.temperature_c = None;
        });
        let found = check(&fixture.context());
        assert_eq!(
            found[0].message,
            "Fluid and temperature not given: liner, static charge and temperature not checked"
        );
    }

    #[test]
    fn a_whole_service_is_silent() {
        let fixture = Fixture::edited(|bay| {
            run(bay).service.fluid = Some(Fluid::Diesel);
            run(bay).service.pressure_bar = Some(0.0);
            run(bay).service.temperature_c = Some(60.0);
        });
        assert_eq!(check(&fixture.context()), []);
    }
}
