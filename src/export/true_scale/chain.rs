//! Lines of straights and circular arcs in the plane of a view.

use std::f64::consts::{FRAC_PI_8, PI, TAU};

use glam::DVec2;

use super::ACCURACY_MM;

/// A corner of a chain and the way to the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Vertex {
    pub(super) at: DVec2,
    /// The tangent of a quarter of the angle that the arc to the next vertex turns through, more
    /// than 0 where it turns left; 0 for a straight. Less than 1 in size: no arc is half a circle.
    pub(super) bulge: f64,
}

/// Straights and arcs, each beginning where the one before it ends.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Chain {
    pub(super) vertices: Vec<Vertex>,
    pub(super) is_closed: bool,
}

/// An arc between two vertices.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Arc {
    pub(super) centre: DVec2,
    pub(super) radius: f64,
    /// The angle it turns through, rad; more than 0 to the left.
    pub(super) sweep: f64,
}

impl Vertex {
    pub(super) fn plain(at: DVec2) -> Self {
        Self { at, bulge: 0.0 }
    }

    /// The arc from here to `next`; none where it is a straight.
    pub(super) fn arc_to(self, next: DVec2) -> Option<Arc> {
        let (chord, bulge) = (next - self.at, self.bulge);
        if bulge.abs() < 1e-9 || chord == DVec2::ZERO {
            return None;
        }
        // From the middle of the chord to the centre: c/2 · cot(θ/2).
        let centre =
            self.at.midpoint(next) + chord.perp() / 2.0 * ((1.0 - bulge * bulge) / (2.0 * bulge));
        Some(Arc { centre, radius: centre.distance(self.at), sweep: 4.0 * bulge.atan() })
    }
}

impl Chain {
    pub(super) fn straight(points: impl IntoIterator<Item = DVec2>, is_closed: bool) -> Self {
        Self { vertices: points.into_iter().map(Vertex::plain).collect(), is_closed }
    }

    pub(super) fn end(&self) -> Option<DVec2> {
        self.vertices.last().map(|vertex| vertex.at)
    }

    /// Goes on with a piece, the last of whose vertices ends it. Where it begins at the end of the
    /// chain, as far as can be told, no vertex is doubled.
    pub(super) fn push(&mut self, piece: &[Vertex]) {
        if let (Some(end), Some(first)) = (self.end(), piece.first())
            && end.distance(first.at) <= JOINS_MM
        {
            self.vertices.pop();
        }
        self.vertices.extend(piece);
    }

    /// From its end to its start.
    pub(super) fn reversed(&self) -> Self {
        let bulges = self.vertices.iter().rev().skip(1).map(|vertex| -vertex.bulge);
        let bulges = bulges.chain(std::iter::once(0.0));
        let points = self.vertices.iter().rev().map(|vertex| vertex.at);
        let vertices = points.zip(bulges).map(|(at, bulge)| Vertex { at, bulge }).collect();
        Self { vertices, is_closed: self.is_closed }
    }

    /// The vertices, each with the place of the next; the last of an open chain is not among them.
    pub(super) fn steps(&self) -> impl Iterator<Item = (Vertex, DVec2)> + '_ {
        let next = self.vertices.iter().skip(1);
        let next = next.chain(self.vertices.first().filter(|_| self.is_closed));
        self.vertices.iter().zip(next).map(|(vertex, next)| (*vertex, next.at))
    }

    /// Points along it, its arcs cut into chords within [`ACCURACY_MM`]; the first again at the end
    /// of a closed one.
    pub(super) fn flattened(&self) -> Vec<DVec2> {
        let first = self.vertices.first().map(|vertex| vertex.at);
        let points = self.steps().flat_map(|(vertex, next)| match vertex.arc_to(next) {
            None => vec![next],
            Some(arc) => arc.points(vertex.at),
        });
        first.into_iter().chain(points).collect()
    }
}

/// Two ends nearer than this are one.
pub(super) const JOINS_MM: f64 = 1e-6;

impl Arc {
    /// Points after its start.
    fn points(&self, start: DVec2) -> Vec<DVec2> {
        let count = chords(self.radius, self.sweep);
        let arm = start - self.centre;
        let step = self.sweep / f64::from(count);
        (1..=count)
            .map(|k| self.centre + DVec2::from_angle(step * f64::from(k)).rotate(arm))
            .collect()
    }
}

/// How many chords of a circle's part stay within [`ACCURACY_MM`]: their sagitta is
/// `r (1 − cos(φ/2))`.
pub(super) fn chords(radius: f64, sweep: f64) -> u32 {
    let half = (1.0 - ACCURACY_MM / radius.max(ACCURACY_MM)).acos().max(1e-3);
    (sweep.abs() / (2.0 * half)).ceil().clamp(1.0, 4096.0) as u32
}

/// Everything within `distance` of a convex polygon (counter-clockwise): its sides moved out, and an
/// arc round each corner. A polygon without an area is a line there and back, or a point: half a circle
/// round each end, in two arcs.
pub(super) fn grown(polygon: &[DVec2], distance: f64) -> Chain {
    let corners = without_repeats(polygon);
    let count = corners.len();
    let mut grown = Chain { vertices: Vec::with_capacity(3 * count), is_closed: true };
    if let [at] = corners[..] {
        let round = [DVec2::X, DVec2::Y, DVec2::NEG_X, DVec2::NEG_Y];
        let bulge = FRAC_PI_8.tan();
        grown.vertices.extend(round.map(|way| Vertex { at: at + way * distance, bulge }));
        return grown;
    }
    let outward = |a: DVec2, b: DVec2| -(b - a).perp().normalize_or_zero();
    for (i, corner) in corners.iter().enumerate() {
        let before = outward(corners[(i + count - 1) % count], *corner);
        let after = outward(*corner, corners[(i + 1) % count]);
        let turn = before.perp_dot(after).atan2(before.dot(after)).rem_euclid(TAU);
        let (arcs, way) =
            if turn > MOST_OF_AN_ARC { (2, DVec2::from_angle(turn / 2.0)) } else { (1, DVec2::X) };
        let bulge = (turn / 4.0 / f64::from(arcs)).tan();
        grown.vertices.push(Vertex { at: *corner + before * distance, bulge });
        if arcs == 2 {
            grown.vertices.push(Vertex { at: *corner + way.rotate(before) * distance, bulge });
        }
        grown.vertices.push(Vertex::plain(*corner + after * distance));
    }
    grown
}

/// A bulge stays well below 1.
const MOST_OF_AN_ARC: f64 = 0.9 * PI;

/// The corners that are not the one before them again.
fn without_repeats(polygon: &[DVec2]) -> Vec<DVec2> {
    let mut corners: Vec<DVec2> = Vec::with_capacity(polygon.len());
    for corner in polygon {
        if corners.last().is_none_or(|last| last.distance(*corner) > JOINS_MM) {
            corners.push(*corner);
        }
    }
    while let ([first, _, ..], Some(last)) = (&corners[..], corners.last())
        && first.distance(*last) <= JOINS_MM
    {
        corners.pop();
    }
    corners
}

#[cfg(test)]
mod tests {
    use glam::dvec2;

    use super::*;

    fn quarter() -> Chain {
        let bulge = (std::f64::consts::FRAC_PI_8).tan();
        let start = Vertex { at: dvec2(10.0, 0.0), bulge };
        let vertices =
            vec![start, Vertex::plain(dvec2(0.0, 10.0)), Vertex::plain(dvec2(-5.0, 10.0))];
        Chain { vertices, is_closed: false }
    }

    #[test]
    fn a_bulge_to_the_left_is_an_arc_about_its_centre() {
        let chain = quarter();
        let arc = chain.vertices[0].arc_to(chain.vertices[1].at).unwrap();
        assert!(arc.centre.length() < 1e-9 && (arc.radius - 10.0).abs() < 1e-9);
        let points = chain.flattened();
        let on_arc = &points[..points.len() - 1];
        assert!(on_arc.iter().all(|p| (p.length() - 10.0).abs() < 1e-9));
        assert!(on_arc.windows(2).all(|w| 10.0 - w[0].midpoint(w[1]).length() <= ACCURACY_MM));
    }

    #[test]
    fn reversed_it_is_the_same_line() {
        let chain = quarter();
        let mut back = chain.reversed().flattened();
        back.reverse();
        let there = chain.flattened();
        assert_eq!(there.len(), back.len());
        assert!(there.iter().zip(&back).all(|(a, b)| a.distance(*b) < 1e-9));
        assert_eq!(chain.reversed().reversed(), chain);
    }

    #[test]
    fn a_grown_polygon_without_an_area_is_finite_and_its_distance_away() {
        let (a, b) = (dvec2(3.0, 1.0), dvec2(43.0, 31.0));
        for flat in [vec![a, b, b, a], vec![a, a, b, b], vec![a, b], vec![a; 4], vec![a]] {
            let chain = grown(&flat, 4.0);
            let points = chain.flattened();
            assert!(points.len() > 8, "{flat:?}");
            let far = *flat.iter().find(|p| **p != a).unwrap_or(&a);
            for p in points {
                let way = far - a;
                let share = (p - a).dot(way) / way.length_squared().max(1e-9);
                let away = p.distance(a + way * share.clamp(0.0, 1.0));
                assert!((away - 4.0).abs() < 1e-9, "{flat:?}: {p}");
            }
            assert!(chain.vertices.iter().all(|v| v.bulge.is_finite() && v.bulge < 1.0));
        }
    }

    #[test]
    fn a_grown_square_is_its_distance_away_and_has_round_corners() {
        let square = [dvec2(0.0, 0.0), dvec2(10.0, 0.0), dvec2(10.0, 10.0), dvec2(0.0, 10.0)];
        let grown = grown(&square, 4.0);
        assert_eq!(grown.vertices.iter().filter(|vertex| vertex.bulge > 0.0).count(), 4);
        for p in grown.flattened() {
            let nearest = p.clamp(DVec2::ZERO, DVec2::splat(10.0));
            assert!((p.distance(nearest) - 4.0).abs() < 1e-9, "{p}");
        }
    }
}
