//! Findings of each hose, kept between checks: a drag changes one hose at a time.

use std::sync::Arc;

use super::{Answers, Finding, check_run, rules::unresolved};
use crate::engine::clearance::TubeClearance;
use crate::engine::lay::RunLay;
use crate::engine::motion::{Positions, RunMotion, RunPosition};
use crate::engine::{RoutingSolution, RunSolution};
use crate::model::{Bay, Obstacle, Port, Run, Side, Stock, Tilt};
use crate::units::LengthUnit;

/// The last findings on each run, with all that they depend on.
#[derive(Debug, Clone, Default)]
pub(super) struct Cache {
    shared: Option<Shared>,
    runs: Vec<Option<Entry>>,
}

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
    found: Arc<[Arc<Finding>]>,
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
}

impl Inputs<'_> {
    fn with(&self, found: Arc<[Arc<Finding>]>) -> Entry {
        Entry {
            run: self.run.clone(),
            ports: self.ports.map(Option::<&Port>::cloned),
            solved: Arc::clone(self.solved),
            clearance: self.clearance.clone(),
            lay: self.lay.cloned(),
            motion: self.motion.map(|(motion, _)| without_points(motion)),
            found,
        }
    }
}

impl Cache {
    /// Drops what a change of the bay has made out of date.
    pub(super) fn drop_stale(&mut self, bay: &Bay, runs: usize, solution: &RoutingSolution) {
        let motion = solution.lay.as_ref().and_then(|lay| lay.motion.as_ref());
        let positions = motion.map(|motion| &motion.positions);
        if !self.shared.as_ref().is_some_and(|shared| shared.is_of(bay, positions)) {
            *self = Self { shared: Some(Shared::of(bay, positions)), runs: Vec::new() };
        }
        self.runs.resize_with(runs, || None);
    }

    /// Everything found on one run, in the order of the rules.
    pub(super) fn of_run(
        &mut self,
        bay: &Bay,
        run: &Run,
        place: usize,
        solution: &RoutingSolution,
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
        };
        let entry = self.runs.get(place).and_then(Option::as_ref);
        if let Some(entry) = entry.filter(|entry| entry.is_of(&now)) {
            return Arc::clone(&entry.found);
        }
        let Inputs { clearance, motion, .. } = now;
        let lay = now.lay.map(Arc::as_ref);
        let found = check_run(bay, run, &Answers { solved, clearance, lay, motion });
        let found: Arc<[Arc<Finding>]> = found.into_iter().map(Arc::new).collect();
        if let Some(entry) = self.runs.get_mut(place) {
            *entry = Some(now.with(Arc::clone(&found)));
        }
        found
    }
}
