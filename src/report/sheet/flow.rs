//! What the flow of a hose takes, as the sheet tells it.

use super::Fact;
use crate::engine::flow::{NoFlow, RunFlow};
use crate::model::Run;
use crate::report::flow::{
    cold_start_in_words, drop_in_words, fluid_in_words, given, lone_figure, method_in_words,
    over_in_words, pace_in_words, why_not_known,
};
use crate::units::LengthUnit;

/// The figures of a hose's flow, exact.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs, reason = "the names are the contract's own")]
pub struct FlowFigures {
    pub velocity_m_s: f64,
    pub reynolds: f64,
    pub regime: &'static str,
    pub pressure_drop_bar: f64,
    pub least_pressure_drop_bar: f64,
}

/// What is known of a hose's flow.
pub(super) struct Known {
    pub(super) figures: Option<FlowFigures>,
    pub(super) facts: Vec<Fact>,
}

pub(super) fn known(run: &Run, found: &Result<RunFlow, NoFlow>, unit: LengthUnit) -> Known {
    let figures = found.as_ref().ok().map(|flow| FlowFigures {
        velocity_m_s: flow.loss.velocity_m_s,
        reynolds: flow.loss.reynolds,
        regime: flow.regime().word(),
        pressure_drop_bar: flow.drop_bar(),
        least_pressure_drop_bar: flow.least_drop_bar().unwrap_or(flow.drop_bar()),
    });
    Known { figures, facts: facts(run, found, unit) }
}

/// What it takes, of what fluid, and at a cold start; of a flow that is given and not known the reason; else nothing.
fn facts(run: &Run, found: &Result<RunFlow, NoFlow>, unit: LengthUnit) -> Vec<Fact> {
    let flow = match found {
        Ok(flow) => flow,
        Err(why) => {
            let Some((lpm, why)) = run.service.flow_lpm.zip(why_not_known(why, unit)) else {
                return Vec::new();
            };
            let value = format!("pressure drop at {} unknown", given(lpm, unit));
            return vec![Fact::new(FLOW, value, why)];
        }
    };
    let value = format!(
        "{} lost at {}: {}",
        drop_in_words(flow, unit),
        given(flow.flow_lpm, unit),
        pace_in_words(flow, unit)
    );
    let lone = lone_figure(&run.service).map(str::to_owned);
    let source: Vec<String> = [flow.fluid.source.to_string()].into_iter().chain(lone).collect();
    let mut facts = vec![
        Fact::new(FLOW, value, over_in_words(flow, unit)).from(method_in_words(flow, unit)),
        Fact::new("fluid", fluid_in_words(flow, unit), "").from(source.join("; ")),
    ];
    facts.extend(flow.cold_start.map(|cold| {
        Fact::new(
            "cold start",
            cold_start_in_words(&cold, unit),
            match cold.passed {
                _ if run.service.sucks() => {
                    "a suction line: thick fluid may not be drawn in, and the pump cavitates"
                }
                Some(_) => "all of that pressure spent on this hose",
                None => "if the pump can",
            },
        )
    }));
    facts
}

const FLOW: &str = "flow";
