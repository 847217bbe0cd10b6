//! Routings side by side: calculated in a thread of its own once nothing is held, and written as a page.

use std::sync::Arc;

use super::App;
use super::asked::Asked;
use super::jobs::{Job, Wake};
use crate::document::Document;
use crate::export::CompareFormat;
use crate::export::{Paper, PdfError};
use crate::model::Bay;
use crate::report::answer::Answer;
use crate::report::compare::Comparison;
use crate::report::sheet::SheetInfo;

/// What is compared, and the answer.
#[derive(Debug, Default)]
pub(super) struct Compare {
    pub(super) is_open: bool,
    /// Whether the routing behind came with it, and goes with it.
    brought_ghost: bool,
    /// Ids of routings that are left out.
    left_out: Vec<String>,
    asked: Asked<Of, Comparison>,
}

/// What is asked about.
#[derive(Debug, Clone, PartialEq)]
struct Of {
    revision: u64,
    routings: Vec<usize>,
}

impl Compare {
    /// Asks again where the bay is another one, and takes in what has been answered. The old answer is
    /// kept to be read until then.
    pub(super) fn follow(
        &mut self,
        document: Option<&Document>,
        answer: Option<&Arc<Answer>>,
        wake: &Wake,
    ) {
        let Some(document) = document.filter(|_| self.is_open) else {
            return self.asked.rest();
        };
        let bay = document.bay();
        let routings: Vec<usize> =
            (0..bay.routings.len()).filter(|place| self.takes(bay, *place)).collect();
        let of = Of { revision: document.revision(), routings };
        self.asked.follow(of, document.in_transaction(), |of| {
            (of.routings.len() > 1)
                .then(|| begin(document, answer.cloned(), of.routings.clone(), wake))
        });
    }

    /// Whether a routing is compared.
    pub(super) fn takes(&self, bay: &Bay, place: usize) -> bool {
        bay.routings.get(place).is_some_and(|routing| !self.left_out.contains(&routing.id))
    }

    /// Takes a routing in, or leaves it out.
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

/// The routing in view is calculated already.
fn begin(
    document: &Document,
    in_view: Option<Arc<Answer>>,
    routings: Vec<usize>,
    wake: &Wake,
) -> Job<Option<Comparison>> {
    let bay = Arc::clone(document.bay());
    let info = SheetInfo::of(document.path(), crate::clock::today());
    Job::start("Routings side by side", wake, move |progress| {
        let mut answers = Vec::with_capacity(routings.len());
        for place in routings {
            if progress.is_stopped() {
                return None;
            }
            let known = in_view.as_ref().filter(|answer| answer.place() == place).cloned();
            answers.extend(known.or_else(|| Answer::of(Arc::clone(&bay), place).map(Arc::new)));
        }
        Some(Comparison::new(&bay, &answers, info))
    })
}

impl App {
    /// Opens the panel, with another routing behind the one in view, or closes it.
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

    /// Selects a hose in the routing in view; where that has none of this id, in the first that has.
    pub(super) fn select_compared(&mut self, run: &str) {
        let Some(document) = &self.document else { return };
        let routings = &document.bay().routings;
        let has = |place: usize| {
            routings.get(place).is_some_and(|routing| routing.runs.iter().any(|r| r.id == run))
        };
        let place =
            std::iter::once(self.routing).chain(0..routings.len()).find(|place| has(*place));
        if let Some(place) = place {
            self.show_routing(place);
            self.select_thing(super::canvas::thing::Thing::Hose(run.to_owned()));
        }
    }
}
