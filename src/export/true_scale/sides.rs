//! Pieces of a hose laid flat: their axis, and the sides of a round hose about it.
//!
//! The outline of a tube is the edge of all the discs about its axis, as it is seen: at right angles
//! to the axis laid flat, half the outside diameter away, and a whole circle where the hose comes
//! straight at the eye or turns without a bend.

use std::f64::consts::{FRAC_PI_2, PI};

use glam::DVec2;

use crate::drawing::View;
use crate::geom::Piece;

use super::chain::{Chain, JOINS_MM, Vertex};
use super::{ACCURACY_MM, Shape};

/// An arc whose shape changes by no more than this when it is laid flat is an arc there too, mm.
const FLAT_MM: f64 = 1e-3;
/// A direction that is shorter than this when laid flat comes straight at the eye.
const STEEP: f64 = 1e-3;

/// The axis of a piece laid flat.
pub(super) fn flat_piece(piece: &Piece, view: View) -> Vec<Vertex> {
    offset_piece(piece, 0.0, view).unwrap_or_default()
}

/// The sides of the hose of radius `half` about the pieces.
pub(super) fn sides(pieces: &[Piece], half: f64, view: View) -> Vec<Shape> {
    let parts: Vec<Piece> = pieces.iter().flat_map(|piece| split(piece, view)).collect();
    let (Some(first), Some(last)) = (parts.first(), parts.last()) else { return Vec::new() };
    let mut sides = [Side::at(half), Side::at(-half)];
    let mut rounds: Vec<DVec2> = Vec::new();
    let mut round = |at: DVec2| {
        if rounds.last().is_none_or(|last| last.distance(at) > JOINS_MM) {
            rounds.push(at);
        }
    };
    let mut before = normal(first, 0.0, view);
    if before.is_none() {
        round(view.flat(first.point_at(0.0)));
    }
    for part in &parts {
        if !is_smooth(before, normal(part, 0.0, view)) {
            round(view.flat(part.point_at(0.0)));
        }
        for side in &mut sides {
            side.go(part, half, view);
        }
        before = normal(part, part.length(), view);
    }
    if before.is_none() {
        round(view.flat(last.point_at(last.length())));
    }
    let [left, right] = sides.map(|side| side.chains);
    let circles = rounds.iter().map(|at| Shape::Circle { at: *at, radius: half });
    if let ([left], [right], true) = (&left[..], &right[..], rounds.is_empty()) {
        let mut outline = left.clone();
        outline.vertices.extend(right.reversed().vertices);
        outline.is_closed = true;
        return vec![Shape::Chain(outline)];
    }
    let caps = [(first, 0.0), (last, last.length())].into_iter().filter_map(|(part, s)| {
        let (at, across) = (view.flat(part.point_at(s)), normal(part, s, view)? * half);
        Some(Shape::line(at + across, at - across))
    });
    left.into_iter().chain(right).map(Shape::Chain).chain(circles).chain(caps).collect()
}

/// One side of a hose, in as many stretches as it takes.
struct Side {
    offset: f64,
    chains: Vec<Chain>,
}

impl Side {
    fn at(offset: f64) -> Self {
        Self { offset, chains: Vec::new() }
    }

    /// Goes on along a piece of the axis.
    fn go(&mut self, part: &Piece, half: f64, view: View) {
        let Some(vertices) = offset_piece(part, self.offset, view) else { return };
        let stretches = if is_bent_in_view(part, view) {
            let axis: Vec<DVec2> = flat_piece(part, view).iter().map(|v| v.at).collect();
            outside_of(&vertices, &axis, half)
        } else {
            vec![vertices]
        };
        for stretch in stretches {
            let goes_on = self.chains.last().and_then(Chain::end).zip(stretch.first());
            match self.chains.last_mut() {
                Some(chain) if goes_on.is_some_and(|(end, v)| end.distance(v.at) <= JOINS_MM) => {
                    chain.push(&stretch);
                }
                _ => self.chains.push(Chain { vertices: stretch, is_closed: false }),
            }
        }
    }
}

/// The stretches that are not inside the hose itself: beside a bend that is seen steeply a side
/// would run back through it.
fn outside_of(vertices: &[Vertex], axis: &[DVec2], half: f64) -> Vec<Vec<Vertex>> {
    let is_outside = |vertex: &Vertex| {
        axis.windows(2).all(|w| to_segment(vertex.at, w[0], w[1]) >= half - ACCURACY_MM)
    };
    vertices
        .split(|vertex| !is_outside(vertex))
        .filter(|stretch| stretch.len() > 1)
        .map(<[Vertex]>::to_vec)
        .collect()
}

fn to_segment(p: DVec2, a: DVec2, b: DVec2) -> f64 {
    let length = a.distance_squared(b);
    let t = if length > 0.0 { ((p - a).dot(b - a) / length).clamp(0.0, 1.0) } else { 0.0 };
    p.distance(a.lerp(b, t))
}

/// To the left of the way a piece goes, laid flat; none where it comes straight at the eye. At an end
/// that does, what it is just inside.
fn normal(piece: &Piece, s: f64, view: View) -> Option<DVec2> {
    let at = |s: f64| view.flat(piece.direction_at(s));
    let mut flat = at(s);
    if flat.length() < STEEP {
        let within = STEEP * piece.length();
        flat = at(s.clamp(within, piece.length() - within));
    }
    (flat.length() > 1e-9).then(|| flat.normalize_or_zero().perp())
}

fn is_smooth(before: Option<DVec2>, after: Option<DVec2>) -> bool {
    match (before, after) {
        (Some(before), Some(after)) => before.dot(after) > 1.0 - STEEP,
        (None, None) => true,
        _ => false,
    }
}

/// Which way an arc turns as it is seen: 1 to the left, −1 to the right, 0 seen edge on.
fn facing(piece: &Piece, view: View) -> f64 {
    match piece {
        Piece::Line { .. } => 0.0,
        Piece::Arc { direction, inward, .. } => view.nearness(direction.cross(*inward)),
    }
}

/// Whether a piece is a curve that is no circle as it is seen.
fn is_bent_in_view(piece: &Piece, view: View) -> bool {
    match piece {
        Piece::Line { .. } => false,
        Piece::Arc { radius, .. } => radius * (1.0 - facing(piece, view).abs()) > FLAT_MM,
    }
}

/// A piece laid flat, moved to its left; none where it has no side: it comes straight at the eye, or
/// turns more tightly than the hose is thick.
fn offset_piece(piece: &Piece, offset: f64, view: View) -> Option<Vec<Vertex>> {
    let length = piece.length();
    let place = |s: f64| {
        let at = view.flat(piece.point_at(s));
        if offset == 0.0 { Some(at) } else { Some(at + normal(piece, s, view)? * offset) }
    };
    let ends = [place(0.0)?, place(length)?];
    let mut vertices = ends.map(Vertex::plain).to_vec();
    if let Piece::Arc { radius, angle, .. } = *piece {
        if is_bent_in_view(piece, view) {
            return Some(sampled(length, &place));
        }
        let turn = facing(piece, view).signum();
        if radius - turn * offset <= 0.0 {
            return None;
        }
        vertices[0].bulge = turn * (angle / 4.0).tan();
    }
    Some(vertices)
}

/// Points along a curve, as near to each other as [`ACCURACY_MM`] asks for.
fn sampled(length: f64, place: &dyn Fn(f64) -> Option<DVec2>) -> Vec<Vertex> {
    const FIRST: u32 = 8;
    const DEEPEST: u32 = 8;
    let mut points = Vec::new();
    let step = length / f64::from(FIRST);
    points.extend(place(0.0));
    for k in 0..FIRST {
        let (from, to) = (step * f64::from(k), step * f64::from(k + 1));
        halve([from, to], place, DEEPEST, &mut points);
    }
    points.into_iter().map(Vertex::plain).collect()
}

/// Adds the points of a stretch after its start.
fn halve(
    [from, to]: [f64; 2],
    place: &dyn Fn(f64) -> Option<DVec2>,
    deepest: u32,
    points: &mut Vec<DVec2>,
) {
    let (Some(a), Some(b)) = (place(from), place(to)) else { return };
    let strays = [0.25, 0.5, 0.75].into_iter().any(|share| {
        place(from + (to - from) * share).is_some_and(|p| to_segment(p, a, b) > ACCURACY_MM / 2.0)
    });
    if strays && deepest > 0 {
        let middle = f64::midpoint(from, to);
        halve([from, middle], place, deepest - 1, points);
        halve([middle, to], place, deepest - 1, points);
    } else {
        points.push(b);
    }
}

/// An arc seen edge on goes back on itself where it comes straight at the eye: the parts before and
/// after that.
fn split(piece: &Piece, view: View) -> Vec<Piece> {
    let Piece::Arc { direction, inward, radius, angle, .. } = *piece else { return vec![*piece] };
    if facing(piece, view).abs() > STEEP {
        return vec![*piece];
    }
    let (a, b) = (view.flat(direction), view.flat(inward));
    // The least of |a cos t + b sin t|.
    let least = (a.dot(b)).atan2((a.length_squared() - b.length_squared()) / 2.0) / 2.0;
    let turn = (least + FRAC_PI_2).rem_euclid(PI);
    let at = radius * turn;
    if turn <= STEEP || turn >= angle - STEEP {
        return vec![*piece];
    }
    vec![piece.part(0.0, at), piece.part(at, piece.length())]
}

#[cfg(test)]
mod tests {
    use glam::{DVec3, dvec2, dvec3};

    use super::*;

    const HALF: f64 = 6.0;

    fn straight(start: DVec3, direction: DVec3, length: f64) -> Piece {
        Piece::Line { start, direction, length }
    }

    /// From along X towards `inward`.
    fn bend(inward: DVec3, angle: f64) -> Piece {
        Piece::Arc { start: DVec3::ZERO, direction: DVec3::X, inward, radius: 100.0, angle }
    }

    fn chains(shapes: &[Shape]) -> Vec<&Chain> {
        let chains = shapes.iter().filter_map(|shape| match shape {
            Shape::Chain(chain) => Some(chain),
            _ => None,
        });
        chains.collect()
    }

    #[test]
    fn a_straight_and_a_bend_in_the_plane_are_one_outline_with_two_true_arcs() {
        let pieces = [
            straight(dvec3(-50.0, 0.0, 0.0), DVec3::X, 50.0),
            bend(DVec3::Y, FRAC_PI_2),
            straight(dvec3(100.0, 100.0, 0.0), DVec3::Y, 50.0),
        ];
        let shapes = sides(&pieces, HALF, View::Plan);
        let [Shape::Chain(outline)] = &shapes[..] else { panic!("{shapes:?}") };
        assert!(outline.is_closed);
        assert_eq!(outline.vertices.len(), 8);
        let arcs = outline.steps().filter_map(|(v, next)| v.arc_to(next));
        let mut radii: Vec<f64> = arcs.map(|arc| arc.radius).collect();
        radii.sort_by(f64::total_cmp);
        assert!((radii[0] - 94.0).abs() < 1e-9 && (radii[1] - 106.0).abs() < 1e-9, "{radii:?}");
        assert_eq!(radii.len(), 2);
    }

    #[test]
    fn every_point_of_the_sides_is_half_the_diameter_from_the_axis() {
        // Steep, tilted, in the plane: in every view, against the axis in small steps.
        for inward in [dvec3(0.0, 0.6, 0.8), DVec3::Y, DVec3::Z, dvec3(0.0, -0.96, 0.28)] {
            for view in [View::Plan, View::Side] {
                let piece = bend(inward, 1.4);
                let shapes = sides(&[piece], HALF, view);
                let axis: Vec<DVec2> = (0..=2000)
                    .map(|k| view.flat(piece.point_at(piece.length() * f64::from(k) / 2000.0)))
                    .collect();
                let Shape::Chain(outline) = &shapes[0] else { panic!("{shapes:?}") };
                for p in outline.flattened() {
                    let near = axis.iter().map(|q| q.distance(p)).fold(f64::INFINITY, f64::min);
                    assert!((near - HALF).abs() < 2.0 * ACCURACY_MM, "{view:?} {inward} {near}");
                }
            }
        }
    }

    #[test]
    fn a_hose_that_comes_straight_at_the_eye_is_a_circle() {
        let shapes = sides(&[straight(DVec3::ZERO, DVec3::X, 80.0)], HALF, View::Front);
        assert_eq!(shapes, [Shape::Circle { at: DVec2::ZERO, radius: HALF }]);
        // And then bends away: a circle, and the two sides from there.
        let pieces = [straight(DVec3::NEG_X * 80.0, DVec3::X, 80.0), bend(DVec3::Y, FRAC_PI_2)];
        let shapes = sides(&pieces, HALF, View::Front);
        assert!(shapes.contains(&Shape::Circle { at: DVec2::ZERO, radius: HALF }), "{shapes:?}");
        let far = chains(&shapes).into_iter().flat_map(Chain::flattened).map(|p| p.x);
        assert!((far.fold(0.0, f64::max) - 100.0).abs() < 1e-9);
    }

    #[test]
    fn an_arc_seen_edge_on_turns_back_where_it_comes_at_the_eye() {
        // From ahead: away to −Y, back to the middle's mirror image.
        let start = dvec3(0.0, 0.0, 0.0);
        let (direction, inward) = (dvec3(0.6, 0.8, 0.0), dvec3(0.8, -0.6, 0.0));
        let arc = Piece::Arc { start, direction, inward, radius: 100.0, angle: 1.8 };
        let parts = split(&arc, View::Front);
        assert_eq!(parts.len(), 2);
        assert!(View::Front.flat(parts[1].direction_at(0.0)).length() < 1e-9);
        let turning = View::Front.flat(parts[1].point_at(0.0));
        let shapes = sides(&[arc], HALF, View::Front);
        let circle = shapes.iter().find_map(|shape| match shape {
            Shape::Circle { at, .. } => Some(*at),
            _ => None,
        });
        assert!(circle.is_some_and(|at| at.distance(turning) < 1e-9), "{circle:?} {turning}");
        assert!(turning.abs_diff_eq(dvec2(40.0, 0.0), 1e-9), "{turning}");
    }
}
