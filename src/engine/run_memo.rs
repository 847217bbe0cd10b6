//! What is kept of the runs of one routing between two answers. Each is kept beside the one that it was made of, by
//! its identity in memory: measured, then drawn against the obstacles, then laid as installed.

use std::sync::Arc;

use super::clearance::{ClearanceIndex, RunDrawn, TubeEnd};
use super::lay::RunLay;
use super::lengths::BenchStop;
use super::measure::{Desk, measure};
use super::resolve::{ResolvedEnd, ResolvedHose};
use super::solution::RunSolution;
use crate::geom::EndFrame;
use crate::memo::Memo;
use crate::model::Run;
use crate::units::LengthUnit;

/// An end fitting and where it is.
type End = (ResolvedEnd, EndFrame);

/// The run in one place.
#[derive(Debug, Clone, Default)]
pub(super) struct RunMemo {
    measured: Memo<Measured, Arc<RunSolution>>,
    drawn: Memo<Drawn, Arc<RunDrawn>>,
    laid: Memo<Arc<RunDrawn>, Arc<RunLay>>,
    /// Where nothing moves: what rides on what is not in it.
    bench: Memo<(Arc<RunLay>, LengthUnit), Option<BenchStop>>,
}

/// All that the measuring of a run depends on.
#[derive(Debug, Clone)]
struct Measured {
    run: Run,
    hose: ResolvedHose,
    ends: [End; 2],
}

/// All that the clearance of a run depends on.
#[derive(Debug, Clone)]
struct Drawn {
    solved: Arc<RunSolution>,
    ports: [String; 2],
    /// The obstacles that its ports are screwed into.
    on: [Option<usize>; 2],
    /// The version of the obstacles.
    obstacles: u64,
}

impl RunMemo {
    /// The run, measured.
    pub(super) fn measured(
        &mut self,
        desk: &mut Desk,
        run: &Run,
        hose: &ResolvedHose,
        ends: &[End; 2],
    ) -> Arc<RunSolution> {
        let holds =
            |known: &Measured| known.ends == *ends && known.hose == *hose && known.run == *run;
        let make = || {
            let [from, to] = ends.clone();
            let solved = Arc::new(measure(desk, run, hose.clone(), from, to));
            (Measured { run: run.clone(), hose: hose.clone(), ends: ends.clone() }, solved)
        };
        Arc::clone(self.measured.or_make(holds, make))
    }

    /// The measured run as drawn, with what it comes too near to.
    pub(super) fn drawn(
        &mut self,
        index: &ClearanceIndex,
        solved: &Arc<RunSolution>,
        ends: [TubeEnd<'_>; 2],
    ) -> Arc<RunDrawn> {
        let holds = |known: &Drawn| {
            known.obstacles == index.version()
                && known.on == ends.map(|end| end.on)
                && known.ports.iter().zip(&ends).all(|(port, end)| port == end.port)
                && (Arc::ptr_eq(&known.solved, solved) || known.solved == *solved)
        };
        let make = || {
            let of = Drawn {
                solved: Arc::clone(solved),
                ports: ends.map(|end| end.port.to_owned()),
                on: ends.map(|end| end.on),
                obstacles: index.version(),
            };
            (of, Arc::new(RunDrawn::new(index, solved, ends)))
        };
        Arc::clone(self.drawn.or_make(holds, make))
    }

    /// The drawn run as installed.
    pub(super) fn laid(
        &mut self,
        drawn: &Arc<RunDrawn>,
        lay: impl FnOnce() -> RunLay,
    ) -> Arc<RunLay> {
        let holds = |known: &Arc<RunDrawn>| Arc::ptr_eq(known, drawn);
        Arc::clone(self.laid.or_make(holds, || (Arc::clone(drawn), Arc::new(lay()))))
    }

    /// What stops the length that the bench cuts.
    pub(super) fn bench_stop(
        &mut self,
        lay: &Arc<RunLay>,
        unit: LengthUnit,
        stop: impl FnOnce() -> Option<BenchStop>,
    ) -> Option<BenchStop> {
        let holds =
            |known: &(Arc<RunLay>, LengthUnit)| Arc::ptr_eq(&known.0, lay) && known.1 == unit;
        *self.bench.or_make(holds, || ((Arc::clone(lay), unit), stop()))
    }
}
