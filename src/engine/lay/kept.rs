//! What is kept of the last answer, for a drag changes one hose at a time.

use std::sync::Arc;

use super::routing::{Drawn, RoutingLay, RunLay, ends_of, of_runs, pairs};
use crate::engine::RunSolution;
use crate::engine::clearance::{ClearanceIndex, TubeEnd};
use crate::engine::motion;
use crate::engine::solve::Depth;

/// The runs as they were solved last, with their lies, and which solids they were held against.
#[derive(Debug, Clone, Default)]
pub struct Kept {
    runs: Vec<Option<Known>>,
    solids: u64,
}

/// A run and what its lie was worked out from.
#[derive(Debug, Clone)]
struct Known {
    solved: RunSolution,
    /// The solids that its ports are screwed into.
    on: [Option<usize>; 2],
    lay: Arc<RunLay>,
}

impl Kept {
    /// How the hoses lie; what is as it was is taken over. The answer does not depend on what is kept.
    pub(in crate::engine) fn lay(
        &mut self,
        index: &ClearanceIndex,
        drawn: &Drawn<'_>,
        depth: Depth,
    ) -> RoutingLay {
        if self.solids != index.version() {
            (self.runs, self.solids) = (Vec::new(), index.version());
        }
        let known = |place: usize, solved: &RunSolution, ends: &[TubeEnd<'_>; 2]| {
            let before = self.runs.get(place)?.as_ref()?;
            let same = before.on == ends.map(|end| end.on) && before.solved == *solved;
            same.then(|| Arc::clone(&before.lay))
        };
        let runs = of_runs(index, drawn, known);
        self.keep(drawn, &runs);
        let motion = (depth >= Depth::Motion).then(|| motion::of_routing(index, drawn, &runs));
        RoutingLay { pairs: pairs(drawn, &runs), runs, motion }
    }

    /// Takes in what is new.
    fn keep(&mut self, drawn: &Drawn<'_>, lays: &[Option<Arc<RunLay>>]) {
        self.runs.resize_with(lays.len(), || None);
        let all = drawn.option.runs.iter().zip(drawn.runs).zip(lays);
        for (kept, ((run, solved), lay)) in self.runs.iter_mut().zip(all) {
            let (Ok(solved), Some(lay)) = (solved, lay) else {
                *kept = None;
                continue;
            };
            if kept.as_ref().is_none_or(|known| !Arc::ptr_eq(&known.lay, lay)) {
                let on = ends_of(drawn.bay, run, solved).map(|end| end.on);
                *kept = Some(Known { solved: solved.clone(), on, lay: Arc::clone(lay) });
            }
        }
    }
}
