//! What the flow of a run's service takes.

use std::sync::Arc;

use crate::engine::{Missing, RunSolution, hose_of};
use crate::model::catalogue::fluids::{KnownFluid, NoFluid, known_fluid};
use crate::model::catalogue::roughness::roughness_mm;
use crate::model::{Bay, Fluid, Mark, Run, Service, Source};

use super::cold::{ColdStart, cold_start};
use super::liquid::{Liquid, liquid_at};
use super::pipe::{LEAST_BEND, Loss, Pipe, PipeBend};
use super::span::extremes;
use super::{Regime, bar};

/// Why the pressure drop of a run is not known.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NoFlow {
    /// The service has no flow.
    #[error("no flow is given")]
    FlowNotGiven,
    /// The service has no fluid, nor a fluid of the builder's own.
    #[error("what it carries is not given")]
    FluidNotGiven,
    /// The service has no temperature.
    #[error("its temperature is not given")]
    TemperatureNotGiven,
    /// A fluid without figures.
    #[error("no density and viscosity of {fluid} are listed: give yours")]
    NotListed {
        /// The user's word.
        fluid: String,
    },
    /// Air or vacuum.
    #[error("{fluid} changes its density on the way, which is not calculated")]
    Compressible {
        /// Its word.
        fluid: String,
    },
    /// Brake fluid or refrigerant.
    #[error("lines of {fluid} are not sized here")]
    NotSized {
        /// Its word.
        fluid: String,
    },
    /// Outside the figures of the fluid.
    #[error(
        "there are no figures of {fluid} at the temperature it works at: give density and viscosity of yours"
    )]
    OutOfRange {
        /// What the fluid is.
        fluid: &'static str,
        /// The service's temperature.
        celsius: f64,
        /// Coldest.
        from_c: f64,
        /// Hottest.
        to_c: f64,
    },
    /// The hose cannot be calculated.
    #[error("{0}")]
    NotSolved(#[from] Missing),
    /// The size has no bore.
    #[error("the bore of this hose is not known")]
    BoreNotKnown,
    /// A liner that no roughness is known of.
    #[error("how rough the liner of this hose is, is not known")]
    RoughnessNotKnown,
    /// A bend sharper than [`LEAST_BEND`].
    #[error("a bend is drawn tighter than the bore is wide: the hose would kink")]
    Kinked,
    /// Figures that leave the numbers of the machine.
    #[error("the figures are too large to calculate with")]
    TooLarge,
}

/// What flows, as it is calculated with.
#[derive(Debug, Clone, PartialEq)]
pub struct FluidUsed {
    /// What it is.
    pub name: String,
    /// Density.
    pub density_kg_m3: f64,
    /// Kinematic viscosity, thinnest and thickest that it may be; alike where there is but one.
    pub viscosity_mm2_s: [f64; 2],
    /// The temperature that these hold at; none where they are the builder's own.
    pub celsius: Option<f64>,
    /// Where they come from.
    pub source: Source,
}

impl FluidUsed {
    /// Whether its figures are the builder's own.
    pub fn is_own(&self) -> bool {
        self.celsius.is_none()
    }
}

/// What the flow of a run takes.
#[derive(Debug, Clone, PartialEq)]
pub struct RunFlow {
    /// The flow of the service.
    pub flow_lpm: f64,
    /// What flows.
    pub fluid: FluidUsed,
    /// Bore.
    pub bore_mm: f64,
    /// Roughness of the liner.
    pub roughness_mm: f64,
    /// Where the roughness comes from.
    pub roughness_source: Source,
    /// The length that takes it: the cut length, slack in it.
    pub length_mm: f64,
    /// The most that it may take, of all that the fluid may be.
    pub loss: Loss,
    /// The least that it may take; the same where the fluid is known.
    pub least_pa: f64,
    /// A cold start, where an oil flows that is warmer in service.
    pub cold_start: Option<ColdStart>,
}

impl RunFlow {
    /// The most that it may take.
    pub fn drop_bar(&self) -> f64 {
        bar(self.loss.total_pa())
    }

    /// The least that it may take, where that is less.
    pub fn least_drop_bar(&self) -> Option<f64> {
        (self.least_pa < self.loss.total_pa()).then(|| bar(self.least_pa))
    }

    /// How it flows where it takes most.
    pub fn regime(&self) -> Regime {
        self.loss.regime()
    }
}

/// What the flow of a run takes, where the run could be solved.
///
/// # Errors
/// [`NoFlow`], with the reason.
pub fn flow_in_run(
    bay: &Bay,
    run: &Run,
    solved: &Result<Arc<RunSolution>, Missing>,
) -> Result<RunFlow, NoFlow> {
    if run.service.flow_lpm.is_none() {
        return Err(NoFlow::FlowNotGiven);
    }
    flow_of(bay, run, solved.as_ref().map_err(Clone::clone)?)
}

/// What the flow of a run's service takes over the cut length and the drawn bends.
///
/// # Errors
/// [`NoFlow`], with the reason.
pub fn flow_of(bay: &Bay, run: &Run, solved: &RunSolution) -> Result<RunFlow, NoFlow> {
    let flow_lpm = run.service.flow_lpm.ok_or(NoFlow::FlowNotGiven)?;
    let (used, listed) = used(&run.service)?;
    let (kind, size) = hose_of(bay, run)?;
    let bore_mm = size.bore_mm.filter(|bore| *bore > 0.0).ok_or(NoFlow::BoreNotKnown)?;
    let (roughness_mm, roughness_source) = roughness_mm(kind).ok_or(NoFlow::RoughnessNotKnown)?;
    let bends = bends(solved, bore_mm)?;
    let length_mm = solved.cut_length_mm;
    let pipe = Pipe { bore_mm, length_mm, roughness_mm, bends: &bends };
    let liquids = used
        .viscosity_mm2_s
        .map(|viscosity_mm2_s| Liquid { density_kg_m3: used.density_kg_m3, viscosity_mm2_s });
    let (least_pa, loss) = extremes(&pipe, liquids, flow_lpm).ok_or(NoFlow::TooLarge)?;
    let cold_start = listed.and_then(|listed| cold_start(&pipe, &listed, &run.service));
    Ok(RunFlow {
        flow_lpm,
        fluid: used,
        bore_mm,
        roughness_mm,
        roughness_source,
        length_mm,
        loss,
        least_pa,
        cold_start,
    })
}

/// What flows: the builder's own figures where he gives both, else what is listed of the fluid.
fn used(service: &Service) -> Result<(FluidUsed, Option<KnownFluid>), NoFlow> {
    let word = || service.fluid.as_ref().map_or("", Fluid::word).to_owned();
    let own = service.density_kg_m3.zip(service.viscosity_mm2_s);
    let fluid = match (service.fluid.as_ref().map(known_fluid), own) {
        (Some(Err(NoFluid::NotSized)), _) => {
            return Err(NoFlow::NotSized { fluid: word().replace('-', " ") });
        }
        (_, Some((density_kg_m3, viscosity))) => {
            let own = FluidUsed {
                name: word(),
                density_kg_m3,
                viscosity_mm2_s: [viscosity; 2],
                celsius: None,
                source: Source::fixed(Mark::BayFile, "your own density and viscosity"),
            };
            return Ok((own, None));
        }
        (Some(Ok(fluid)), None) => fluid,
        (Some(Err(NoFluid::Compressible)), None) => {
            return Err(NoFlow::Compressible { fluid: word() });
        }
        (Some(Err(NoFluid::NotListed)), None) => return Err(NoFlow::NotListed { fluid: word() }),
        (None, None) => return Err(NoFlow::FluidNotGiven),
    };
    let celsius = service.temperature_c.ok_or(NoFlow::TemperatureNotGiven)?;
    let [from_c, to_c] = fluid.known.range_c();
    let [thin, thick] = liquid_at(&fluid.known, celsius).ok_or(NoFlow::OutOfRange {
        fluid: fluid.name,
        celsius,
        from_c,
        to_c,
    })?;
    let used = FluidUsed {
        name: fluid.name.to_owned(),
        density_kg_m3: thin.density_kg_m3,
        viscosity_mm2_s: [thin.viscosity_mm2_s, thick.viscosity_mm2_s],
        celsius: Some(celsius),
        source: fluid.source_at(celsius).clone(),
    };
    Ok((used, Some(fluid)))
}

fn bends(solved: &RunSolution, bore_mm: f64) -> Result<Vec<PipeBend>, NoFlow> {
    let bends = solved.bends();
    if bends.iter().any(|bend| bend.radius_mm < LEAST_BEND * bore_mm) {
        return Err(NoFlow::Kinked);
    }
    let of = |bend: &crate::engine::Bend| PipeBend {
        angle_rad: bend.angle_deg.to_radians(),
        radius_mm: bend.radius_mm,
    };
    Ok(bends.iter().map(of).collect())
}
