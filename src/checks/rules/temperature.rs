//! `temperature`: the service temperature within the hose's range.

use crate::checks::context::RunContext;
use crate::checks::limit::with_limit_severity;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "temperature",
    severity: Severity::Fail,
    title: "Temperature outside the hose's range",
    what: "The service temperature against the hose's range, that of the size where it has its \
           own. A fire sleeve does not widen it (NAVEDTRA 14018). A range from memory of the \
           standard missed by less than 5 % of its limit, in °C, is a warning. Heat from \
           obstacles nearby does not count.",
    source: Source::fixed(
        Mark::Published,
        "range: the hose's own table, as marked there; fire sleeve: NAVEDTRA 14018",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    judge(run).into_iter().collect()
}

fn judge(run: &RunContext<'_>) -> Option<Finding> {
    let service = run.run.service.temperature_c?;
    let [least, most] = run.temperature_range_c()?;
    let (limit, word) = if service > most {
        (most, "maximum")
    } else if service < least {
        (least, "minimum")
    } else {
        return None;
    };
    let (service_words, limit_words) = run.figures().temperatures(service, limit);
    let finding = Finding {
        value: Some(service),
        limit: Some(limit),
        unit: Unit::Celsius,
        message: format!("Service temperature {service_words}, {word} of the hose {limit_words}"),
        hint: format!(
            "Select a hose rated for {service_words}. A fire sleeve does not raise the rating"
        ),
        source: format!("temperature range: {}", run.hose.sources.temperature),
        ..run.finding(&RULE)
    };
    Some(with_limit_severity(finding, &run.hose.sources.temperature))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    fn at(celsius: f64) -> Option<f64> {
        let fixture = Fixture::edited(|bay| run(bay).service.temperature_c = Some(celsius));
        check(&fixture.context()).first().and_then(|found| found.limit)
    }

    #[test]
    fn both_ends_of_the_range_are_in_it() {
        assert_eq!((at(200.0), at(-54.0)), (None, None));
        assert_eq!((at(200.1), at(-54.1)), (Some(200.0), Some(-54.0)));
    }

    #[test]
    fn the_range_of_the_size_goes_first() {
        let fixture = Fixture::edited(|bay| {
            run(bay).service.temperature_c = Some(130.0);
            bay.stock.hoses[0].sizes[0].temperature_c = Some([-40.0, 125.0]);
        });
        let found = check(&fixture.context());
        assert!(found[0].message == "Service temperature 130 °C, maximum of the hose 125 °C");
    }
}
