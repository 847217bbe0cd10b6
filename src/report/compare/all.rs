//! What the parts of the comparison look at.

use crate::engine::compare::RoutingFigures;
use crate::model::{Bay, Routing};
use crate::report::answer::Answer;
use crate::report::verdict::Verdict;

/// One routing as the parts of the comparison look at it.
pub(super) struct One<'a> {
    pub(super) routing: &'a Routing,
    pub(super) short: &'a str,
    pub(super) letter: char,
    pub(super) figures: &'a RoutingFigures,
    pub(super) answer: &'a Answer,
    pub(super) counts: Verdict,
}

/// Everything that is compared.
pub(super) struct All<'a> {
    pub(super) bay: &'a Bay,
    pub(super) routings: Vec<One<'a>>,
}
