//! The figures of the option in view, worked out only when the bay or the option changes.

use super::solved_order::in_order_of;
use crate::app::canvas::scene::{self, Scene};
use crate::app::words;
use crate::checks::{Finding, check};
use crate::document::Document;
use crate::engine::{RoutingSolution, Solver};

/// What is derived from one option of a bay.
#[derive(Debug, Clone)]
pub(super) struct Solved {
    revision: u64,
    option: usize,
    ghost: Option<usize>,
    /// Worked out while something is held: the findings then keep their order.
    held: bool,
    solver: Solver,
    pub(super) routing: RoutingSolution,
    /// Worst first; while something is held, in the order they were in.
    pub(super) findings: Vec<Finding>,
    pub(super) scene: Scene,
}

impl Solved {
    /// The figures of `option`, with the hoses of `ghost` behind; `old` is kept where it still holds.
    pub(super) fn of(
        old: Option<Self>,
        document: &Document,
        option: usize,
        ghost: Option<usize>,
    ) -> Option<Self> {
        let revision = document.revision();
        let ghost = ghost.filter(|ghost| *ghost != option);
        let held = document.in_transaction();
        let now = (revision, option, ghost, held);
        let (mut solver, scene_before, before) = match old {
            Some(old) if (old.revision, old.option, old.ghost, old.held) == now => {
                return Some(old);
            }
            Some(old) if old.option == option => (old.solver, Some(old.scene), old.findings),
            Some(old) => (old.solver, Some(old.scene), Vec::new()),
            None => (Solver::default(), None, Vec::new()),
        };
        let bay = document.bay();
        let routing_option = bay.options.get(option)?;
        let routing = solver.routing(bay, routing_option);
        let mut findings = check(bay, routing_option, &routing);
        findings.sort_by_key(|finding| finding.severity);
        if held {
            findings = in_order_of(&before, findings);
        }
        let mut scene = scene::build(bay, routing_option, &routing, &findings);
        if let Some((at, other)) = ghost.and_then(|at| Some((at, bay.options.get(at)?))) {
            scene.ghosts = scene::hoses_of(other, &solver.routing(bay, other));
            scene.ghost_of = Some(words::option_letter(at).to_string());
        }
        if let Some(before) = scene_before {
            scene.keep_from(&before);
        }
        Some(Self { revision, option, ghost, held, solver, routing, findings, scene })
    }

    /// The run to show first: the one with the worst finding, else the first.
    pub(super) fn first_choice(&self, document: &Document) -> Option<String> {
        let runs = &document.bay().options.get(self.option)?.runs;
        let worst = self.findings.iter().find_map(|finding| finding.run.clone());
        worst.or_else(|| runs.first().map(|run| run.id.clone()))
    }

    /// The findings of one run with their places in the list, worst first.
    pub(super) fn of_run<'a>(
        &'a self,
        run: &'a str,
    ) -> impl Iterator<Item = (usize, &'a Finding)> + 'a {
        let all = self.findings.iter().enumerate();
        all.filter(move |(_, finding)| finding.run.as_deref() == Some(run))
    }
}
