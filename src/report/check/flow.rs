//! The flow of a run in the report.

use serde::Serialize;

use crate::engine::flow::{LEFT_OUT, METHOD, RunFlow};

/// What the flow takes; where the fluid may be thin or thick, the most that it may.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct ReportFlow {
    velocity_m_s: f64,
    reynolds: f64,
    pressure_drop_bar: f64,
    /// Only where the fluid may be thin or thick.
    #[serde(skip_serializing_if = "Option::is_none")]
    least_pressure_drop_bar: Option<f64>,
    /// `laminar`, `transitional`, `turbulent`.
    regime: &'static str,
    friction_factor: f64,
    friction_bar: f64,
    /// Beyond the friction of their arcs.
    bends_bar: f64,
    length_mm: f64,
    bore_mm: f64,
    roughness_mm: f64,
    properties: ReportFluid,
    #[serde(skip_serializing_if = "Option::is_none")]
    cold_start: Option<ReportColdStart>,
    method: String,
}

/// What flows.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct ReportFluid {
    fluid: String,
    /// Null where they are the builder's own.
    temperature_c: Option<f64>,
    density_kg_m3: f64,
    /// Thinnest, thickest.
    viscosity_mm2_s: [f64; 2],
    source: String,
}

/// The same flow in cold oil; and where the pressure of the service is too little for it, what that passes.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct ReportColdStart {
    temperature_c: f64,
    reynolds: f64,
    pressure_drop_bar: f64,
    /// Thickest, thinnest oil.
    #[serde(skip_serializing_if = "Option::is_none")]
    passes_lpm: Option<[f64; 2]>,
}

impl ReportFlow {
    pub(super) fn new(flow: &RunFlow) -> Self {
        Self {
            velocity_m_s: flow.loss.velocity_m_s,
            reynolds: flow.loss.reynolds,
            pressure_drop_bar: flow.drop_bar(),
            least_pressure_drop_bar: flow.least_drop_bar(),
            regime: flow.regime().word(),
            friction_factor: flow.loss.friction_factor,
            friction_bar: flow.loss.friction_pa / PA_PER_BAR,
            bends_bar: flow.loss.bends_pa / PA_PER_BAR,
            length_mm: flow.length_mm,
            bore_mm: flow.bore_mm,
            roughness_mm: flow.roughness_mm,
            cold_start: flow.cold_start.map(|cold| ReportColdStart {
                temperature_c: cold.celsius,
                reynolds: cold.loss.reynolds,
                pressure_drop_bar: cold.drop_bar(),
                passes_lpm: cold.passed.map(|passed| passed.flow_lpm),
            }),
            properties: ReportFluid {
                fluid: flow.fluid.name.clone(),
                temperature_c: flow.fluid.celsius,
                density_kg_m3: flow.fluid.density_kg_m3,
                viscosity_mm2_s: flow.fluid.viscosity_mm2_s,
                source: flow.fluid.source.to_string(),
            },
            method: format!("{METHOD}; {LEFT_OUT}"),
        }
    }
}

/// Pascal in a bar, exactly.
const PA_PER_BAR: f64 = 1e5;
