//! Routings side by side: calculated in a thread of its own once nothing is held, and written as a page.

use std::sync::Arc;

use super::asked::Asked;
use super::jobs::{Job, Wake};
use crate::app::work::Work;
use crate::document::Document;
use crate::export::{CompareFormat, Paper, PdfError};
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

impl Compare {
    /// Opens the panel, with another routing behind the one in view.
    pub(super) fn open(&mut self, work: &mut Work) {
        self.is_open = true;
        self.brought_ghost = work.canvas.ghost.is_none();
        if self.brought_ghost {
            work.toggle_ghost();
        }
    }

    /// Closes the panel; a routing behind that was there before stays.
    pub(super) fn close(&mut self, work: &mut Work) {
        self.is_open = false;
        if std::mem::take(&mut self.brought_ghost) {
            work.canvas.ghost = None;
        }
    }

    /// The comparison in a format, on the paper usual for the bay's unit; none where it is not worked
    /// out.
    pub(super) fn written(&self, format: CompareFormat) -> Option<Result<Vec<u8>, PdfError>> {
        let found = self.found().filter(|_| self.is_fresh())?;
        Some(format.write(found, Paper::usual_for(found.unit)))
    }
}
