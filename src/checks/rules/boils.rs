//! `boils`: hot water and coolant under enough pressure to stay liquid.

use crate::checks::context::RunContext;
use crate::checks::words::first_upper;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::model::catalogue::saturation::{boiling_c, boils_at_bar};
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "boils",
    severity: Severity::Warn,
    title: "Fluid boils",
    what: "Water and coolant (50 vol-% ethylene glycol) at the service temperature: the service \
           pressure against the pressure at which they boil there, at sea level. Where no \
           pressure is given, a fluid that boils in an open system is a warning. Hot water in a \
           suction line boils below the air's pressure. Another mixture, and height above the \
           sea, shift it. The value is the service pressure, the limit the pressure at which the \
           fluid boils.",
    source: Source::fixed(
        Mark::Calculated,
        "IAPWS SR1-86 for water (published); coolant by Raoult's law from it, ±2 °C",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    judge(run).into_iter().collect()
}

fn judge(run: &RunContext<'_>) -> Option<Finding> {
    let service = &run.run.service;
    let (fluid, celsius) = service.fluid.as_ref().zip(service.temperature_c)?;
    let (limit, source) = boils_at_bar(fluid, celsius)?;
    let bar = service.pressure_bar.unwrap_or(0.0);
    if bar > limit {
        return None;
    }
    let figures = run.figures();
    let (has, needs) = figures.pressures(bar, limit);
    let (name, temperature) = (figures.fluid(fluid), figures.temperature(celsius));
    let under = match service.pressure_bar {
        Some(_) => format!("under {has}"),
        None => "without pressure (none given)".to_owned(),
    };
    let from = boiling_c(fluid, bar).map_or_else(String::new, |celsius| {
        format!(" at {}", figures.temperature(celsius.round()))
    });
    let hint = match service.pressure_bar {
        Some(_) => {
            format!("Raise the pressure above {needs} (cap or pump), or keep the {name} cooler")
        }
        None => format!(
            "Enter the pressure that is really there (cap or pump): above {needs} the {name} stays liquid"
        ),
    };
    Some(Finding {
        value: service.pressure_bar,
        limit: Some(limit),
        unit: Unit::Bar,
        message: format!(
            "{} boils{from} {under}, service temperature {temperature}; minimum pressure {needs}, gauge",
            first_upper(&name),
        ),
        hint,
        source: source.to_string(),
        ..run.finding(&RULE)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};
    use crate::model::Fluid;

    fn of(fluid: Fluid, celsius: f64, bar: Option<f64>) -> Vec<Finding> {
        let fixture = Fixture::edited(|bay| {
            let service = &mut run(bay).service;
            service.fluid = Some(fluid);
            service.temperature_c = Some(celsius);
            service.pressure_bar = bar;
        });
        check(&fixture.context())
    }

    // 50/50 at 120 °C has 0.50 bar, water 0.97 (CoolProp 8.0.0 and Raoult).
    #[test]
    fn what_is_too_hot_for_its_pressure_boils() {
        assert_eq!(of(Fluid::Coolant, 120.0, Some(0.6)), []);
        let found = of(Fluid::Coolant, 120.0, Some(0.4));
        assert_eq!((found[0].severity, found[0].value), (Severity::Warn, Some(0.4)));
        assert!((found[0].limit.unwrap() - 0.50).abs() < 0.01, "{found:?}");
        let words = "Coolant boils at 118 °C under 0.4 bar, service temperature 120 °C; minimum pressure 0.5 bar, \
                     gauge";
        assert_eq!(found[0].message, words);
        assert_eq!(of(Fluid::Water, 120.0, Some(1.0)), []);
        assert_eq!(of(Fluid::Water, 120.0, Some(0.9)).len(), 1);
    }

    #[test]
    fn an_open_system_and_a_suction_line_boil_too() {
        assert_eq!(of(Fluid::Coolant, 107.0, None), []);
        let found = of(Fluid::Coolant, 109.0, None);
        assert!(found[0].message.contains("without pressure (none given)"), "{}", found[0].message);
        assert_eq!(found[0].value, None);
        assert_eq!(of(Fluid::Water, 80.0, Some(-0.6)).len(), 1);
        assert_eq!(of(Fluid::Water, 80.0, Some(-0.5)), []);
        assert_eq!(of(Fluid::EngineOil, 140.0, Some(0.0)), []);
    }
}
