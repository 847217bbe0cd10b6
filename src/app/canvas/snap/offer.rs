//! What the snappers offer: lines and points near the pointer. Light: words are made only for what is
//! taken.

use glam::DVec2;

use super::plane::Line;
use super::{HOLD, REACH, RELEASE, SnapRequest};

/// What decided a coordinate, or both. In the order of precedence where two are equally near.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// The route runs straight on.
    Tangent,
    /// A right angle, half of one, or along an axis.
    Square,
    /// The axis of a port.
    PortAxis,
    /// A coordinate of another thing.
    Align,
    /// A whole cut length.
    CutLength,
    /// The grid.
    Grid,
}

/// Which side of a corner or clamp on its hose.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Toward {
    Before,
    After,
}

/// What an offer is about, so that it is known again.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Key {
    /// Straight on from a neighbour.
    Tangent { side: Toward, real: bool },
    /// In line with the neighbour through the clamp that is moved.
    OwnAxis { side: Toward, real: bool },
    /// Square to the stretch beyond a neighbour.
    Square(Toward),
    /// At 45° to it, to one side or the other.
    Diagonal(Toward, bool),
    /// The stretch to a neighbour runs along an axis: the coordinate of the view that is equal.
    AlongAxis(Toward, usize),
    /// The axis of the port in this place of the scene.
    PortAxis { port: usize, real: bool },
    /// Square to it, at its seat.
    PortSeat(usize),
    /// A coordinate of the view equal to a mark's.
    Align(usize, Mark, Own),
    /// So many steps of the cut length: on the way of the pointer, or on a line taken already.
    CutLength { steps: i64, on_the_way: bool },
    /// A grid line of this coordinate.
    Grid(usize),
}

impl Key {
    /// Its place among causes of one kind.
    pub(super) fn place(self) -> usize {
        match self {
            Self::Align(axis, ..) | Self::Grid(axis) | Self::AlongAxis(_, axis) => axis,
            Self::Tangent { side, .. } | Self::Square(side) => side as usize,
            Self::OwnAxis { side, .. } | Self::Diagonal(side, _) => 2 + side as usize,
            Self::PortAxis { port, .. } | Self::PortSeat(port) => port,
            Self::CutLength { .. } => 0,
        }
    }

    /// Whether this is how the axis is seen that really is where `real` says.
    pub(super) fn is_seen_of(self, real: Self) -> bool {
        match self {
            Self::Tangent { side, real: false } => real == Self::Tangent { side, real: true },
            Self::OwnAxis { side, real: false } => real == Self::OwnAxis { side, real: true },
            Self::PortAxis { port, real: false } => real == Self::PortAxis { port, real: true },
            _ => false,
        }
    }
}

/// The part of what is moved that is aligned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Own {
    Middle,
    Least,
    Greatest,
}

/// What is aligned with, by its place in the scene.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Mark {
    Port(usize),
    Via { hose: usize, via: usize },
    Obstacle(usize, Feature),
}

/// A part of an obstacle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Feature {
    Least,
    Middle,
    Greatest,
    /// The middle of an end of a cylinder.
    End(usize),
}

#[derive(Debug, Clone, Copy)]
pub(super) enum Form {
    Line(Line),
    Point(DVec2),
}

#[derive(Debug, Clone, Copy)]
pub(super) struct Offer {
    pub(super) key: Key,
    pub(super) form: Form,
    /// How near it catches, points; at most [`REACH`].
    pub(super) pull: f64,
    /// Added to its worth, points: what tells apart offers equally near.
    pub(super) rank: f64,
}

/// From the kind to its place in the order of precedence, points.
pub(super) fn rank(kind: Kind) -> f64 {
    0.25 * f64::from(kind as u8)
}

/// What only seems so in this view comes after what is so.
pub(super) const SEEMS: f64 = 0.12;

/// The offers within reach.
pub(super) struct Offers<'a> {
    request: &'a SnapRequest<'a>,
    /// The pointer, with the typed coordinates in place.
    pub(super) wanted: DVec2,
    pub(super) all: Vec<Offer>,
}

impl<'a> Offers<'a> {
    pub(super) fn new(request: &'a SnapRequest<'a>) -> Self {
        let mut wanted = request.raw;
        for axis in 0..2 {
            if let Some(value) = request.fixed[axis] {
                wanted[axis] = value;
            }
        }
        Self { request, wanted, all: Vec::with_capacity(32) }
    }

    /// Takes an offer that is within reach.
    pub(super) fn add(&mut self, offer: Offer) {
        let distance = match offer.form {
            Form::Line(line) => line.distance(self.wanted),
            Form::Point(point) => point.distance(self.wanted),
        };
        if distance * self.request.points_per_mm <= offer.pull + RELEASE {
            self.all.push(offer);
        }
    }

    pub(super) fn line(&mut self, kind: Kind, key: Key, line: Line, real: bool) {
        let rank = rank(kind) + if real { 0.0 } else { SEEMS };
        self.add(Offer { key, form: Form::Line(line), pull: REACH, rank });
    }

    pub(super) fn point(&mut self, kind: Kind, key: Key, point: DVec2) {
        self.add(Offer { key, form: Form::Point(point), pull: REACH, rank: rank(kind) });
    }

    /// How well an offer does at this distance in the bay: the less, the better; none out of reach.
    pub(super) fn worth(&self, offer: &Offer, distance_mm: f64) -> Option<f64> {
        let distance = distance_mm * self.request.points_per_mm;
        let held = self
            .request
            .previous
            .is_some_and(|previous| previous.causes.iter().any(|cause| cause.key == offer.key));
        let (reach, bonus) = if held { (offer.pull + RELEASE, HOLD) } else { (offer.pull, 0.0) };
        (distance <= reach).then(|| distance * REACH / offer.pull + offer.rank - bonus)
    }
}
