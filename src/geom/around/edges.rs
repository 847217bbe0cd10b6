//! The edges that bound a flat heap of triangles.

use std::collections::BTreeMap;

use glam::DVec2;

/// An edge with triangles on one side only, or none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Edge {
    from: DVec2,
    to: DVec2,
}

/// The triangles, and what bounds them.
pub(super) struct Heap {
    pub(super) triangles: Vec<[DVec2; 3]>,
    pub(super) edges: Vec<Edge>,
}

/// A point by its exact place.
type Key = [u64; 2];

fn key(p: DVec2) -> Key {
    // Adding nothing makes −0 the 0 that it equals.
    [(p.x + 0.0).to_bits(), (p.y + 0.0).to_bits()]
}

impl Heap {
    pub(super) fn of(points: &[DVec2], triangles: &[[u32; 3]]) -> Self {
        let corner = |i: u32| points.get(i as usize).copied().filter(|p| p.is_finite());
        let triangles: Vec<[DVec2; 3]> = triangles
            .iter()
            .filter_map(|[a, b, c]| Some([corner(*a)?, corner(*b)?, corner(*c)?]))
            .collect();
        // On which sides of each edge, from its lesser end to its greater, there are triangles.
        let mut sides: BTreeMap<[Key; 2], (Edge, [bool; 2])> = BTreeMap::new();
        for [p, q, r] in &triangles {
            for [a, b, third] in [[p, q, r], [q, r, p], [r, p, q]] {
                let (from, to) = if key(*a) <= key(*b) { (*a, *b) } else { (*b, *a) };
                let found = sides
                    .entry([key(from), key(to)])
                    .or_insert((Edge { from, to }, [false, false]));
                let aside = (to - from).perp_dot(*third - from);
                found.1[0] |= aside > 0.0;
                found.1[1] |= aside < 0.0;
            }
        }
        let bounding = sides.into_values().filter(|(_, sides)| *sides != [true, true]);
        let edges = bounding.map(|(edge, _)| edge).collect();
        Self { triangles, edges }
    }

    /// The ends of the edges, each once.
    pub(super) fn corners(&self) -> impl Iterator<Item = DVec2> {
        let ends = self.edges.iter().flat_map(Edge::ends);
        ends.map(|p| (key(p), p)).collect::<BTreeMap<Key, DVec2>>().into_values()
    }
}

impl Edge {
    pub(super) fn ends(&self) -> [DVec2; 2] {
        [self.from, self.to]
    }

    /// The sides of the band about it, what is inside to their left; none where it has no length.
    pub(super) fn sides(&self, distance: f64) -> impl Iterator<Item = [DVec2; 2]> + use<> {
        let (from, to) = (self.from, self.to);
        let across = (to - from).normalize_or_zero().perp() * distance;
        let sides = [[to + across, from + across], [from - across, to - across]];
        sides.into_iter().filter(move |_| across != DVec2::ZERO)
    }

    pub(super) fn bounds(&self, grown: f64) -> [DVec2; 2] {
        [self.from.min(self.to) - grown, self.from.max(self.to) + grown]
    }

    pub(super) fn distance(&self, p: DVec2) -> f64 {
        let way = self.to - self.from;
        let length = way.length_squared();
        let t =
            if length > 0.0 { ((p - self.from).dot(way) / length).clamp(0.0, 1.0) } else { 0.0 };
        p.distance(self.from + way * t)
    }
}

pub(super) fn bounds_of([a, b, c]: &[DVec2; 3]) -> [DVec2; 2] {
    [a.min(*b).min(*c), a.max(*b).max(*c)]
}

/// Whether a point is in a triangle, wound either way; not in one that has no area.
pub(super) fn is_inside(p: DVec2, [a, b, c]: &[DVec2; 3]) -> bool {
    let side = |a: DVec2, b: DVec2| (b - a).perp_dot(p - a);
    let sides = [side(*a, *b), side(*b, *c), side(*c, *a)];
    let has_area = (*b - *a).perp_dot(*c - *a) != 0.0;
    has_area && (sides.iter().all(|s| *s >= 0.0) || sides.iter().all(|s| *s <= 0.0))
}
