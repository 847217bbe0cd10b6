//! The hoses of one routing in every position.

use std::sync::Arc;

use glam::DVec3;
use rayon::prelude::*;

use super::{Position, Positions};
use crate::engine::RunSolution;
use crate::engine::clearance::{
    ClearanceIndex, HosePair, NearObstacle, NearOwnPort, Tube, TubeClearance, TubeEnd, hose_pairs,
    tightest_with,
};
use crate::engine::installed::{EndHold, Holds, InstalledRun, InstalledSolver, Tightest};
use crate::engine::lay::{Drawn, RunLay, ends_of};
use crate::geom::Rigid;
use crate::geom::rod::RodSpan;
use crate::model::{Bay, Run};
use crate::units::EPS_MM;

/// The hoses of one routing in every position.
#[derive(Debug, Clone, PartialEq)]
pub struct RoutingMotion {
    /// The positions, the one as drawn first.
    pub positions: Positions,
    /// One for each run; none where it could not be solved.
    pub runs: Vec<Option<RunMotion>>,
    /// Hoses nearer to each other than the gap in a position, each pair at its worst, with the position.
    pub pairs: Vec<(usize, HosePair)>,
}

/// One hose in every position.
#[derive(Debug, Clone, PartialEq)]
pub struct RunMotion {
    /// In the order of the positions.
    pub positions: Vec<RunPosition>,
    /// Whether an end of it rides on a group that moves.
    pub rides: bool,
}

/// One hose in one position.
#[derive(Debug, Clone, PartialEq)]
pub struct RunPosition {
    /// Its tightest place; none where nothing bends.
    pub tightest: Option<Tightest>,
    /// How far it reaches.
    pub reach: Reach,
    /// Whether every span was solved: where one was not, nothing is known of its radius.
    pub is_whole: bool,
    /// The tightest against its minimum clearance, of the places that have to keep it; none without obstacles.
    pub clearance: Option<NearObstacle>,
    /// Stretches beside the hot, moving or sharp obstacles that its own ports are on.
    pub own_port: Vec<NearOwnPort>,
    /// The points along it.
    pub points: Arc<Vec<DVec3>>,
}

/// Whether the hose reaches from hold to hold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// The hose there is between two holds, shortened as much as pressure may, less the straight way
    /// between them: where it is least. Negative: pulled tight.
    pub spare_mm: f64,
    /// Where that span begins.
    pub point: DVec3,
}

impl RunPosition {
    /// Radius of the tightest place; none where nothing bends.
    pub fn min_radius_mm(&self) -> Option<f64> {
        self.tightest.map(|tightest| tightest.radius_mm)
    }

    /// The tightest clearance of all places, those beside its own ports among them: what is told of the hose.
    pub fn shown_clearance(&self) -> Option<NearObstacle> {
        tightest_with(self.clearance, &self.own_port)
    }
}

impl RunMotion {
    /// The position of the tightest bend, of those that were solved.
    pub fn tightest(&self) -> Option<(usize, Tightest)> {
        let known = self.positions.iter().enumerate().filter(|(_, position)| position.is_whole);
        let all = known.filter_map(|(k, position)| Some((k, position.tightest?)));
        all.min_by(|a, b| a.1.radius_mm.total_cmp(&b.1.radius_mm))
    }

    /// The position that pulls most.
    pub fn least_reach(&self) -> Option<(usize, Reach)> {
        let all = self.positions.iter().enumerate().map(|(k, position)| (k, position.reach));
        all.min_by(|a, b| a.1.spare_mm.total_cmp(&b.1.spare_mm))
    }

    /// The position that comes nearest to an obstacle, against its minimum clearance, of the places that have to
    /// keep it.
    pub fn nearest(&self) -> Option<(usize, NearObstacle)> {
        let all = self.positions.iter().enumerate();
        let all = all.filter_map(|(k, position)| Some((k, position.clearance?)));
        all.min_by(|a, b| a.1.spare_mm().total_cmp(&b.1.spare_mm()))
    }

    /// The same of all places, those beside its own ports among them: what is told of the hose. An obstacle that
    /// rides with the port stays as near in every position: of those alike the first.
    pub fn shown_nearest(&self) -> Option<(usize, NearObstacle)> {
        let all = self.positions.iter().enumerate();
        let all = all.filter_map(|(k, position)| Some((k, position.shown_clearance()?)));
        all.reduce(|a, b| if b.1.spare_mm() < a.1.spare_mm() - EPS_MM { b } else { a })
    }

    /// The first position in which it could not be solved though it reaches.
    pub fn unsolved(&self) -> Option<usize> {
        self.positions
            .iter()
            .position(|position| !position.is_whole && position.reach.spare_mm >= 0.0)
    }
}

/// A group by its place in the bay; none where something rides on none.
type Rider = Option<usize>;

fn rider(bay: &Bay, group: Option<&str>) -> Rider {
    group.and_then(|id| bay.groups.iter().position(|group| group.id == id))
}

/// The move of what rides there in a position.
fn moved(rider: Rider, groups: &[Rigid]) -> Rigid {
    rider.and_then(|k| groups.get(k)).copied().unwrap_or_default()
}

/// The obstacles where their groups take them in a position.
pub(in crate::engine) fn index_in(
    index: &ClearanceIndex,
    bay: &Bay,
    position: &Position,
) -> ClearanceIndex {
    let mut index = index.clone();
    index.set_positions(|obstacle| {
        let group = bay.obstacles.get(obstacle).and_then(|obstacle| obstacle.group.as_deref());
        moved(rider(bay, group), &position.groups)
    });
    index
}

/// What holds a run when its ends have moved.
fn holds_in(run: &RunSolution, ends: [Rigid; 2]) -> Holds {
    let as_drawn = Holds::as_drawn(run);
    let shifted = |hold: EndHold, by: &Rigid| EndHold {
        exit: by.point(hold.exit),
        direction: (by.turn * hold.direction).normalize_or(hold.direction),
    };
    let [a, b] = ends;
    Holds {
        from: shifted(as_drawn.from, &a),
        to: shifted(as_drawn.to, &b),
        clamps: as_drawn.clamps,
    }
}

/// A run with all that its positions need.
pub(in crate::engine) struct Mover<'a> {
    pub(in crate::engine) run: &'a RunSolution,
    lay: &'a RunLay,
    /// What its ends ride on.
    riders: [Rider; 2],
    ends: [TubeEnd<'a>; 2],
}

impl<'a> Mover<'a> {
    pub(in crate::engine) fn of(
        bay: &Bay,
        run: &'a Run,
        solved: &'a RunSolution,
        lay: &'a RunLay,
    ) -> Self {
        let ends = ends_of(bay, run, solved);
        let riders = [&run.from, &run.to]
            .map(|end| rider(bay, bay.port(&end.port).and_then(|port| port.group.as_deref())));
        Self { run: solved, lay, riders, ends }
    }

    /// How its ends move in a position.
    fn moves(&self, groups: &[Rigid]) -> [Rigid; 2] {
        self.riders.map(|rider| moved(rider, groups))
    }

    fn tube(&self, installed: &InstalledRun, groups: &[Rigid]) -> Tube<'a> {
        let moves = self.moves(groups);
        let mut ends = self.ends;
        for (end, by) in ends.iter_mut().zip(&moves) {
            end.seat = by.point(end.seat);
        }
        installed.tube(self.run, ends)
    }

    /// The lie in a position, at a cut length.
    pub(in crate::engine) fn installed(
        &self,
        solver: &mut InstalledSolver,
        groups: &[Rigid],
        as_drawn: &InstalledRun,
    ) -> InstalledRun {
        if self.moves(groups) == [Rigid::IDENTITY; 2] {
            return as_drawn.clone();
        }
        solver.installed_at(self.run, as_drawn.cut_length_mm, &self.holds(groups), Some(as_drawn))
    }

    /// What holds it in a position.
    pub(in crate::engine) fn holds(&self, groups: &[Rigid]) -> Holds {
        holds_in(self.run, self.moves(groups))
    }

    pub(in crate::engine) fn position(
        &self,
        installed: InstalledRun,
        index: &ClearanceIndex,
        groups: &[Rigid],
    ) -> RunPosition {
        let position = self.without_points(&installed, index.tube(&self.tube(&installed, groups)));
        RunPosition { points: installed.points, ..position }
    }

    /// The position as drawn, which is calculated already.
    fn as_drawn(&self) -> RunPosition {
        let installed = &self.lay.installed;
        RunPosition {
            points: Arc::clone(&installed.points),
            ..self.without_points(installed, self.lay.clearance.clone())
        }
    }

    /// A position but for its points.
    fn without_points(&self, installed: &InstalledRun, clearance: TubeClearance) -> RunPosition {
        RunPosition {
            tightest: installed.tightest,
            reach: reach(self.run, installed.spans.iter().map(|span| &span.held)),
            is_whole: installed.is_whole(),
            clearance: clearance.tightest,
            own_port: clearance.own_port,
            points: Arc::default(),
        }
    }
}

/// Where least hose is left between two holds.
fn reach<'s>(run: &RunSolution, spans: impl Iterator<Item = &'s RodSpan>) -> Reach {
    let shrunk = 1.0 - run.hose.shortening_pct / 100.0;
    let spans = spans.map(|held| Reach {
        spare_mm: held.length * shrunk - held.from.distance(held.to),
        point: held.from,
    });
    let least = spans.min_by(|a, b| a.spare_mm.total_cmp(&b.spare_mm));
    least.unwrap_or(Reach { spare_mm: 0.0, point: run.from.mouth })
}

/// All hoses of a routing in all positions, side by side. The drawn one is taken from `lays` and `pairs`,
/// which have it already.
pub(in crate::engine) fn of_routing(
    index: &ClearanceIndex,
    drawn: &Drawn<'_>,
    lays: &[Option<Arc<RunLay>>],
    pairs: &[HosePair],
) -> RoutingMotion {
    let Drawn { bay, routing, runs, hose_clearance_mm } = *drawn;
    let positions = Positions::of(bay);
    let all = routing.runs.iter().zip(runs).zip(lays);
    let movers: Vec<Option<Mover<'_>>> = all
        .map(|((run, solved), lay)| {
            Some(Mover::of(bay, run, solved.as_ref().ok()?, lay.as_deref()?))
        })
        .collect();
    let as_drawn = movers.iter().map(|mover| mover.as_ref().map(Mover::as_drawn)).collect();
    let in_position = |solver: &mut InstalledSolver, position: &Position| {
        let (groups, index) = (&position.groups, &index_in(index, bay, position));
        let mut tubes = Vec::with_capacity(movers.len());
        let mut found = Vec::with_capacity(movers.len());
        for mover in &movers {
            let installed = mover.as_ref().map(|m| m.installed(solver, groups, &m.lay.installed));
            tubes.push(
                mover
                    .as_ref()
                    .zip(installed.as_ref())
                    .map(|(m, installed)| m.tube(installed, groups)),
            );
            found.push(
                mover
                    .as_ref()
                    .zip(installed)
                    .map(|(m, installed)| m.position(installed, index, groups)),
            );
        }
        (found, hose_pairs(&tubes, hose_clearance_mm))
    };
    let moved = positions.all[1..].par_iter().map_init(InstalledSolver::default, in_position);
    let mut solved: Vec<(Vec<Option<RunPosition>>, Vec<HosePair>)> = moved.collect();
    solved.insert(0, (as_drawn, pairs.to_vec()));
    gather(positions, &movers, solved)
}

fn gather(
    positions: Positions,
    movers: &[Option<Mover<'_>>],
    solved: Vec<(Vec<Option<RunPosition>>, Vec<HosePair>)>,
) -> RoutingMotion {
    let moves = |mover: &Mover<'_>| {
        positions.all.iter().any(|p| mover.moves(&p.groups) != [Rigid::IDENTITY; 2])
    };
    let mut runs: Vec<Option<RunMotion>> = movers
        .iter()
        .map(|mover| mover.as_ref().map(|m| RunMotion { positions: Vec::new(), rides: moves(m) }))
        .collect();
    let mut pairs: Vec<(usize, HosePair)> = Vec::new();
    for (k, (found, near)) in solved.into_iter().enumerate() {
        for (run, position) in runs.iter_mut().zip(found) {
            if let (Some(run), Some(position)) = (run, position) {
                run.positions.push(position);
            }
        }
        for pair in near {
            match pairs.iter_mut().find(|(_, known)| known.hoses == pair.hoses) {
                Some(known) if pair.gap_mm < known.1.gap_mm => *known = (k, pair),
                Some(_) => {}
                None => pairs.push((k, pair)),
            }
        }
    }
    RoutingMotion { positions, runs, pairs }
}
