//! What a flow takes, in words.

use crate::engine::flow::{ColdStart, LEFT_OUT, METHOD, NoFlow, Regime, RunFlow};
use crate::model::Service;
use crate::units::{
    Flow, FlowUnit, LengthUnit, Pressure, PressureUnit, Temperature, TemperatureUnit, significant,
};

/// The drop of a flow: `0.013 bar`, `0.011 to 0.013 bar`.
pub fn drop_in_words(flow: &RunFlow, unit: LengthUnit) -> String {
    range(flow, PressureUnit::beside(unit))
}

/// The same with the other unit beside it.
pub(super) fn drop_in_both(flow: &RunFlow, unit: LengthUnit) -> String {
    let [first, other] = units(unit);
    format!("{} ({})", range(flow, first), range(flow, other))
}

fn units(unit: LengthUnit) -> [PressureUnit; 2] {
    let own = PressureUnit::beside(unit);
    [own, own.other()]
}

fn range(flow: &RunFlow, unit: PressureUnit) -> String {
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
pub fn pace_in_words(flow: &RunFlow) -> String {
    let loss = &flow.loss;
    let (velocity, re) = (significant(loss.velocity_m_s, 2), significant(loss.reynolds, 2));
    format!("{velocity} m/s, Re {re}, {}", flow.regime().word())
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
pub fn fluid_in_words(flow: &RunFlow) -> String {
    let fluid = &flow.fluid;
    let viscosity = |mm2_s: f64| significant(mm2_s, 3);
    let [thin, thick] = fluid.viscosity_mm2_s.map(viscosity);
    let viscosity = if thin == thick { thick } else { format!("{thin} to {thick}") };
    let at =
        fluid.celsius.map_or_else(String::new, |celsius| format!(" at {}", temperature(celsius)));
    let named = if fluid.name.is_empty() { String::new() } else { format!("{}{at}: ", fluid.name) };
    let density = significant(fluid.density_kg_m3, 3);
    format!("{named}{density} kg/m³, {viscosity} mm²/s")
}

fn temperature(celsius: f64) -> String {
    Temperature::from_celsius(celsius).show(TemperatureUnit::Celsius)
}

/// What is not in it, how sure it is, by what it is calculated, over what.
pub fn basis_in_words(flow: &RunFlow) -> String {
    let caution = regime_caution(flow.regime());
    let caution = caution.map_or_else(String::new, |words| format!("; {words}"));
    let bore = significant(flow.bore_mm, 3);
    format!("over the cut length, bore {bore} mm{caution}. {}", method_in_words(flow))
}

/// Over what it is calculated, and how sure it is where that is not said of all.
pub(super) fn over_in_words(flow: &RunFlow) -> String {
    // Of laminar flow the sheet says it once, for all hoses.
    let caution = match flow.regime() {
        Regime::Transitional => regime_caution(Regime::Transitional),
        Regime::Laminar | Regime::Turbulent => None,
    };
    let caution = caution.map_or_else(String::new, |words| format!("; {words}"));
    format!("bore {} mm{caution}", significant(flow.bore_mm, 3))
}

/// By what it is calculated.
pub(super) fn method_in_words(flow: &RunFlow) -> String {
    format!(
        "{METHOD}; {LEFT_OUT}; roughness {} mm: {}",
        significant(flow.roughness_mm, 2),
        flow.roughness_source,
    )
}

/// `cold, 0 °C: 5.5 bar passes 0.3 L/min`; where the pressure is enough, or not given, what the flow takes:
/// `cold, 0 °C: 0.95 bar at the same flow`
pub fn cold_start_in_words(cold: &ColdStart, unit: LengthUnit) -> String {
    let (pressure, cold_at) = (PressureUnit::beside(unit), temperature(cold.celsius));
    let Some(passed) = cold.passed else {
        let drop = Pressure::from_bar(cold.drop_bar()).show_lost(pressure);
        return format!("cold, {cold_at}: {drop} at the same flow");
    };
    let given = Pressure::from_bar(passed.pressure_bar).show(pressure);
    let [least, most] = passed.flow_lpm.map(|lpm| significant(lpm, 2));
    let range = if least == most { least } else { format!("{least} to {most}") };
    format!("cold, {cold_at}: {given} passes {range} {}", FlowUnit::Lpm.sign())
}

/// Why the drop is not known, where a flow is given: else there is nothing to say.
pub fn why_not_known(why: &NoFlow) -> Option<String> {
    (*why != NoFlow::FlowNotGiven).then(|| why.to_string())
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
pub(super) fn given(flow_lpm: f64) -> String {
    Flow::from_lpm(flow_lpm.abs()).show(FlowUnit::Lpm)
}
