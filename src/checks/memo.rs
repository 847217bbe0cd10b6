//! Findings of each hose, kept between checks: a drag changes one hose at a time.

use std::sync::Arc;

use super::{Answers, Finding, check_run, rules::unresolved};
use crate::engine::clearance::TubeClearance;
use crate::engine::lay::RunLay;
use crate::engine::lengths::BenchStop;
use crate::engine::motion::{Positions, RunMotion, RunPosition};
use crate::engine::{RoutingSolution, RunSolution};
use crate::memo::Memo;
use crate::model::{Bay, Obstacle, Port, Routing, Run, Side, Stock, Tilt};
use crate::units::LengthUnit;

/// The findings on each run, beside all that they depend on.
#[derive(Debug, Clone, Default)]
pub(super) struct FindingsMemo(Memo<Shared, Vec<RunFindings>>);

type RunFindings = Memo<Entry, Arc<[Arc<Finding>]>>;

/// All of a bay that the rules of one run look at, but for that run and its ports.
#[derive(Debug, Clone, PartialEq)]
struct Shared {
    units: LengthUnit,
    obstacles: Vec<Obstacle>,
    stock: Stock,
    tilt: Option<Tilt>,
    positions: Option<Positions>,
}

impl Shared {
    fn is_of(&self, bay: &Bay, positions: Option<&Positions>) -> bool {
        self.units == bay.show_units
            && self.obstacles == bay.obstacles
            && self.stock == bay.stock
            && self.tilt == bay.tilt
            && self.positions.as_ref() == positions
    }

    fn of(bay: &Bay, positions: Option<&Positions>) -> Self {
        Self {
            units: bay.show_units,
            obstacles: bay.obstacles.clone(),
            stock: bay.stock.clone(),
            tilt: bay.tilt.clone(),
            positions: positions.cloned(),
        }
    }
}

/// One run with everything that its rules look at, and what they found.
#[derive(Debug, Clone)]
struct Entry {
    run: Run,
    ports: [Option<Port>; 2],
    solved: Arc<RunSolution>,
    clearance: TubeClearance,
    lay: Option<Arc<RunLay>>,
    motion: Option<RunMotion>,
    bench_stop: Option<BenchStop>,
}

impl Entry {
    fn is_of(&self, now: &Inputs<'_>) -> bool {
        let is_same_lay = match (&self.lay, now.lay) {
            (Some(a), Some(b)) => Arc::ptr_eq(a, b) || a == b,
            (None, None) => true,
            _ => false,
        };
        let is_same_motion = match (&self.motion, now.motion) {
            (Some(a), Some((b, _))) => is_same_but_points(a, b),
            (None, None) => true,
            _ => false,
        };
        is_same_lay
            && is_same_motion
            && self.ports.each_ref().map(Option::as_ref) == now.ports
            && self.run == *now.run
            && self.bench_stop == now.bench_stop
            && self.clearance == *now.clearance
            && (Arc::ptr_eq(&self.solved, now.solved) || self.solved == *now.solved)
    }
}

/// No rule looks at the points along a hose in a position.
fn is_same_but_points(a: &RunMotion, b: &RunMotion) -> bool {
    let is_same = |a: &RunPosition, b: &RunPosition| {
        let RunPosition { tightest, reach, is_whole, clearance, own_port, points: _ } = a;
        (tightest, reach, is_whole, clearance) == (&b.tightest, &b.reach, &b.is_whole, &b.clearance)
            && own_port == &b.own_port
    };
    a.rides == b.rides
        && a.positions.len() == b.positions.len()
        && a.positions.iter().zip(&b.positions).all(|(a, b)| is_same(a, b))
}

fn without_points(motion: &RunMotion) -> RunMotion {
    let position = |position: &RunPosition| RunPosition {
        tightest: position.tightest,
        reach: position.reach,
        is_whole: position.is_whole,
        clearance: position.clearance,
        own_port: position.own_port.clone(),
        points: Arc::default(),
    };
    RunMotion { positions: motion.positions.iter().map(position).collect(), rides: motion.rides }
}

/// One run and the engine's answers on it.
struct Inputs<'a> {
    run: &'a Run,
    ports: [Option<&'a Port>; 2],
    solved: &'a Arc<RunSolution>,
    clearance: &'a TubeClearance,
    lay: Option<&'a Arc<RunLay>>,
    motion: Option<(&'a RunMotion, &'a Positions)>,
    bench_stop: Option<BenchStop>,
}

impl Inputs<'_> {
    fn entry(&self) -> Entry {
        Entry {
            run: self.run.clone(),
            ports: self.ports.map(Option::<&Port>::cloned),
            solved: Arc::clone(self.solved),
            clearance: self.clearance.clone(),
            lay: self.lay.cloned(),
            motion: self.motion.map(|(motion, _)| without_points(motion)),
            bench_stop: self.bench_stop,
        }
    }
}

impl FindingsMemo {
    /// Everything found on the runs, each with the place of its run, in the order of the rules.
    pub(super) fn of_runs(
        &mut self,
        bay: &Bay,
        routing: &Routing,
        solution: &RoutingSolution,
    ) -> Vec<(usize, Arc<Finding>)> {
        let motion = solution.lay.as_ref().and_then(|lay| lay.motion.as_ref());
        let positions = motion.map(|motion| &motion.positions);
        let holds = |shared: &Shared| shared.is_of(bay, positions);
        let memo = self.0.or_make(holds, || (Shared::of(bay, positions), Vec::new()));
        memo.resize_with(routing.runs.len(), Memo::default);
        let mut found = Vec::new();
        for (place, (run, memo)) in routing.runs.iter().zip(memo).enumerate() {
            let of_run = of_run(memo, bay, run, (place, solution));
            found.extend(of_run.iter().map(|finding| (place, Arc::clone(finding))));
        }
        found
    }
}

fn of_run(
    memo: &mut RunFindings,
    bay: &Bay,
    run: &Run,
    (place, solution): (usize, &RoutingSolution),
) -> Arc<[Arc<Finding>]> {
    let solved = match solution.runs.get(place) {
        Some(Ok(solved)) => solved,
        Some(Err(missing)) => {
            return Arc::new([Arc::new(unresolved::check(bay, run, missing))]);
        }
        None => return Arc::new([]),
    };
    // A solution of another bay may have fewer.
    let none = TubeClearance::default();
    let now = Inputs {
        run,
        ports: [Side::A, Side::B].map(|side| bay.port(&run.end(side).port)),
        solved,
        clearance: solution.clearance.runs.get(place).unwrap_or(&none),
        lay: solution.lay.as_ref().and_then(|lay| lay.runs.get(place)?.as_ref()),
        motion: solution.motion_of(place),
        bench_stop: solution.bench_stop_of(place),
    };
    let make = || {
        let lay = now.lay.map(Arc::as_ref);
        let Inputs { clearance, motion, bench_stop, .. } = now;
        let found = check_run(bay, run, &Answers { solved, clearance, lay, motion, bench_stop });
        (now.entry(), found.into_iter().map(Arc::new).collect())
    };
    Arc::clone(memo.or_make(|entry| entry.is_of(&now), make))
}
