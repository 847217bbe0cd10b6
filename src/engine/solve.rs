//! From a bay to its solution.

use std::sync::Arc;

use rayon::prelude::*;

use crate::geom::EndFrame;
use crate::model::{Bay, Routing, Run, Side};

use super::clearance::{ClearanceIndex, PairsMemo, RoutingClearance};
use super::ends;
use super::fittings::FittingsMemo;
use super::lay::{Drawn, RoutingLay, ends_of, lay};
use super::lengths::{BenchStop, bench_stop};
use super::measure::{Desk, measure};
use super::ports::PortIndex;
use super::resolve::{Missing, ResolvedEnd, resolve_end, resolve_hose};
use super::run_memo::RunMemo;
use super::solution::{RoutingSolution, RunSolution, Solution};

/// Every routing of the bay, solved. Time grows linearly with the corners of all runs.
pub fn solve(bay: &Bay) -> Solution {
    Solver::default().bay(bay)
}

/// One routing of the bay, solved.
pub fn solve_routing(bay: &Bay, routing: &Routing) -> RoutingSolution {
    Solver::default().routing(bay, routing)
}

/// One routing of the bay with all that is calculated of it.
pub fn solve_whole(bay: &Bay, routing: &Routing) -> RoutingSolution {
    Solver::default().routing_to(bay, routing, Depth::Bench)
}

/// One run, solved by itself.
///
/// # Errors
/// [`Missing`] where a reference of the run leads nowhere.
pub fn solve_run(bay: &Bay, run: &Run) -> Result<RunSolution, Missing> {
    Solver::default().run(bay, run)
}

/// Solves again and again what changes little, as in a drag: it keeps its working memory and knows
/// where the ports were and what the obstacles are. Its answers do not depend on what it solved before.
#[derive(Debug, Clone, Default)]
pub struct Solver {
    ports: PortIndex,
    desk: Desk,
    obstacles: ClearanceIndex,
    runs: Vec<RunMemo>,
    fittings: FittingsMemo,
    pairs_drawn: PairsMemo,
    pairs_laid: PairsMemo,
}

/// How far a bay is calculated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Depth {
    /// The drawn routes: lengths, bends, clearances.
    Drawn,
    /// And how the hoses really lie.
    Installed,
    /// And how they lie in every position.
    Motion,
    /// And whether they may be cut to the step that the bench rounds up to.
    Bench,
}

impl Solver {
    /// [`solve`].
    pub fn bay(&mut self, bay: &Bay) -> Solution {
        Solution {
            routings: bay.routings.iter().map(|routing| self.routing(bay, routing)).collect(),
        }
    }

    /// [`solve_routing`].
    pub fn routing(&mut self, bay: &Bay, routing: &Routing) -> RoutingSolution {
        self.routing_to(bay, routing, Depth::Drawn)
    }

    /// One routing of the bay, solved as far as is asked for.
    pub fn routing_to(&mut self, bay: &Bay, routing: &Routing, depth: Depth) -> RoutingSolution {
        self.runs.resize_with(routing.runs.len(), RunMemo::default);
        let runs: Vec<_> =
            (0..).zip(&routing.runs).map(|(at, run)| self.run_at(bay, at, run)).collect();
        self.obstacles.update(&bay.obstacles);
        let hose_clearance_mm =
            routing.hose_clearance_mm.unwrap_or(Routing::DEFAULT_HOSE_CLEARANCE_MM);
        let drawn = Drawn { bay, routing, runs: &runs, hose_clearance_mm };
        let index = &self.obstacles;
        let all = self.runs.iter_mut().zip(&routing.runs).zip(&runs);
        let on_paper = all.map(|((memo, run), solved)| {
            let solved = solved.as_ref().ok()?;
            Some(memo.drawn(index, solved, ends_of(bay, run, solved)))
        });
        let on_paper: Vec<_> = on_paper.collect();
        let clearance = RoutingClearance::new(index, (&drawn, &on_paper), &mut self.pairs_drawn);
        let fittings = self.fittings.of_routing(index, &drawn);
        let lay = (depth > Depth::Drawn)
            .then(|| lay(index, &drawn, &on_paper, (&mut self.runs, &mut self.pairs_laid), depth));
        let bench_stops = match &lay {
            Some(lay) if depth >= Depth::Bench => self.bench_stops(bay, &routing.runs, &runs, lay),
            _ => Vec::new(),
        };
        RoutingSolution { runs, clearance, fittings, lay, bench_stops }
    }

    fn bench_stops(
        &mut self,
        bay: &Bay,
        runs: &[Run],
        solved: &[Result<Arc<RunSolution>, Missing>],
        lay: &RoutingLay,
    ) -> Vec<Option<BenchStop>> {
        let index = &self.obstacles;
        let positions = lay.motion.as_ref().map(|motion| &motion.positions);
        let moves = positions.is_some_and(|positions| positions.all.len() > 1);
        let all = self.runs.par_iter_mut().zip(runs).zip(solved).zip(&lay.runs);
        let of_run = all.map(|(((memo, run), solved), lay)| {
            let (solved, lay) = (solved.as_ref().ok()?, lay.as_ref()?);
            let stop = || bench_stop(index, bay, (run, solved, lay), positions);
            if moves { stop() } else { memo.bench_stop(lay, bay.show_units, stop) }
        });
        of_run.collect()
    }

    /// [`solve_run`].
    ///
    /// # Errors
    /// [`Missing`] where a reference of the run leads nowhere.
    pub fn run(&mut self, bay: &Bay, run: &Run) -> Result<RunSolution, Missing> {
        let hose = resolve_hose(bay, run)?;
        let from = self.end(bay, run, Side::A)?;
        let to = self.end(bay, run, Side::B)?;
        Ok(measure(&mut self.desk, run, hose, from, to))
    }

    fn run_at(&mut self, bay: &Bay, place: usize, run: &Run) -> Result<Arc<RunSolution>, Missing> {
        let hose = resolve_hose(bay, run)?;
        let ends = [self.end(bay, run, Side::A)?, self.end(bay, run, Side::B)?];
        Ok(self.runs[place].measured(&mut self.desk, run, &hose, &ends))
    }

    fn end(
        &mut self,
        bay: &Bay,
        run: &Run,
        side: Side,
    ) -> Result<(ResolvedEnd, EndFrame), Missing> {
        let end = run.end(side);
        let port = self.ports.find(bay, &end.port);
        let port = port.ok_or_else(|| Missing::Port { side, id: end.port.clone() })?;
        let resolved = resolve_end(bay, run, side)?;
        let frame = ends::end_frame(port, end, &resolved);
        Ok((resolved, frame))
    }
}
