//! What is kept of the last answer, for a drag changes one hose at a time.

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
    lay: RunLay,
}

impl Kept {
    /// How the hoses lie; what is as it was is taken over. The answer does not depend on what is kept.
    pub(in crate::engine) fn lay(
        &mut self,
        index: &ClearanceIndex,
        drawn: &Drawn<'_>,
        depth: Depth,
    ) -> RoutingLay {
        let same_solids = self.solids == index.version();
        let known = |place: usize, solved: &RunSolution, ends: &[TubeEnd<'_>; 2]| {
            let before = self.runs.get(place).filter(|_| same_solids)?.as_ref()?;
            let same = before.on == ends.map(|end| end.on) && before.solved == *solved;
            same.then(|| before.lay.clone())
        };
        let runs = of_runs(index, drawn, known);
        let all = drawn.option.runs.iter().zip(drawn.runs).zip(&runs);
        let kept = all.map(|((run, solved), lay)| {
            let (solved, lay) = (solved.as_ref().ok()?.clone(), lay.clone()?);
            let on = ends_of(drawn.bay, run, &solved).map(|end| end.on);
            Some(Known { solved, on, lay })
        });
        self.runs = kept.collect();
        self.solids = index.version();
        let motion = (depth >= Depth::Motion).then(|| motion::of_routing(index, drawn, &runs));
        RoutingLay { pairs: pairs(drawn, &runs), runs, motion }
    }
}
