//! `not-checked`: service conditions without a figure to check them against.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::{PartRating, ratings};
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "not-checked",
    severity: Severity::Note,
    title: "Not checked",
    what: "A service pressure or temperature where the hose or an end fitting gives no figure to \
           check it against; and suction, which can collapse a hose and has no figure in the \
           catalogue.",
    source: Source::fixed(Mark::BayFile, "no figure in the stock or the catalogue"),
};

/// One finding for each of pressure, suction and temperature that is not checked.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    [pressure(run), suction(run), temperature(run)].into_iter().flatten().collect()
}

fn pressure(run: &RunContext<'_>) -> Option<Finding> {
    run.run.service.pressure_bar?;
    let (rated, unrated): (Vec<_>, Vec<_>) =
        ratings(run.bay, run.run).into_iter().partition(|rating| rating.working_bar.is_some());
    if unrated.is_empty() {
        return None;
    }
    let names = |parts: &[PartRating]| {
        parts.iter().map(|part| part.part.as_str()).collect::<Vec<_>>().join(" and ")
    };
    let checked = if rated.is_empty() {
        "Pressure not checked".to_owned()
    } else {
        format!("Pressure checked against {} only", names(&rated))
    };
    Some(Finding {
        message: format!("{checked}: working pressure of {} unknown", names(&unrated)),
        hint:
            "Enter the manufacturer's working pressure in the stock. The lowest of hose and ends \
               counts (SAE J517)"
                .to_owned(),
        ..run.finding(&RULE)
    })
}

fn suction(run: &RunContext<'_>) -> Option<Finding> {
    run.run.service.sucks().then(|| Finding {
        message: "Suction: collapse not checked, vacuum rating unknown".to_owned(),
        hint: "Ask the manufacturer for the hose's vacuum rating at this temperature".to_owned(),
        ..run.finding(&RULE)
    })
}

fn temperature(run: &RunContext<'_>) -> Option<Finding> {
    run.run.service.temperature_c?;
    if run.temperature_range_c().is_some() {
        return None;
    }
    Some(Finding {
        other: Some(run.hose.id.clone()),
        message: "Temperature not checked: range of this hose unknown".to_owned(),
        hint: "Enter the manufacturer's temperature range of this hose in the stock".to_owned(),
        ..run.finding(&RULE)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::Fluid;

    #[test]
    fn what_is_rated_or_not_asked_for_is_not_named() {
        assert_eq!(check(&Fixture::z().context()), []);
        let fixture = Fixture::edited(|bay| {
            run(bay).service.pressure_bar = Some(5.0);
            run(bay).service.temperature_c = Some(50.0);
        });
        assert_eq!(check(&fixture.context()), []);
    }

    #[test]
    fn missing_figures_are_named_part_by_part() {
        let fixture = Fixture::edited(|bay| {
            run(bay).service.pressure_bar = Some(5.0);
            run(bay).service.temperature_c = Some(50.0);
            bay.stock.ends[0].sizes[0].max_pressure_bar = None;
            bay.stock.hoses[0].temperature_c = None;
        });
        let found = check(&fixture.context());
        assert_eq!(found.len(), 2);
        assert!(
            found[0].message.contains("checked against the hose only")
                && found[0].message.ends_with("working pressure of end A and end B unknown"),
            "{}",
            found[0].message
        );
        assert!(found[1].message.contains("Temperature not checked"));
    }

    #[test]
    fn suction_is_not_passed_over() {
        let by_fluid = Fixture::edited(|bay| run(bay).service.fluid = Some(Fluid::Vacuum));
        let by_pressure = Fixture::edited(|bay| run(bay).service.pressure_bar = Some(-0.3));
        for fixture in [by_fluid, by_pressure] {
            let found = check(&fixture.context());
            assert!(found.len() == 1 && found[0].message.contains("Suction: collapse not checked"));
        }
    }
}
