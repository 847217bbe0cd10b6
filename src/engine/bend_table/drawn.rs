//! The bends of a drawn route.

use glam::DVec3;

use super::WireStart;
use crate::geom::{CentreLine, Piece};

/// What turns by less is straight, rad: half a degree, which no bench bends.
const LEAST_RAD: f64 = 0.5 * std::f64::consts::PI / 180.0;

/// A route as its bends.
pub(super) struct Route {
    pub(super) start: WireStart,
    pub(super) bends: Vec<DrawnBend>,
    /// Cut end B.
    pub(super) end: DVec3,
}

/// One bend as it is drawn.
pub(super) struct DrawnBend {
    /// Where it begins, which way, and the side that it opens to.
    pub(super) into: WireStart,
    pub(super) angle: f64,
    pub(super) radius: f64,
    /// Where it ends.
    pub(super) out: WireStart,
}

impl DrawnBend {
    fn new(at: DVec3, direction: DVec3, inward: DVec3, angle: f64, radius: f64) -> Self {
        let into = WireStart { at, direction, side: inward };
        let (_, out) = into.bent(angle, radius);
        Self { into, angle, radius, out }
    }
}

impl Route {
    /// Of an empty line a point.
    pub(super) fn of(line: &CentreLine) -> Self {
        let pieces: Vec<Piece> = line.pieces().map(|(_, piece)| piece).collect();
        let mut bends = Vec::new();
        let direction = line.direction_at(0.0);
        let mut way = direction;
        for piece in &pieces {
            match *piece {
                Piece::Arc { start, direction, inward, radius, angle } => {
                    if angle >= LEAST_RAD {
                        bends.push(DrawnBend::new(start, direction, inward, angle, radius));
                    }
                }
                // A corner without room for an arc.
                Piece::Line { start, direction, .. } => {
                    let angle = way.angle_between(direction);
                    let across = direction - way * way.dot(direction);
                    if let Some(side) = across.try_normalize().filter(|_| angle >= LEAST_RAD) {
                        bends.push(DrawnBend::new(start, way, side, angle, 0.0));
                    }
                }
            }
            way = piece.direction_at(piece.length());
        }
        let side =
            bends.first().map_or_else(|| direction.any_orthonormal_vector(), |b| b.into.side);
        let start = WireStart { at: line.point_at(0.0), direction, side };
        Self { start, bends, end: line.point_at(line.length()) }
    }
}
