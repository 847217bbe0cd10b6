//! The pressure that flows take.

use crate::engine::RunSolution;
use crate::engine::flow::{ColdStart, NoFlow, flow_of};
use crate::model::catalogue::fluids::{NoFluid, known_fluid};
use crate::model::{Bay, Run, Service};

use super::{Found, RoutingFigures};

const DROP_NOT_KNOWN: &str = "what its flow takes is not known";

impl RoutingFigures {
    /// The greatest pressure drop of those that are known, and the places of runs whose flow is given and
    /// whose drop is not known.
    pub fn drops(&self) -> (Option<(usize, f64)>, Vec<usize>) {
        let drops = self.runs.iter().enumerate().filter_map(|(place, run)| {
            let known = run.answers.as_ref()?.drop_bar.known()?;
            Some((place, *known))
        });
        let not_known = self.runs.iter().enumerate().filter(|(_, run)| match &run.answers {
            Some(answers) => answers.drop_bar.is_not_known(),
            None => run.has_flow,
        });
        let not_known = not_known.map(|(place, _)| place).collect();
        (drops.max_by(|a, b| a.1.total_cmp(&b.1)), not_known)
    }
}

/// The most pressure that the flow of a run takes, and what it does at a cold start.
pub(super) fn taken(bay: &Bay, run: &Run, solved: &RunSolution) -> (Found<f64>, Option<ColdStart>) {
    match flow_of(bay, run, solved) {
        Ok(flow) => (Found::Known(flow.drop_bar()), flow.cold_start),
        Err(NoFlow::FlowNotGiven | NoFlow::NotSized { .. }) => (Found::Nothing, None),
        Err(_) => (Found::NotKnown(DROP_NOT_KNOWN), None),
    }
}

/// Whether there is a flow, and not in a line that this program does not size.
pub(super) fn is_asked(service: &Service) -> bool {
    let is_sized =
        service.fluid.as_ref().is_none_or(|fluid| known_fluid(fluid) != Err(NoFluid::NotSized));
    service.flow_lpm.is_some() && is_sized
}
