//! `both-at-limit`: highest pressure and highest temperature not at the same time.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::weakest;
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "both-at-limit",
    severity: Severity::Warn,
    title: "Pressure and temperature both near their limits",
    what: "The service pressure at 90 % of the working pressure or more and, at once, the \
           service temperature at 90 % of the hose's upper limit or more, that limit counted \
           from 0 °C (not checked where it is not above 0 °C). The value is the lower of the two \
           shares. The 10 % are this program's reading of \"not simultaneously\".",
    source: Source::fixed(
        Mark::Published,
        "FAA AC 43.13-1B, Table 9-3: maximum temperatures and pressures should not be used \
         simultaneously",
    ),
};

/// Per cent of a limit from which it counts as reached.
const NEAR_PCT: f64 = 90.0;
/// Shares within this, per cent, count as equal.
const EPS_PCT: f64 = 1e-9;

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    judge(run).into_iter().collect()
}

fn judge(run: &RunContext<'_>) -> Option<Finding> {
    let (bar, celsius) = (run.run.service.pressure_bar?, run.run.service.temperature_c?);
    let (_, working) = weakest(run.bay, run.run)?;
    let [_, most] = run.temperature_range_c()?;
    if working <= 0.0 || most <= 0.0 {
        return None;
    }
    let (pressure_pct, temperature_pct) = (100.0 * bar / working, 100.0 * celsius / most);
    let lower = pressure_pct.min(temperature_pct);
    if lower < NEAR_PCT - EPS_PCT {
        return None;
    }
    let figures = run.figures();
    let (bar_words, working_words) = figures.pressures(bar, working);
    Some(Finding {
        value: Some(lower),
        limit: Some(NEAR_PCT),
        unit: Unit::Percent,
        message: format!(
            "Pressure {bar_words} of {working_words} and temperature {} of {}: both above 90 % of their \
             limits",
            figures.temperature(celsius),
            figures.temperature(most),
        ),
        hint: "Select a hose with more margin in one of the two".to_owned(),
        ..run.finding(&RULE)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    fn at(bar: f64, celsius: f64) -> usize {
        let fixture = Fixture::edited(|bay| {
            run(bay).service.pressure_bar = Some(bar);
            run(bay).service.temperature_c = Some(celsius);
        });
        check(&fixture.context()).len()
    }

    #[test]
    fn both_have_to_be_near() {
        // 100 bar and 200 °C are the limits.
        assert_eq!(at(90.0, 180.0), 1);
        assert_eq!(at(89.9, 200.0), 0);
        assert_eq!(at(100.0, 179.9), 0);
    }

    #[test]
    fn the_lower_share_is_the_value() {
        let fixture = Fixture::edited(|bay| {
            run(bay).service.pressure_bar = Some(95.0);
            run(bay).service.temperature_c = Some(184.0);
        });
        let found = check(&fixture.context());
        assert!((found[0].value.unwrap() - 92.0).abs() < 1e-9);
    }
}
