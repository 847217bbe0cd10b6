//! `temperature`: the service within the hose's range.

use crate::checks::context::RunContext;
use crate::checks::limit::by_limit;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::model::{Mark, Source};

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "temperature",
    severity: Severity::Fail,
    title: "Temperature out of the hose's range",
    what: "The service's temperature against the hose's range, that of the size where it has its own. \
           A fire sleeve does not widen it (NAVEDTRA 14018). A range from memory of the standard missed \
           by less than 5 % of its limit, in °C, is a warning. Heat from obstacles nearby is not in it.",
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
    let (limit, word, end) = if service > most {
        (most, "hotter", "at most")
    } else if service < least {
        (least, "colder", "at least")
    } else {
        return None;
    };
    let (service_words, limit_words) = run.figures().temperatures(service, limit);
    let finding = Finding {
        value: Some(service),
        limit: Some(limit),
        unit: Unit::Celsius,
        message: format!(
            "Works at {service_words}, {word} than the hose stands: {limit_words} {end}"
        ),
        hint: "Choose a hose for this temperature; a fire sleeve buys time in a fire and does not \
               raise the rating"
            .to_owned(),
        source: format!("temperature range: {}", run.hose.sources.temperature),
        ..run.finding(&RULE)
    };
    Some(by_limit(finding, &run.hose.sources.temperature))
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
        assert!(found[0].message.contains("130 °C, hotter than the hose stands: 125 °C at most"));
    }
}
