//! Options side by side: worked out in a thread of its own once nothing is held, and written as a page.

use super::App;
use super::asked::Asked;
use super::jobs::{Job, Wake};
use crate::document::Document;
use crate::export::compare::{Answered, CompareFormat, Comparison};
use crate::export::{Paper, PdfError, SheetInfo};
use crate::model::Bay;

/// What is compared, and the answer.
#[derive(Debug, Default)]
pub(super) struct Compare {
    pub(super) is_open: bool,
    /// Whether the routing behind came with it, and goes with it.
    brought_ghost: bool,
    /// Ids of options that are left out.
    left_out: Vec<String>,
    asked: Asked<Of, Comparison>,
}

/// What is asked about.
#[derive(Debug, Clone, PartialEq)]
struct Of {
    revision: u64,
    options: Vec<usize>,
}

impl Compare {
    /// Asks anew where the bay is another one, and takes in what has been answered. The old answer is
    /// kept to be read until then.
    pub(super) fn follow(&mut self, document: Option<&Document>, wake: &Wake) {
        let Some(document) = document.filter(|_| self.is_open) else {
            return self.asked.rest();
        };
        let bay = document.bay();
        let options: Vec<usize> =
            (0..bay.options.len()).filter(|place| self.takes(bay, *place)).collect();
        let of = Of { revision: document.revision(), options };
        self.asked.follow(of, document.in_transaction(), |of| {
            (of.options.len() > 1).then(|| begin(document, of.options.clone(), wake))
        });
    }

    /// Whether an option is compared.
    pub(super) fn takes(&self, bay: &Bay, place: usize) -> bool {
        bay.options.get(place).is_some_and(|option| !self.left_out.contains(&option.id))
    }

    /// Takes an option in, or leaves it out.
    pub(super) fn toggle(&mut self, id: &str) {
        match self.left_out.iter().position(|left| left == id) {
            Some(place) => {
                self.left_out.remove(place);
            }
            None => self.left_out.push(id.to_owned()),
        }
    }

    /// The answer, where there is one.
    pub(super) fn found(&self) -> Option<&Comparison> {
        self.asked.found()
    }

    /// Whether it is of the bay as it is now.
    pub(super) fn is_fresh(&self) -> bool {
        self.asked.is_fresh()
    }
}

fn begin(document: &Document, options: Vec<usize>, wake: &Wake) -> Job<Option<Comparison>> {
    let bay = document.bay().clone();
    let info = SheetInfo::of(document.path(), crate::clock::today());
    Job::start("Options side by side", wake, move |progress| {
        let mut answered = Vec::with_capacity(options.len());
        for place in options {
            if progress.is_stopped() {
                return None;
            }
            answered.extend(Answered::of(&bay, place));
        }
        Some(Comparison::new(&bay, &answered, info))
    })
}

impl App {
    /// Opens the panel, with another option behind the one in view, or closes it.
    pub(super) fn toggle_compare(&mut self) {
        if self.compare.is_open {
            self.close_compare();
            return;
        }
        self.desk.is_open = false;
        self.shopping.is_open = false;
        self.compare.is_open = true;
        self.compare.brought_ghost = self.canvas.ghost.is_none();
        if self.compare.brought_ghost {
            self.toggle_ghost();
        }
    }

    /// Closes the panel; a routing behind that was there before stays.
    pub(super) fn close_compare(&mut self) {
        self.compare.is_open = false;
        if std::mem::take(&mut self.compare.brought_ghost) {
            self.canvas.ghost = None;
        }
    }

    /// The comparison in a format, on the paper usual for the bay's unit; none where it is not worked
    /// out.
    pub(super) fn comparison(&self, format: CompareFormat) -> Option<Result<Vec<u8>, PdfError>> {
        let found = self.compare.found().filter(|_| self.compare.is_fresh())?;
        Some(format.write(found, Paper::usual_for(found.unit)))
    }

    /// Chooses a hose in the option in view; where that has none of this id, in the first that has.
    pub(super) fn choose_compared(&mut self, run: &str) {
        let Some(document) = &self.document else { return };
        let options = &document.bay().options;
        let has = |place: usize| {
            options.get(place).is_some_and(|option| option.runs.iter().any(|r| r.id == run))
        };
        let place = std::iter::once(self.option).chain(0..options.len()).find(|place| has(*place));
        if let Some(place) = place {
            self.show_option(place);
            self.choose_thing(super::canvas::thing::Thing::Hose(run.to_owned()));
        }
    }
}
