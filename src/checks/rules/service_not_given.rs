//! `service-not-given`: what a hose carries, how hot and at what pressure.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Mark, Source};

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "service-not-given",
    severity: Severity::Warn,
    title: "What it carries is not given",
    what: "The fluid, the working pressure or the temperature is left out of the service: whatever rests on \
           it is then not checked, and a hose without a finding looks better than it is known to be.",
    source: Source::fixed(
        Mark::Practice,
        "a hose is chosen by size, temperature, application, fluid and pressure",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let service = &run.run.service;
    let given = [
        (service.fluid.is_some(), "what this hose carries", "the liner and static charge"),
        (service.pressure_bar.is_some(), "its working pressure", "pressure"),
        (service.temperature_c.is_some(), "its temperature", "temperature"),
    ];
    let missing: Vec<_> = given.into_iter().filter(|(is_given, ..)| !is_given).collect();
    if missing.is_empty() {
        return Vec::new();
    }
    let what: Vec<&str> = missing.iter().map(|(_, what, _)| *what).collect();
    let unchecked: Vec<&str> = missing.iter().map(|(.., unchecked)| *unchecked).collect();
    let are = if what.len() == 1 { "is" } else { "are" };
    vec![Finding {
        message: sentence(&format!(
            "{} {are} not given; not checked: {}",
            and(&what),
            and(&unchecked)
        )),
        hint: "Say what it carries, how hot and at what pressure".to_owned(),
        ..run.finding(&RULE)
    }]
}

/// "a, b and c".
fn and(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
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
            "What this hose carries and its temperature are not given; not checked: the liner and \
             static charge and temperature"
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
