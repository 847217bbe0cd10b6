//! How far two curves are apart.

use glam::DVec3;

use crate::geom::{CentreLine, Piece, point_piece};

/// Places this far apart are looked at, mm; between them the distance changes by less than what is shown.
const EVERY_MM: f64 = 2.0;
/// At most so many of one curve.
const MOST: f64 = 2000.0;

/// The farthest that a place of either curve is from the other.
pub(super) fn between(line: &CentreLine, wire: &[(f64, Piece)]) -> f64 {
    let drawn: Vec<Piece> = line.pieces().map(|(_, piece)| piece).collect();
    let bent: Vec<Piece> = wire.iter().map(|(_, piece)| *piece).collect();
    farthest(&drawn, &bent).max(farthest(&bent, &drawn))
}

fn farthest(from: &[Piece], to: &[Piece]) -> f64 {
    let length: f64 = from.iter().map(Piece::length).sum();
    let every = EVERY_MM.max(length / MOST);
    let places = from.iter().flat_map(|piece| {
        let steps = (piece.length() / every).ceil().max(1.0);
        (0..=steps as u32).map(move |k| piece.point_at(piece.length() * f64::from(k) / steps))
    });
    places.map(|place| nearest(place, to)).fold(0.0, f64::max)
}

fn nearest(place: DVec3, to: &[Piece]) -> f64 {
    let away = |piece: &Piece| piece.point_at(point_piece(place, piece)).distance(place);
    to.iter().map(away).fold(f64::INFINITY, f64::min)
}
