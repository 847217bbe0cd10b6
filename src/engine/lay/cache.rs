//! What is kept of the last answer, for a drag changes one hose at a time.

use std::sync::Arc;

use super::routing::{Drawn, RoutingLay, RunLay, of_runs, tubes};
use crate::engine::clearance::{ClearanceIndex, PairCache};
use crate::engine::motion;
use crate::engine::solve::Depth;

/// How the runs lay when they were calculated last.
#[derive(Debug, Clone, Default)]
pub struct InstalledCache {
    runs: Vec<Option<Arc<RunLay>>>,
    pairs: PairCache,
}

impl InstalledCache {
    /// How the hoses lie; of runs that stay as they were, what was found then is taken over. The answer
    /// does not depend on what is kept.
    pub(in crate::engine) fn lay(
        &mut self,
        index: &ClearanceIndex,
        drawn: &Drawn<'_>,
        stays: &[bool],
        depth: Depth,
    ) -> RoutingLay {
        let known = |place: usize| self.runs.get(place).filter(|_| stays[place])?.clone();
        let runs = of_runs(index, drawn, known);
        // What was not calculated then is not known now.
        let was = |place: usize| self.runs.get(place).is_some_and(Option::is_some);
        let stays: Vec<bool> =
            stays.iter().enumerate().map(|(place, stays)| *stays && was(place)).collect();
        let pairs = self.pairs.follow(&tubes(drawn, &runs), drawn.hose_clearance_mm, &stays);
        self.runs.clone_from(&runs);
        let is_asked = depth >= Depth::Motion;
        let motion = is_asked.then(|| motion::of_routing(index, drawn, &runs, &pairs));
        RoutingLay { runs, pairs, motion }
    }
}
