//! Which runs are as they were in the answer before: a drag changes one hose at a time. What was not
//! measured again is one in memory with what was measured then: who keeps something of it sees so at once.

use std::sync::Arc;

use super::clearance::{ClearanceIndex, TubeEnd};
use super::lay::{Drawn, ends_of};
use super::measure::{Desk, measure};
use super::resolve::{ResolvedEnd, ResolvedHose};
use super::solution::RunSolution;
use crate::geom::EndFrame;
use crate::model::Run;

/// An end fitting and where it is.
type End = (ResolvedEnd, EndFrame);

/// The runs of one routing as they were measured last.
#[derive(Debug, Clone, Default)]
pub(super) struct Measured {
    runs: Vec<Option<MeasuredRun>>,
}

/// All that the measuring of a run depends on, and its answer.
#[derive(Debug, Clone)]
struct MeasuredRun {
    run: Run,
    hose: ResolvedHose,
    ends: [End; 2],
    solved: Arc<RunSolution>,
}

impl Measured {
    /// The run in this place, measured; taken over where nothing has changed.
    pub(super) fn run(
        &mut self,
        desk: &mut Desk,
        place: usize,
        run: &Run,
        hose: ResolvedHose,
        ends: [End; 2],
    ) -> Arc<RunSolution> {
        let is_same =
            |known: &&MeasuredRun| known.ends == ends && known.hose == hose && known.run == *run;
        if let Some(known) = self.runs.get(place).and_then(Option::as_ref).filter(is_same) {
            return Arc::clone(&known.solved);
        }
        let [from, to] = ends.clone();
        let solved = Arc::new(measure(desk, run, hose.clone(), from, to));
        if self.runs.len() <= place {
            self.runs.resize_with(place + 1, || None);
        }
        self.runs[place] =
            Some(MeasuredRun { run: run.clone(), hose, ends, solved: Arc::clone(&solved) });
        solved
    }

    /// Forgets the runs from this place on.
    pub(super) fn cut_to(&mut self, count: usize) {
        self.runs.truncate(count);
    }
}

/// The runs as they were solved last, and what they were checked against.
#[derive(Debug, Clone, Default)]
pub(super) struct Before {
    runs: Vec<Option<Known>>,
    obstacles: u64,
}

/// All that clearance and lie of a run depend on, but for the obstacles.
#[derive(Debug, Clone, PartialEq)]
struct Known {
    solved: Arc<RunSolution>,
    ports: [String; 2],
    /// The obstacles that its ports are screwed into.
    on: [Option<usize>; 2],
}

impl Known {
    fn is(&self, solved: &Arc<RunSolution>, ends: &[TubeEnd<'_>; 2]) -> bool {
        self.on == ends.map(|end| end.on)
            && self.ports.iter().zip(ends).all(|(port, end)| port == end.port)
            && (Arc::ptr_eq(&self.solved, solved) || self.solved == *solved)
    }
}

impl Before {
    /// For each run whether it is as it was; what is new is taken in.
    pub(super) fn follow(&mut self, drawn: &Drawn<'_>, index: &ClearanceIndex) -> Vec<bool> {
        if self.obstacles != index.version() {
            (self.runs, self.obstacles) = (Vec::new(), index.version());
        }
        self.runs.resize_with(drawn.runs.len(), || None);
        let all = drawn.routing.runs.iter().zip(drawn.runs).zip(&mut self.runs);
        all.map(|((run, solved), known)| {
            let Ok(solved) = solved else {
                *known = None;
                return false;
            };
            let ends = ends_of(drawn.bay, run, solved);
            let stays = known.as_ref().is_some_and(|known| known.is(solved, &ends));
            if !stays {
                let ports = ends.map(|end| end.port.to_owned());
                let on = ends.map(|end| end.on);
                *known = Some(Known { solved: Arc::clone(solved), ports, on });
            }
            stays
        })
        .collect()
    }
}
