//! What is kept of the last answer, for a drag changes one hose at a time.

use std::sync::Arc;

use super::routing::{Drawn, RoutingLay, RunLay, of_runs, pairs};
use crate::engine::clearance::{ClearanceIndex, HosePair};
use crate::engine::motion;
use crate::engine::solve::Depth;

/// How the runs lay when they were worked out last.
#[derive(Debug, Clone, Default)]
pub struct Kept {
    runs: Vec<Option<Arc<RunLay>>>,
    pairs: Vec<HosePair>,
    hose_gap_mm: f64,
}

impl Kept {
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
        let same_gap = self.hose_gap_mm.to_bits() == drawn.hose_gap_mm.to_bits();
        // What was not worked out then is not known now.
        let stays: Vec<bool> = (0..runs.len())
            .map(|place| {
                same_gap && stays[place] && self.runs.get(place).is_some_and(Option::is_some)
            })
            .collect();
        let pairs = pairs(drawn, &runs, &self.pairs, &stays);
        (self.runs, self.hose_gap_mm) = (runs.clone(), drawn.hose_gap_mm);
        self.pairs.clone_from(&pairs);
        let is_asked = depth >= Depth::Motion;
        let motion = is_asked.then(|| motion::of_routing(index, drawn, &runs, &pairs));
        RoutingLay { runs, pairs, motion }
    }
}
