//! The shopping list and the cut list of the routing in view: calculated in a thread of its own once
//! nothing is held, and written for ordering.

use std::rc::Rc;
use std::sync::Arc;

use super::asked::Asked;
use super::jobs::{Job, Wake};
use crate::engine::cutting::optimum::{Watch, Work};
use crate::engine::cutting::{Allowances, CutList, Remakes, ShoppingList};
use crate::export::cutlist_csv;
use crate::model::Routing;
use crate::report::answer::Answer;
use crate::units::LengthUnit;

/// What is asked, and the answer.
#[derive(Debug, Default)]
pub(super) struct Shopping {
    pub(super) is_open: bool,
    /// What a cut takes, as typed here: of the bench at hand, so not in the bay's file.
    pub(super) allowances: Allowances,
    asked: Asked<Of, Worked>,
}

/// What is asked about.
#[derive(Debug, Clone, PartialEq)]
struct Of {
    revision: u64,
    routing: usize,
    allowances: Allowances,
}

/// The answer.
#[derive(Debug)]
pub(super) struct Worked {
    pub(super) routing: Routing,
    pub(super) unit: LengthUnit,
    pub(super) cut_list: CutList,
    pub(super) list: ShoppingList,
    pub(super) remakes: Remakes,
}

impl Shopping {
    /// Asks again where the bay, the routing or the allowances are others, and takes in what has been
    /// answered. The old answer is kept to be read until then.
    pub(super) fn follow(
        &mut self,
        revision: Option<u64>,
        answer: Option<&Arc<Answer>>,
        routing: usize,
        wake: &Wake,
    ) {
        let Some(revision) = revision.filter(|_| self.is_open) else {
            return self.asked.rest();
        };
        let of = Of { revision, routing, allowances: self.allowances };
        let begin = |of: &Of| Some(begin(Arc::clone(answer?), of, wake));
        self.asked.follow(of, answer.is_none(), begin);
    }

    /// What is under way.
    pub(super) fn job(&self) -> Option<&Job<Option<Worked>>> {
        self.asked.job()
    }

    /// The answer, where there is one.
    pub(super) fn found(&self) -> Option<&Worked> {
        self.asked.found()
    }

    /// Whether it is of the bay as it is now.
    pub(super) fn is_fresh(&self) -> bool {
        self.asked.is_fresh()
    }
}

fn begin(answer: Arc<Answer>, of: &Of, wake: &Wake) -> Job<Option<Worked>> {
    let of = of.clone();
    Job::start("Shopping list and cut list", wake, move |progress| {
        let (bay, routing, solution) = (answer.bay(), answer.routing(), &answer.solution);
        // Where it is stopped, the best so far is shown, and said not to be proven.
        let watch = |word: &'static str| -> Watch {
            let progress = progress.clone();
            Rc::new(move |done| {
                progress.tell(word, Some(done));
                !progress.is_stopped()
            })
        };
        let work = Work::watched(Some(watch("Looking for the cheapest cut list")));
        let cut_list = CutList::within(bay, routing, solution, of.allowances, &work);
        let list = ShoppingList::new(bay, routing, solution, &cut_list);
        let work = Work::for_remakes(Some(watch("Looking at a remake of every hose")));
        let remakes = Remakes::within(bay, routing, &cut_list, &work);
        Some(Worked { routing: routing.clone(), unit: bay.show_units, cut_list, list, remakes })
    })
}

impl Shopping {
    /// The list for ordering; none where it is not calculated.
    pub(super) fn csv(&self) -> Option<Vec<u8>> {
        let found = self.found().filter(|_| self.is_fresh())?;
        Some(cutlist_csv(&found.routing, &found.list, found.unit).into_bytes())
    }
}
