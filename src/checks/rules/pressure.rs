//! `pressure`: the service pressure within the working pressure of the weakest part.

use crate::checks::context::RunContext;
use crate::checks::limit::with_limit_severity;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::weakest;
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "pressure",
    severity: Severity::Fail,
    title: "Pressure above working pressure",
    what: "The service pressure against the working pressure of the assembly: the lowest of \
           those of hose and ends that are known. Where that is the hose's and from memory of \
           the standard, less than 5 % above it is a warning.",
    source: Source::fixed(
        Mark::Published,
        "SAE J517: the working pressure of an assembly is the lower of hose's and ends'",
    ),
};

/// Pressures within this count as equal: a psi figure there and back.
const EPS_BAR: f64 = 1e-9;

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    judge(run).into_iter().collect()
}

fn judge(run: &RunContext<'_>) -> Option<Finding> {
    let service = run.run.service.pressure_bar?;
    let (part, working) = weakest(run.bay, run.run)?;
    if service <= working + EPS_BAR {
        return None;
    }
    let (service_words, working_words) = run.figures().pressures(service, working);
    // The ends' figures are the builder's own.
    let limit_source = (part == "the hose").then_some(&run.hose.sources.pressure);
    let source = if part == "the hose" {
        format!("{}; the hose's: {}", RULE.source, run.hose.sources.pressure)
    } else {
        RULE.source.to_string()
    };
    let finding = Finding {
        value: Some(service),
        limit: Some(working),
        unit: Unit::Bar,
        message: format!(
            "Service pressure {service_words}, working pressure of {part} {working_words}"
        ),
        hint: format!(
            "Select hose and end fittings rated for {service_words} or more, with margin for pressure peaks"
        ),
        source,
        ..run.finding(&RULE)
    };
    Some(match limit_source {
        Some(source) => with_limit_severity(finding, source),
        None => finding,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    fn at(bar: f64, end_bar: Option<f64>) -> Vec<Finding> {
        let fixture = Fixture::edited(|bay| {
            run(bay).service.pressure_bar = Some(bar);
            bay.stock.ends[0].sizes[0].max_pressure_bar = end_bar;
        });
        check(&fixture.context())
    }

    #[test]
    fn the_hose_is_the_weakest() {
        assert_eq!(at(100.0, Some(120.0)), []);
        let found = at(100.1, Some(120.0));
        assert_eq!((found[0].value, found[0].limit), (Some(100.1), Some(100.0)));
        assert!(
            found[0].message == "Service pressure 100.1 bar, working pressure of the hose 100 bar"
        );
    }

    #[test]
    fn an_end_is_the_weakest() {
        let found = at(90.0, Some(80.0));
        assert!(
            found[0].message.contains("working pressure of end A 80 bar"),
            "{}",
            found[0].message
        );
        assert_eq!(at(80.0, Some(80.0)), []);
    }

    #[test]
    fn unknown_ratings_are_not_made_up() {
        assert_eq!(at(100.0, None), []);
        let fixture = Fixture::edited(|bay| {
            run(bay).service.pressure_bar = Some(1e4);
            bay.stock.hoses[0].sizes[0].max_pressure_bar = None;
            bay.stock.ends[0].sizes[0].max_pressure_bar = None;
        });
        assert_eq!(check(&fixture.context()), []);
    }
}
