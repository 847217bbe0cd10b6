//! A shape as a chain of straights and arcs, each going on the way the last one ended: two arcs to a
//! stretch (biarcs; Bolton, "Biarc curves", Computer-Aided Design 7, 1975, here in space).

use glam::DVec3;

use super::shape::RodShape;
use crate::geom::Piece;

/// Below this half angle an arc is a straight.
const STRAIGHT_HALF_RAD: f64 = 1e-9;
/// Longest stretch, in nodes, tried for one pair of arcs.
const STRIDE: usize = 16;

impl RodShape {
    /// The shape as straights and arcs within `accuracy` (mm) of its nodes, tangent-continuous.
    pub fn pieces(&self, accuracy: f64) -> Vec<Piece> {
        let mut pieces = Vec::with_capacity(self.points.len());
        let last = self.points.len().saturating_sub(1);
        let mut i = 0;
        while i < last {
            let mut stride = STRIDE.min(last - i);
            loop {
                let pair = self.pair(i, i + stride);
                let holds =
                    || self.points[i + 1..i + stride].iter().all(|p| off(&pair, *p) <= accuracy);
                if stride == 1 || holds() {
                    pieces.extend(pair.into_iter().flatten());
                    i += stride;
                    break;
                }
                stride /= 2;
            }
        }
        pieces
    }

    fn pair(&self, i: usize, j: usize) -> [Option<Piece>; 2] {
        biarc((self.points[i], self.tangents[i]), (self.points[j], self.tangents[j]))
    }
}

/// Two arcs from one place and direction to another, with equal handles.
fn biarc((p, t): (DVec3, DVec3), (q, u): (DVec3, DVec3)) -> [Option<Piece>; 2] {
    let way = q - p;
    let (square, along) = (way.length_squared(), way.dot(t + u));
    let turn = 0.5 * (t - u).length_squared();
    let handle = square / (along + (along * along + 2.0 * turn * square).sqrt());
    if !(handle.is_finite() && handle > 0.0) {
        return [arc(p, t, q), None];
    }
    let joint = 0.5 * (p + q + handle * (t - u));
    let middle = (q - p - handle * (t + u)).normalize_or(t);
    [arc(p, t, joint), arc(joint, middle, q)]
}

/// The arc from `p`, beginning the way `t`, to `q`; a straight where it hardly bends.
fn arc(p: DVec3, t: DVec3, q: DVec3) -> Option<Piece> {
    let chord = q - p;
    let length = chord.length();
    if length <= 0.0 {
        return None;
    }
    let side = chord - t * t.dot(chord);
    let half = side.length().atan2(t.dot(chord));
    if half < STRAIGHT_HALF_RAD {
        return Some(Piece::Line { start: p, direction: chord / length, length });
    }
    let radius = length / (2.0 * half.sin());
    Some(Piece::Arc {
        start: p,
        direction: t,
        inward: side.normalize_or_zero(),
        radius,
        angle: 2.0 * half,
    })
}

/// Distance from `point` to the nearer of the two pieces, each taken whole.
fn off(pair: &[Option<Piece>; 2], point: DVec3) -> f64 {
    pair.iter().flatten().map(|piece| off_piece(piece, point)).fold(f64::INFINITY, f64::min)
}

fn off_piece(piece: &Piece, point: DVec3) -> f64 {
    match *piece {
        Piece::Line { start, direction, .. } => (point - start).cross(direction).length(),
        Piece::Arc { start, direction, inward, radius, .. } => {
            let out = point - (start + radius * inward);
            let height = out.dot(direction.cross(inward));
            let flat = (out.length_squared() - height * height).max(0.0).sqrt();
            (flat - radius).hypot(height)
        }
    }
}
