//! Which other lengths the selected hose could be cut to, and what clears what was found on it: worked out in a
//! thread of its own once nothing is held.

use std::sync::Arc;

use super::jobs::{Job, Standing, Wake};
use crate::checks::Finding;
use crate::engine::lengths::{LengthAdvice, advise_run};
use crate::remedy::{RemedySearch, is_clearable, search_run};
use crate::report::answer::Answer;

/// What is asked and answered about the selected hose.
#[derive(Debug, Default)]
pub(super) struct Advice {
    of: Option<Of>,
    job: Option<Job<Option<Found>>>,
    found: Option<Found>,
}

/// What was worked out.
#[derive(Debug)]
struct Found {
    lengths: Option<LengthAdvice>,
    /// What was tried, where there is something to clear.
    sought: Option<RemedySearch>,
}

/// The hose that is asked about, as it is.
#[derive(Debug, Clone, PartialEq)]
struct Of {
    revision: u64,
    routing: usize,
    run: String,
}

impl Advice {
    /// Asks again where the hose or the bay is another one, and takes in what has been answered.
    pub(super) fn follow(
        &mut self,
        revision: Option<u64>,
        answer: Option<&Arc<Answer>>,
        run: Option<&str>,
        wake: &Wake,
    ) {
        let of = revision.zip(answer).zip(run).map(|((revision, answer), run)| Of {
            revision,
            routing: answer.place(),
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
        if let (Some(answer), Some(of)) = (answer, &of) {
            self.job = begin(answer, of, wake);
        }
        self.of = of;
    }

    /// The answer, where there is one.
    pub(super) fn lengths(&self) -> Option<&LengthAdvice> {
        self.found.as_ref()?.lengths.as_ref()
    }

    /// What was tried to clear what was found on the hose.
    pub(super) fn sought(&self) -> Option<&RemedySearch> {
        self.found.as_ref()?.sought.as_ref()
    }

    /// Whether it is being worked out.
    pub(super) fn is_awaited(&self) -> bool {
        self.job.is_some()
    }
}

fn begin(answer: &Arc<Answer>, of: &Of, wake: &Wake) -> Option<Job<Option<Found>>> {
    let place = answer.routing().runs.iter().position(|run| run.id == of.run)?;
    let (answer, id) = (Arc::clone(answer), of.run.clone());
    Some(Job::start("Acceptable cut lengths", wake, move |_| {
        let (bay, routing, findings) = (answer.bay(), answer.routing(), &answer.findings);
        let is_own = |one: &Finding| one.run.as_deref() == Some(id.as_str());
        let has = findings.iter().any(|one| is_own(one) && is_clearable(one));
        let sought = has.then(|| search_run(bay, routing, findings, place)).flatten();
        Some(Found { lengths: advise_run(bay, routing, &answer.solution, place), sought })
    }))
}
