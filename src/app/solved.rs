//! The figures of the routing in view, worked out only when the bay or the routing changes.

use std::sync::Arc;

use super::solved_order::{Content, Pace, Slot, Slots};
use crate::app::canvas::scene::{self, Scene};
use crate::checks::{Checker, Finding, Severity};
use crate::document::Document;
use crate::engine::motion::{Position, Positions};
use crate::engine::{Depth, Solver};
use crate::model::routing_letter;
use crate::report::answer::Answer;

/// Hoses in so many positions are worked out within a frame; more only when nothing is held.
const MOST_IN_A_FRAME: usize = 64;

/// What is derived from one routing of a bay.
#[derive(Debug, Clone)]
pub(super) struct Solved {
    revision: u64,
    place: usize,
    ghost: Option<usize>,
    /// Whether it was worked out while something is held.
    pace: Pace,
    solver: Solver,
    /// Of the routing behind: what it knows is not what the other has to remember.
    solver_behind: Solver,
    checker: Checker,
    pub(super) answer: Arc<Answer>,
    /// The findings as the lists show them: they stand still while something is held.
    pub(super) slots: Slots,
    pub(super) scene: Scene,
}

/// What helps to work it out again.
#[derive(Default)]
struct Before {
    solver: Solver,
    solver_behind: Solver,
    checker: Checker,
    scene: Option<scene::Before>,
    /// Of the same routing.
    answer: Option<Arc<Answer>>,
    slots: Slots,
}

impl Solved {
    /// What it leaves to the next, of the routing in `place`.
    fn remembered(self, place: usize) -> Before {
        // What was found in another routing is not missed in this one.
        let is_same = self.place == place;
        let bay = Arc::clone(self.answer.bay());
        Before {
            solver: self.solver,
            solver_behind: self.solver_behind,
            checker: self.checker,
            scene: Some(scene::Before { scene: self.scene, bay }),
            answer: is_same.then_some(self.answer),
            slots: if is_same { self.slots } else { Slots::default() },
        }
    }

    /// The figures of the routing in `place`, with the hoses of `ghost` behind; `old` is kept where it still holds.
    pub(super) fn of(
        old: Option<Self>,
        document: &Document,
        place: usize,
        ghost: Option<usize>,
    ) -> Option<Self> {
        let revision = document.revision();
        let ghost = ghost.filter(|ghost| *ghost != place);
        let pace = if document.in_transaction() { Pace::Held } else { Pace::Settled };
        let now = (revision, place, ghost, pace);
        if old.as_ref().is_some_and(|old| (old.revision, old.place, old.ghost, old.pace) == now) {
            return old;
        }
        let Before {
            mut solver,
            mut solver_behind,
            mut checker,
            scene: scene_before,
            answer: before,
            slots,
        } = old.map(|old| old.remembered(place)).unwrap_or_default();
        let bay = document.bay();
        let routing = bay.routings.get(place)?;
        let is_large = routing.runs.len() * Positions::count_of(bay) > MOST_IN_A_FRAME;
        let depth = match pace {
            Pace::Held if is_large => Depth::Installed,
            Pace::Held => Depth::Motion,
            Pace::Settled => Depth::Bench,
        };
        let solution = solver.routing_to(bay, routing, depth);
        let findings = checker.check(bay, routing, &solution);
        let answer = Arc::new(Answer::new(Arc::clone(bay), place, solution, findings)?);
        let before = before.as_ref().map_or(&[][..], |before| &before.findings);
        let slots = slots.followed(before, &answer.findings, &answer.told, pace);
        let found = (answer.findings.as_slice(), &answer.told);
        let mut scene = scene::build_on(bay, routing, &answer.solution, found, scene_before);
        if let Some((at, other)) = ghost.and_then(|at| Some((at, bay.routings.get(at)?))) {
            scene.ghosts = scene::hoses_of(other, &solver_behind.routing(bay, other));
            scene.ghost_of = Some(routing_letter(at).to_string());
        }
        Some(Self {
            revision,
            place,
            ghost,
            pace,
            solver,
            solver_behind,
            checker,
            answer,
            slots,
            scene,
        })
    }

    /// The run to show first: the one with the worst fault or warning, else the first.
    pub(super) fn first_choice(&self, document: &Document) -> Option<String> {
        let runs = &document.bay().routings.get(self.place)?.runs;
        let mut bad = self.answer.findings.iter().filter(|one| one.severity != Severity::Note);
        let worst = bad.find_map(|finding| finding.run.clone());
        worst.or_else(|| runs.first().map(|run| run.id.clone()))
    }

    /// The positions, the one as drawn first; empty where they are not worked out.
    pub(super) fn positions(&self) -> &[Position] {
        let motion = self.answer.solution.lay.as_ref().and_then(|lay| lay.motion.as_ref());
        motion.map_or(&[], |motion| &motion.positions.all)
    }

    /// The answer, where it is worked out whole.
    pub(super) fn settled(&self) -> Option<&Arc<Answer>> {
        (!self.is_held()).then_some(&self.answer)
    }

    /// Whether something is held.
    pub(super) fn is_held(&self) -> bool {
        self.pace == Pace::Held
    }

    /// What was found, or was found until just now, in a slot.
    pub(super) fn in_slot<'a>(&'a self, slot: &'a Slot) -> Option<&'a Finding> {
        match &slot.content {
            Content::Found(index) => self.answer.findings.get(*index).map(Arc::as_ref),
            Content::Gone(finding) => Some(finding),
        }
    }

    /// The findings in the order in which they are listed, without those that come of others.
    pub(super) fn listed(&self) -> Vec<usize> {
        let leads = self.slots.iter().filter(|slot| slot.under.is_none());
        leads.filter_map(Slot::index).collect()
    }
}
