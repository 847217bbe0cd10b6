//! What the installed shape takes from the drawn route: its stretch between two grips, as pieces and as a start.

use glam::DVec3;

use crate::geom::{CentreLine, Piece, point_piece};

/// Tangents of a start.
const START_PIECES: usize = 16;

/// The part of `line` from `from_mm` to `to_mm`.
pub(super) fn stretch(line: &CentreLine, from_mm: f64, to_mm: f64) -> Vec<Piece> {
    line.pieces()
        .filter_map(|(start, piece)| {
            let (a, b) = ((from_mm - start).max(0.0), (to_mm - start).min(piece.length()));
            (b > a).then(|| part(&piece, a, b))
        })
        .collect()
}

/// The part of a piece between two distances from its start.
fn part(piece: &Piece, a: f64, b: f64) -> Piece {
    let (start, direction) = (piece.point_at(a), piece.direction_at(a));
    match *piece {
        Piece::Line { .. } => Piece::Line { start, direction, length: b - a },
        Piece::Arc { direction: first, inward, radius, .. } => {
            let (sin, cos) = (a / radius).sin_cos();
            let inward = cos * inward - sin * first;
            Piece::Arc { start, direction, inward, radius, angle: (b - a) / radius }
        }
    }
}

/// Tangents at equal shares of the way along `pieces`: each the chord of its own cell, so that no
/// bend is missed between two of them.
pub(super) fn tangents(pieces: &[Piece], into: &mut Vec<DVec3>) {
    into.clear();
    let length: f64 = pieces.iter().map(Piece::length).sum();
    let cell = length / START_PIECES as f64;
    let mut walk = Walk { pieces, before: 0.0 };
    let mut last = walk.point_at(0.0);
    for i in 0..=START_PIECES {
        let next = walk.point_at(((i as f64 + 0.5) * cell).min(length));
        into.push((next - last).normalize_or(DVec3::X));
        last = next;
    }
}

/// Goes along pieces, forwards only.
struct Walk<'a> {
    pieces: &'a [Piece],
    before: f64,
}

impl Walk<'_> {
    fn point_at(&mut self, s: f64) -> DVec3 {
        while let [first, _, ..] = self.pieces
            && self.before + first.length() < s
        {
            self.before += first.length();
            self.pieces = &self.pieces[1..];
        }
        self.pieces.first().map_or(DVec3::ZERO, |piece| piece.point_at(s - self.before))
    }
}

/// How far `point` is from the nearest of `pieces`; nothing where the route has no length.
pub(super) fn off_drawn(pieces: &[(f64, Piece)], point: DVec3) -> f64 {
    let off = |piece: &Piece| point.distance(piece.point_at(point_piece(point, piece)));
    pieces.iter().map(|(_, piece)| off(piece)).reduce(f64::min).unwrap_or(0.0)
}
