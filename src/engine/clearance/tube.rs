//! A hose as it is checked against what is around it.

use std::sync::Arc;

use glam::DVec3;

use crate::geom::{Chain, Piece};

/// A hose: its axis, its thickness, and how its ends are held.
#[derive(Debug, Clone, PartialEq)]
pub struct Tube<'a> {
    pub(super) axis: Arc<Chain>,
    pub(super) outside_mm: f64,
    /// End A, end B.
    pub(super) ends: [TubeEnd<'a>; 2],
}

/// One end of a hose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubeEnd<'a> {
    /// Id of its port.
    pub port: &'a str,
    /// Its seat.
    pub seat: DVec3,
    /// Hose gripped in the socket.
    pub socket_mm: f64,
    /// The obstacle that the port is screwed into, by its place among the obstacles.
    pub on: Option<usize>,
}

impl<'a> Tube<'a> {
    /// The hose of these pieces, each with the distance of its start from `E_A`.
    pub fn new(
        pieces: impl IntoIterator<Item = (f64, Piece)>,
        outside_mm: f64,
        ends: [TubeEnd<'a>; 2],
    ) -> Self {
        Self::along(Arc::new(Chain::new(pieces)), outside_mm, ends)
    }

    /// The hose along an axis that is known already.
    pub(in crate::engine) fn along(
        axis: Arc<Chain>,
        outside_mm: f64,
        ends: [TubeEnd<'a>; 2],
    ) -> Self {
        Self { axis, outside_mm, ends }
    }

    /// Its axis.
    pub(in crate::engine) fn axis(&self) -> &Arc<Chain> {
        &self.axis
    }

    pub(super) fn radius(&self) -> f64 {
        self.outside_mm / 2.0
    }

    /// Where the socket's mouth of an end is, along the hose.
    pub(super) fn mouth(&self, end: usize) -> f64 {
        let length = self.axis.end();
        let socket = self.ends[end].socket_mm.min(length);
        if end == 0 { socket } else { length - socket }
    }
}
