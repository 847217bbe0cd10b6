//! What is before and after a corner or a clamp on its hose.

use glam::DVec3;

use crate::app::words;
use crate::engine::{EndSolution, RunSolution, STRAIGHT_DIAMETERS};
use crate::geom::unit_or_x;
use crate::model::{Bay, Clamp, Run, Side, Via};

/// The points of the route beside the one that is moved.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RouteBeside {
    /// Towards end A.
    pub before: Option<Neighbour>,
    /// Towards end B.
    pub after: Option<Neighbour>,
    /// The unit vector through what is moved, where it is a clamp.
    pub own_axis: Option<DVec3>,
}

/// A point of the route and the stretch beyond it.
#[derive(Debug, Clone, PartialEq)]
pub struct Neighbour {
    /// The point.
    pub at: DVec3,
    /// Unit vector along the stretch beyond it, towards what is moved.
    pub toward: DVec3,
    /// What it belongs to.
    pub kind: NeighbourKind,
    /// What that is called: "Filter, outlet", "clamp 1".
    pub name: String,
}

/// What a neighbour belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NeighbourKind {
    /// The end fitting on a port: the hose leaves along `toward`.
    End,
    /// A clamp: the hose goes through along `toward`.
    Clamp,
    /// A corner: `toward` is how the stretch beyond it happens to run.
    Corner,
}

impl RouteBeside {
    /// Of the corner or clamp in place `via` of `run.via`; none where there is no such place.
    pub fn of(bay: &Bay, run: &Run, solved: &RunSolution, via: usize) -> Option<Self> {
        let own_axis = match run.via.get(via)? {
            Via::Clamp(clamp) => Some(unit_or_x(clamp.along)),
            Via::Corner(_) => None,
        };
        let after = (via + 1 < run.via.len()).then_some(via + 1);
        Some(Self { own_axis, ..Self::between(bay, run, solved, via.checked_sub(1), after) })
    }

    /// Of a new corner between two places of `run.via`; none stands for the end on that side.
    pub fn between(
        bay: &Bay,
        run: &Run,
        solved: &RunSolution,
        before: Option<usize>,
        after: Option<usize>,
    ) -> Self {
        let route = Route { bay, run, solved };
        Self {
            before: Some(route.neighbour(Side::A, before)),
            after: Some(route.neighbour(Side::B, after)),
            own_axis: None,
        }
    }
}

#[derive(Clone, Copy)]
struct Route<'a> {
    bay: &'a Bay,
    run: &'a Run,
    solved: &'a RunSolution,
}

impl Route<'_> {
    /// The point at `via`, or at the end on this side, as seen from further along.
    fn neighbour(self, side: Side, via: Option<usize>) -> Neighbour {
        match via.and_then(|via| Some((via, self.run.via.get(via)?))) {
            None => self.end(side),
            Some((via, Via::Clamp(clamp))) => self.clamp(side, via, clamp),
            Some((via, Via::Corner(corner))) => {
                let beyond = self.neighbour(side, self.beyond(side, via)).at;
                Neighbour {
                    at: corner.at,
                    toward: unit_or_x(corner.at - beyond),
                    kind: NeighbourKind::Corner,
                    name: self.name(via),
                }
            }
        }
    }

    fn beyond(self, side: Side, via: usize) -> Option<usize> {
        match side {
            Side::A => via.checked_sub(1),
            Side::B => (via + 1 < self.run.via.len()).then_some(via + 1),
        }
    }

    fn end(self, side: Side) -> Neighbour {
        let end = match side {
            Side::A => &self.solved.from,
            Side::B => &self.solved.to,
        };
        let id = &self.run.end(side).port;
        let port = self.bay.port(id).map(|port| port.name.as_str()).filter(|name| !name.is_empty());
        Neighbour {
            at: end.frame.exit + self.straight(end) * end.frame.direction,
            toward: end.frame.direction,
            kind: NeighbourKind::End,
            name: words::short(port.unwrap_or(id)),
        }
    }

    /// A straight that is found follows what is moved; square to it the bend is a quarter turn, and then the
    /// straight is the straight hose and one radius.
    fn straight(self, end: &EndSolution) -> f64 {
        if !end.straight_is_found {
            return end.straight_mm;
        }
        let straight = end.end.socket_mm + STRAIGHT_DIAMETERS * self.solved.hose.outside_mm;
        straight + self.radius()
    }

    fn radius(self) -> f64 {
        self.run.radius_mm.unwrap_or(self.solved.radius_limit_mm)
    }

    fn clamp(self, side: Side, via: usize, clamp: &Clamp) -> Neighbour {
        let half = clamp.grip_mm.map_or(self.solved.hose.outside_mm, |grip| grip / 2.0);
        let straight = clamp.straight_mm.unwrap_or_else(|| half + self.radius());
        let along = unit_or_x(clamp.along);
        let toward = if side == Side::A { along } else { -along };
        Neighbour {
            at: clamp.at + straight * toward,
            toward,
            kind: NeighbourKind::Clamp,
            name: self.name(via),
        }
    }

    /// "corner 2", "clamp 1".
    fn name(self, via: usize) -> String {
        let is_clamp = |step: &Via| matches!(step, Via::Clamp(_));
        let Some(own) = self.run.via.get(via) else { return String::new() };
        let alike = |step: &&Via| is_clamp(step) == is_clamp(own);
        let count = self.run.via[..=via].iter().filter(alike).count();
        format!("{} {count}", if is_clamp(own) { "clamp" } else { "corner" })
    }
}
