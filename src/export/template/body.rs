//! Round things about the centre line at true size: the hose and its sockets.

use glam::DVec2;

use super::plane::{ACCURACY_MM, Facing};
use crate::drawing::{Item, Shade, Stroke};
use crate::engine::RunSolution;
use crate::geom::Piece;
use crate::units::EPS_MM;

/// A direction that is shorter than this when laid flat comes straight at the eye.
pub(super) const STEEP: f64 = 0.05;

/// Shapes of one depth.
pub(super) struct Part {
    /// How near the eye it is.
    pub(super) nearness: f64,
    /// What hides what is behind.
    pub(super) inside: Vec<Item>,
    /// What is seen of it.
    pub(super) edges: Vec<Item>,
}

impl Part {
    pub(super) fn items(self) -> impl Iterator<Item = Item> {
        self.inside.into_iter().chain(self.edges)
    }

    /// Several of one depth as one.
    pub(super) fn merged(parts: Vec<Self>) -> Self {
        let nearness = parts.iter().map(|part| part.nearness).fold(f64::NEG_INFINITY, f64::max);
        let (inside, edges): (Vec<_>, Vec<_>) =
            parts.into_iter().map(|part| (part.inside, part.edges)).unzip();
        Self { nearness, inside: inside.concat(), edges: edges.concat() }
    }
}

/// A round thing of radius `half` about a stretch of the centre line, piece by piece.
pub(super) fn tube(
    run: &RunSolution,
    [from, to]: [f64; 2],
    half: f64,
    fill: Shade,
    edge: Stroke,
    facing: &Facing,
) -> Vec<Part> {
    let pieces = run.centre_line.pieces().filter_map(|(start, piece)| {
        let (begin, end) = ((from - start).max(0.0), (to - start).min(piece.length()));
        (end - begin > EPS_MM).then(|| piece.part(begin, end))
    });
    pieces.map(|piece| of_piece(&piece, half, fill, edge, facing)).collect()
}

fn of_piece(piece: &Piece, half: f64, fill: Shade, edge: Stroke, facing: &Facing) -> Part {
    let length = piece.length();
    let steps = (length * (piece.curvature() / (8.0 * ACCURACY_MM)).sqrt()).ceil();
    let steps = steps.clamp(1.0, 2000.0);
    let places: Vec<f64> = (0..=steps as u32).map(|k| length * f64::from(k) / steps).collect();
    let points: Vec<_> = places.iter().map(|s| piece.point_at(*s)).collect();
    let axis: Vec<DVec2> = points.iter().map(|p| facing.flat(*p)).collect();
    let nearness =
        points.iter().map(|p| facing.nearness(*p)).sum::<f64>() / points.len().max(1) as f64;
    let across: Vec<Option<DVec2>> =
        places.iter().map(|s| normal(facing.flat(piece.direction_at(*s)))).collect();
    let lines: Vec<Vec<DVec2>> =
        [half, -half].into_iter().flat_map(|offset| side(&axis, &across, offset)).collect();
    let inside = Item::line(axis, Stroke::obstacle(fill, 2.0 * half));
    // Seen straight from its end a piece has no sides.
    let edges = (!lines.is_empty()).then_some(Item::Path {
        lines,
        is_closed: false,
        fill: None,
        stroke: Some(edge),
    });
    Part { nearness, inside: vec![inside], edges: edges.into_iter().collect() }
}

/// To the left of a direction laid flat; none where it comes straight at the eye.
fn normal(flat: DVec2) -> Option<DVec2> {
    (flat.length() > STEEP).then(|| flat.normalize_or_zero().perp())
}

/// The stretches of one side that are not inside the hose itself: beside a bend that is seen
/// steeply a side would run back through it.
fn side(axis: &[DVec2], across: &[Option<DVec2>], offset: f64) -> Vec<Vec<DVec2>> {
    let points: Vec<Option<DVec2>> = axis
        .iter()
        .zip(across)
        .map(|(at, across)| Some(*at + (*across)? * offset))
        .map(|point| point.filter(|p| is_outside(*p, axis, offset.abs())))
        .collect();
    points
        .split(Option::is_none)
        .filter(|stretch| stretch.len() > 1)
        .map(|stretch| stretch.iter().flatten().copied().collect())
        .collect()
}

fn is_outside(p: DVec2, axis: &[DVec2], half: f64) -> bool {
    const HAIR_MM: f64 = 0.05;
    axis.windows(2).all(|w| {
        let way = w[1] - w[0];
        let length = way.length_squared();
        let t = if length > 0.0 { ((p - w[0]).dot(way) / length).clamp(0.0, 1.0) } else { 0.0 };
        p.distance(w[0] + way * t) >= half - HAIR_MM
    })
}
