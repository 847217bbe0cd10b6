//! Which other lengths the chosen hose could be cut to: worked out in a thread of its own once nothing
//! is held.

use super::jobs::{Job, Standing, Wake};
use crate::document::Document;
use crate::engine::lengths::{LengthAdvice, advise_run};
use crate::engine::solve_whole;
use crate::model::Routing;

/// What is asked and answered about the chosen hose.
#[derive(Debug, Default)]
pub(super) struct Advice {
    of: Option<Of>,
    job: Option<Job<Option<LengthAdvice>>>,
    found: Option<LengthAdvice>,
}

/// The hose that is asked about, as it is.
#[derive(Debug, Clone, PartialEq)]
struct Of {
    revision: u64,
    routing: usize,
    run: String,
}

impl Advice {
    /// Asks anew where the hose or the bay is another one, and takes in what has been answered.
    pub(super) fn follow(
        &mut self,
        document: Option<&Document>,
        routing: usize,
        run: Option<&str>,
        wake: &Wake,
    ) {
        let settled = document.filter(|document| !document.in_transaction());
        let of = settled.zip(run).map(|(document, run)| Of {
            revision: document.revision(),
            routing,
            run: run.to_owned(),
        });
        if let Some(job) = &self.job {
            match job.look() {
                Standing::Running => {}
                Standing::Done(found) => (self.found, self.job) = (found, None),
                Standing::Lost => self.job = None,
            }
        }
        // While something is held the old answer is of a hose that is no more.
        if of == self.of {
            return;
        }
        (self.job, self.found) = (None, None);
        if let (Some(document), Some(of)) = (settled, &of) {
            self.job = begin(document, of, wake);
        }
        self.of = of;
    }

    /// The answer, where there is one.
    pub(super) fn found(&self) -> Option<&LengthAdvice> {
        self.found.as_ref()
    }

    /// Whether it is being worked out.
    pub(super) fn is_awaited(&self) -> bool {
        self.job.is_some()
    }
}

fn begin(document: &Document, of: &Of, wake: &Wake) -> Option<Job<Option<LengthAdvice>>> {
    let bay = document.bay();
    let routing = bay.routings.get(of.routing)?;
    let run = routing.runs.iter().find(|run| run.id == of.run)?.clone();
    let routing = Routing { runs: vec![run], ..routing.clone() };
    let bay = bay.clone();
    Some(Job::start("Acceptable cut lengths", wake, move |_| {
        let solution = solve_whole(&bay, &routing);
        advise_run(&bay, &routing, &solution, 0)
    }))
}
