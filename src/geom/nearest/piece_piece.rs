//! Two pieces of centre line.

use super::arc_arc::arc_arc;
use super::convex::SegmentField;
use super::line_line::line_line;
use super::point_piece::point_piece;
use super::{Near, piece_convex};
use crate::geom::Piece;

/// The nearest places of two pieces; the second of the two places along the pieces stands beside.
/// Certified to 1e-9 mm for two straights, 1e-5 mm for a straight and an arc, 3e-3 mm for two arcs;
/// what is certified only so far is still polished to the last digits. `None` where nothing is nearer than
/// `enough`.
pub fn piece_piece(one: &Piece, two: &Piece, enough: f64) -> Option<(Near, f64)> {
    match (*one, *two) {
        (
            Piece::Line { start: p, direction: u, length: a },
            Piece::Line { start: q, direction: v, length: b },
        ) => {
            let (s, t) = line_line((p, u, a), (q, v, b));
            let (on_piece, on_other) = (p + u * s, q + v * t);
            let distance = on_piece.distance(on_other);
            let near = Near { distance, along: s, on_piece, on_other };
            (distance < enough).then_some((near, t))
        }
        (Piece::Arc { .. }, Piece::Line { start, direction, length }) => {
            let near = piece_convex(one, &SegmentField { start, direction, length }, enough)?;
            Some((near, point_piece(near.on_piece, two)))
        }
        (Piece::Line { .. }, Piece::Arc { .. }) => {
            let (near, along) = piece_piece(two, one, enough)?;
            let turned = Near { along, on_piece: near.on_other, on_other: near.on_piece, ..near };
            Some((turned, near.along))
        }
        (Piece::Arc { .. }, Piece::Arc { .. }) => {
            let (distance, (along, t)) = arc_arc(one, two, enough)?;
            let (on_piece, on_other) = (one.point_at(along), two.point_at(t));
            Some((Near { distance, along, on_piece, on_other }, t))
        }
    }
}
