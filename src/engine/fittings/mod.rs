//! End fittings have size: nuts, elbows and sockets that cut into each other or into obstacles, and the room
//! for a spanner on each nut. As drawn; moving groups are where they are drawn.

mod pieces;
mod room;
mod routing;

use glam::DVec3;

use crate::model::Side;

pub(in crate::engine) use routing::FittingsMemo;

/// One end of one run of a routing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct EndAt {
    /// The run's place.
    pub run: usize,
    /// Which end.
    pub side: Side,
}

/// A part of an end fitting.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The swivel nut.
    Nut,
    /// The tube between nut and socket.
    Tube,
    /// What grips the hose.
    Socket,
}

/// What is in the way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Against {
    /// An obstacle, by its place in the bay.
    Obstacle(usize),
    /// A part of another end fitting.
    Fitting(EndAt, Part),
}

/// A fitting that cuts into something.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clash {
    /// The fitting.
    pub end: EndAt,
    /// Which part of it.
    pub part: Part,
    /// What it cuts into.
    pub against: Against,
    /// How deep.
    pub depth_mm: f64,
    /// Whether it does so by figures that are no typical ones.
    pub is_sure: bool,
    /// The middle of the part.
    pub point: DVec3,
}

/// A nut without room for a spanner's head.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TightNut {
    /// The fitting.
    pub end: EndAt,
    /// What is in the way.
    pub against: Against,
    /// Room from the nut's axis, where the spanner has most.
    pub room_mm: f64,
    /// From the axis to the outside of the head.
    pub needed_mm: f64,
    /// The nut across flats.
    pub flats_mm: f64,
    /// The middle of the nut.
    pub point: DVec3,
}

/// What was found on the end fittings of a routing.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RoutingFittings {
    /// In the order of the runs.
    pub clashes: Vec<Clash>,
    /// Likewise; not of a nut that clashes.
    pub tight: Vec<TightNut>,
}
