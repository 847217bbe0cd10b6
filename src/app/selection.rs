//! What is selected. No part of the document.

use super::canvas::thing::Thing;
use super::solved::Solved;
use crate::model::Bay;

/// What is selected.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Selection {
    /// Id of the run whose card is shown.
    pub(super) run: Option<String>,
    /// The things that are selected, the last clicked last.
    pub(super) things: Vec<Thing>,
    /// Those of them that were just made: they can be put right with the pointer until something else is selected.
    pub(super) fresh: Vec<Thing>,
    /// The finding that is looked at.
    pub(super) finding: Option<usize>,
    /// Where that is in the lists: it is known by this while they change.
    slot: Option<u64>,
    /// The finding that speaks in the views where none is looked at, by its place in the lists.
    speaker: Option<u64>,
}

impl Selection {
    /// Before the findings change: remembers which is looked at.
    pub(super) fn note_slot(&mut self, old: Option<&Solved>) {
        match (self.finding, old) {
            (Some(at), Some(old)) => self.slot = old.slots.id_of(at),
            // It may come back as long as something is held.
            (None, Some(old)) if old.is_held() => {}
            _ => self.slot = None,
        }
    }

    /// After they have changed: finds it again, and the one that speaks.
    pub(super) fn find_again(&mut self, solved: &Solved) {
        self.finding = self.slot.and_then(|slot| solved.slots.index_of(slot));
        let kept = self.speaker.filter(|_| solved.is_held());
        self.speaker = solved.slots.speaker(&solved.answer.findings, self.run.as_deref(), kept);
    }

    /// The finding that speaks in the views where none is looked at.
    pub(super) fn speaking(&self, solved: &Solved) -> Option<usize> {
        solved.slots.index_of(self.speaker?)
    }

    /// Selects what was just made.
    pub(super) fn select_fresh(&mut self, things: Vec<Thing>) {
        self.fresh.clone_from(&things);
        self.things = things;
    }

    /// Before the pointer does something: what was just made is so as long as it alone stays selected.
    pub(super) fn note_fresh(&mut self) {
        if self.fresh != self.things {
            self.fresh.clear();
        }
    }

    /// Whether the pointer leaves a thing where it is.
    pub(super) fn holds_fast(&self, thing: &Thing, bay: &Bay) -> bool {
        thing.is_held_fast(bay, &self.things, &self.fresh)
    }

    /// The thing that is selected, where it is one alone.
    pub(super) fn thing(&self) -> Option<&Thing> {
        match &self.things[..] {
            [thing] => Some(thing),
            _ => None,
        }
    }
}
