//! What a flow takes, in words.

use crate::engine::flow::{ColdStart, LEFT_OUT, METHOD, NoFlow, Regime, RunFlow};
use crate::model::Service;
use crate::units::{
    Derived, Flow, FlowUnit, Length, LengthUnit, Pressure, PressureUnit, Temperature, significant,
};

/// The drop of a flow: `0.013 bar`, `0.011 to 0.013 bar`.
pub fn drop_in_words(flow: &RunFlow, unit: LengthUnit) -> String {
    let unit = PressureUnit::from(unit);
    let show = |bar: f64| Pressure::from_bar(bar).show_lost(unit);
    let most = show(flow.drop_bar());
    match flow.least_drop_bar().map(show).filter(|least| *least != most) {
        Some(least) => {
            let sign = format!(" {}", unit.sign());
            format!("{} to {most}", least.strip_suffix(&sign).unwrap_or(&least))
        }
        None => most,
    }
}

/// `0.82 m/s, Re 8400, turbulent`
pub fn pace_in_words(flow: &RunFlow, unit: LengthUnit) -> String {
    let loss = &flow.loss;
    let velocity = Derived::Velocity.show(loss.velocity_m_s, unit, 2);
    format!("{velocity}, Re {}, {}", significant(loss.reynolds, 2), flow.regime().word())
}

/// What is to be said of a regime besides; none where it is turbulent.
pub fn regime_caution(regime: Regime) -> Option<&'static str> {
    match regime {
        Regime::Laminar => Some("laminar flow takes more in bends than this"),
        Regime::Transitional => {
            Some("between laminar and turbulent published methods differ by up to 60 %")
        }
        Regime::Turbulent => None,
    }
}

/// `water at 20 °C: 998 kg/m³, 1 mm²/s`
pub fn fluid_in_words(flow: &RunFlow, unit: LengthUnit) -> String {
    let fluid = &flow.fluid;
    let [thin, thick] = fluid.viscosity_mm2_s.map(|mm2_s| Derived::Viscosity.show(mm2_s, unit, 3));
    let viscosity = if thin == thick {
        thick
    } else {
        let thin = significant(Derived::Viscosity.number(fluid.viscosity_mm2_s[0], unit), 3);
        format!("{thin} to {thick}")
    };
    let at = fluid
        .celsius
        .map_or_else(String::new, |celsius| format!(" at {}", temperature(celsius, unit)));
    let named = if fluid.name.is_empty() { String::new() } else { format!("{}{at}: ", fluid.name) };
    let density = Derived::Density.show(fluid.density_kg_m3, unit, 3);
    format!("{named}{density}, {viscosity}")
}

fn temperature(celsius: f64, unit: LengthUnit) -> String {
    Temperature::from_celsius(celsius).show(unit)
}

/// What is not in it, how sure it is, by what it is calculated, over what.
pub fn basis_in_words(flow: &RunFlow, unit: LengthUnit) -> String {
    let caution = regime_caution(flow.regime());
    let caution = caution.map_or_else(String::new, |words| format!("; {words}"));
    let bore = bore(flow, unit);
    format!("over the cut length, {bore}{caution}. {}", method_in_words(flow, unit))
}

/// Over what it is calculated, and how sure it is where that is not said of all.
pub(super) fn over_in_words(flow: &RunFlow, unit: LengthUnit) -> String {
    // Of laminar flow the sheet says it once, for all hoses.
    let caution = match flow.regime() {
        Regime::Transitional => regime_caution(Regime::Transitional),
        Regime::Laminar | Regime::Turbulent => None,
    };
    let caution = caution.map_or_else(String::new, |words| format!("; {words}"));
    format!("{}{caution}", bore(flow, unit))
}

fn bore(flow: &RunFlow, unit: LengthUnit) -> String {
    format!("bore {}", Length::from_mm(flow.bore_mm).show_significant(unit, 3))
}

/// By what it is calculated.
pub(super) fn method_in_words(flow: &RunFlow, unit: LengthUnit) -> String {
    format!(
        "{METHOD}; {LEFT_OUT}; roughness {}: {}",
        Length::from_mm(flow.roughness_mm).show_significant(unit, 2),
        flow.roughness_source,
    )
}

/// `cold, 0 °C: 5.5 bar passes 0.3 L/min`; where the pressure is enough, or not given, what the flow takes:
/// `cold, 0 °C: 0.95 bar at the same flow`
pub fn cold_start_in_words(cold: &ColdStart, unit: LengthUnit) -> String {
    let cold_at = temperature(cold.celsius, unit);
    let Some(passed) = cold.passed else {
        let drop = Pressure::from_bar(cold.drop_bar()).show_lost(unit);
        return format!("cold, {cold_at}: {drop} at the same flow");
    };
    let given = Pressure::from_bar(passed.pressure_bar).show(unit);
    let flow = FlowUnit::from(unit);
    let [least, most] = passed.flow_lpm.map(|lpm| significant(Flow::from_lpm(lpm).number(flow), 2));
    let range = if least == most { least } else { format!("{least} to {most}") };
    format!("cold, {cold_at}: {given} passes {range} {}", flow.sign())
}

/// Why the drop is not known, where a flow is given: else there is nothing to say.
pub fn why_not_known(why: &NoFlow, unit: LengthUnit) -> Option<String> {
    match why {
        NoFlow::FlowNotGiven => None,
        NoFlow::OutOfRange { fluid, celsius, from_c, to_c } => {
            let [from, to, works_at] = [from_c, to_c, celsius].map(|c| temperature(*c, unit));
            Some(format!(
                "{fluid}: there are figures from {from} to {to}, and it works at {works_at}: give density and \
                 viscosity of yours"
            ))
        }
        other => Some(other.to_string()),
    }
}

/// What is to be said of a density without a viscosity, or the other way round.
pub fn lone_figure(service: &Service) -> Option<&'static str> {
    match (service.density_kg_m3, service.viscosity_mm2_s) {
        (Some(_), None) => Some("the density given is not used without a viscosity"),
        (None, Some(_)) => Some("the viscosity given is not used without a density"),
        _ => None,
    }
}

/// `2.4 L/min`
pub fn given(flow_lpm: f64, unit: LengthUnit) -> String {
    Flow::from_lpm(flow_lpm.abs()).show(unit)
}
