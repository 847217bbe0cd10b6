//! Everything that is worked out of one routing, once: what window, command line and exporters read.

use std::sync::{Arc, OnceLock};

use super::findings::Findings;
use super::verdict::Verdict;
use crate::checks::{Checker, Finding};
use crate::engine::compare::RoutingFigures;
use crate::engine::flow::{NoFlow, RunFlow, flow_in_run};
use crate::engine::leak_test::{TestVerdict, tested};
use crate::engine::{RoutingSolution, RunSolution, solve_whole};
use crate::model::{Bay, Routing, Run, name_or, routing_letter};
use crate::remedy;

/// A routing of a bay with all that follows from it.
#[derive(Debug, Clone)]
pub struct Answer {
    bay: Arc<Bay>,
    place: usize,
    /// Lengths, bends, clearances, installed shapes, positions.
    pub solution: RoutingSolution,
    /// Worst first; those alike hose by hose and along the hose.
    pub findings: Vec<Arc<Finding>>,
    /// The same, grouped as they are told.
    pub told: Findings,
    later: Later,
}

/// What is worked out when it is first asked for.
#[derive(Debug, Clone, Default)]
struct Later {
    flows: OnceLock<Vec<Result<RunFlow, NoFlow>>>,
    tests: OnceLock<Vec<TestVerdict>>,
    figures: OnceLock<RoutingFigures>,
}

impl Answer {
    /// Solves and checks the routing in `place`; none where the bay has none there.
    pub fn of(bay: Arc<Bay>, place: usize) -> Option<Self> {
        let routing = bay.routings.get(place)?;
        let solution = solve_whole(&bay, routing);
        let findings = Checker::default().check(&bay, routing, &solution);
        Self::new(bay, place, solution, findings)
    }

    /// Of a solution and findings of the routing in `place`; none where the bay has none there.
    pub fn new(
        bay: Arc<Bay>,
        place: usize,
        solution: RoutingSolution,
        findings: Vec<Arc<Finding>>,
    ) -> Option<Self> {
        let told = Findings::of(&findings, bay.routings.get(place)?, &solution);
        Some(Self { bay, place, solution, findings, told, later: Later::default() })
    }

    /// With hints that were tried: for what prints hints, since trying takes long.
    #[must_use]
    pub fn with_tried_hints(self) -> Self {
        let findings = self.findings.clone();
        let (findings, _) =
            remedy::with_tried_hints(&self.bay, self.routing(), &self.solution, findings);
        Self { findings, ..self }
    }

    /// The bay.
    pub fn bay(&self) -> &Arc<Bay> {
        &self.bay
    }

    /// The routing's place in the bay.
    pub fn place(&self) -> usize {
        self.place
    }

    /// The routing.
    pub fn routing(&self) -> &Routing {
        &self.bay.routings[self.place]
    }

    /// Its letter and name: `routing A, Low`.
    pub fn routing_words(&self) -> String {
        let routing = self.routing();
        format!("routing {}, {}", routing_letter(self.place), name_or(&routing.name, &routing.id))
    }

    /// The runs that could be solved, each with its place and its solution.
    pub fn runs(&self) -> impl Iterator<Item = (usize, &Run, &RunSolution)> {
        let runs = self.routing().runs.iter().enumerate();
        runs.filter_map(|(place, run)| Some((place, run, self.solution.run(place)?)))
    }

    /// The verdict on the run in `place`.
    pub fn verdict_on(&self, place: usize) -> Verdict {
        let run = self.routing().runs.get(place);
        run.map_or_else(Verdict::default, |run| {
            self.told.verdict_on(place, &self.findings, &run.id)
        })
    }

    /// What the flow of the run in `place` takes, or why that is unknown.
    pub fn flow(&self, place: usize) -> Option<&Result<RunFlow, NoFlow>> {
        let flows = self.later.flows.get_or_init(|| {
            let runs = self.routing().runs.iter().zip(&self.solution.runs);
            runs.map(|(run, solved)| flow_in_run(&self.bay, run, solved)).collect()
        });
        flows.get(place)
    }

    /// What the last leak test of the run in `place` shows.
    pub fn test(&self, place: usize) -> Option<&TestVerdict> {
        let tests = self
            .later
            .tests
            .get_or_init(|| self.routing().runs.iter().map(|run| tested(&self.bay, run)).collect());
        tests.get(place)
    }

    /// What is compared of it; the cheapest cut list takes longest.
    pub fn figures(&self) -> &RoutingFigures {
        self.later
            .figures
            .get_or_init(|| RoutingFigures::of(&self.bay, self.routing(), &self.solution))
    }
}
