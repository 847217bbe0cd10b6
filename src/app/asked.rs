//! A question to a thread of its own: asked again where it is another one, its old answer kept to be read
//! until then.

use super::jobs::{Job, Standing};

/// What is asked, and the answer.
#[derive(Debug)]
pub(super) struct Asked<Q, A> {
    of: Option<Q>,
    job: Option<Job<Option<A>>>,
    found: Option<A>,
    is_fresh: bool,
}

impl<Q, A> Default for Asked<Q, A> {
    fn default() -> Self {
        Self { of: None, job: None, found: None, is_fresh: false }
    }
}

impl<Q: PartialEq, A: Send + 'static> Asked<Q, A> {
    /// Takes in what has been answered, and asks where the question is another one; what `begin` gives no
    /// job for has no answer. While something is held it is not asked: every frame has another bay then.
    pub(super) fn follow(
        &mut self,
        question: Q,
        is_held: bool,
        begin: impl FnOnce(&Q) -> Option<Job<Option<A>>>,
    ) {
        self.hear();
        if self.of.as_ref() == Some(&question) {
            return;
        }
        self.is_fresh = false;
        if is_held {
            return;
        }
        self.job = begin(&question);
        if self.job.is_none() {
            self.found = None;
        }
        self.of = Some(question);
    }

    /// Nobody looks: what is under way is left off.
    pub(super) fn rest(&mut self) {
        self.hear();
        (self.job, self.of) = (None, None);
    }

    fn hear(&mut self) {
        let Some(job) = &self.job else { return };
        match job.look() {
            Standing::Running => {}
            Standing::Done(found) => {
                (self.found, self.job, self.is_fresh) = (found, None, true);
            }
            Standing::Lost => self.job = None,
        }
    }

    /// What is under way.
    pub(super) fn job(&self) -> Option<&Job<Option<A>>> {
        self.job.as_ref()
    }

    /// The answer, where there is one.
    pub(super) fn found(&self) -> Option<&A> {
        self.found.as_ref()
    }

    /// Whether it answers what is asked now.
    pub(super) fn is_fresh(&self) -> bool {
        self.is_fresh
    }
}
