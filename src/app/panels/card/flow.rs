//! What the flow of the selected hose takes.

use eframe::egui::{Label, Ui};

use super::fact::fact_in;
use crate::app::theme;
use crate::engine::flow::{NoFlow, RunFlow};
use crate::model::{Bay, Run};
use crate::report::answer::Answer;
use crate::report::flow::{
    basis_in_words, cold_start_in_words, drop_in_words, fluid_in_words, lone_figure, pace_in_words,
    why_not_known,
};
use crate::units::{Derived, LengthUnit};

/// Velocities that are usual, for who selects a size (common practice; fuel and coolant: sources differ).
fn usual(unit: LengthUnit) -> String {
    let [suction, back, pressure] = match unit {
        LengthUnit::Mm => ["0.6 to 1.2", "2 to 4", "3 to 6"],
        LengthUnit::Inch => ["2 to 4", "7 to 13", "10 to 20"],
    };
    let sign = Derived::Velocity.sign(unit);
    format!(
        "Usual: suction {suction}, return {back}, pressure lines {pressure} {sign} (common practice)"
    )
}

const DROP: &str = "Pressure drop in the hose";

/// Nothing where no flow is given.
pub(super) fn flow(ui: &mut Ui, answer: &Answer, place: usize) {
    let Some(run) = answer.routing().runs.get(place) else { return };
    match answer.flow(place) {
        Some(Ok(flow)) => known(ui, answer.bay(), run, flow),
        Some(Err(why)) => not_known(ui, why, answer.bay().show_units),
        None => {}
    }
}

fn known(ui: &mut Ui, bay: &Bay, run: &Run, flow: &RunFlow) {
    let (unit, ink) = (bay.show_units, theme::palette(ui).ink);
    let source = &flow.fluid.source;
    let (fluid, basis) =
        (format!("{}. {source}", fluid_in_words(flow, unit)), basis_in_words(flow, unit));
    let usual = usual(unit);
    let told = lone_figure(&run.service).into_iter().chain([basis.as_str(), usual.as_str()]);
    let whole = told.fold(fluid, |whole, more| format!("{whole}\n\n{more}"));
    let word = format!("calculated, fluid {}", source.mark.word());
    let drop = drop_in_words(flow, unit);
    fact_in(ui, [DROP, "without end fittings"], &drop, Some((&word, &whole)), ink);
    fact_in(ui, ["Flow", &flow.fluid.name], &pace_in_words(flow, unit), None, ink);
    if let Some(cold) = &flow.cold_start {
        let drop = cold_start_in_words(cold, unit);
        fact_in(ui, ["Cold start", ""], &drop, None, ink);
    }
}

fn not_known(ui: &mut Ui, why: &NoFlow, unit: LengthUnit) {
    let soft = theme::palette(ui).soft;
    if let Some(why) = why_not_known(why, unit) {
        fact_in(ui, [DROP, ""], "not known", None, soft);
        ui.add(
            Label::new(crate::app::panels::soft(format!("Not known: {why}"), theme::palette(ui)))
                .wrap(),
        );
    }
}
