//! Everything within a distance of a flat heap of triangles: the outline of that, exact straights and
//! arcs.
//!
//! The heap is bounded by those edges of its triangles that have triangles on one side only. What
//! is within a distance of it is the heap, a band to both sides of each such edge, and a disc about
//! each of their ends. Bands' sides and discs' rims are parted where they meet, and what is then inside
//! no band, disc or triangle is the outline.

mod edges;
mod grid;
mod loops;
mod parts;

use std::f64::consts::{FRAC_PI_2, TAU};

use glam::DVec2;

use edges::{Edge, Heap};
use grid::Grid;
use loops::joined;
use parts::Part;

/// Nearer than this two places are one, mm.
const SAME_MM: f64 = 1e-7;

/// A corner of an outline and the way to the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corner {
    /// The corner.
    pub at: DVec2,
    /// The tangent of a quarter of the angle that the arc to the next corner turns through, more than 0
    /// where it turns left; 0 for a straight.
    pub bulge: f64,
}

/// The outlines of all that is within `distance` (more than 0) of flat triangles: of each part by
/// itself and of the holes in it, what is inside to the left. Each ends where it began.
///
/// Triangles are places in `points`, wound either way; those without an area count as what is left of
/// them. Points that are not finite, and triangles of points that are not there, are left out.
pub fn around(points: &[DVec2], triangles: &[[u32; 3]], distance: f64) -> Vec<Vec<Corner>> {
    let heap = Heap::of(points, triangles);
    if heap.edges.is_empty() || !(distance > 0.0 && distance.is_finite()) {
        return Vec::new();
    }
    let field = Field::new(&heap, distance);
    let mut parts = Vec::new();
    for side in heap.edges.iter().flat_map(|edge| edge.sides(distance)) {
        field.cut_side(side, &mut parts);
    }
    for corner in heap.corners() {
        field.cut_rim(corner, &mut parts);
    }
    parts.retain(|part| field.is_outline(part));
    joined(parts)
}

/// What a part of the outline may be inside of.
struct Field<'a> {
    heap: &'a Heap,
    distance: f64,
    /// The edges by where their bands and discs are.
    bands: Grid,
    /// The triangles by where they are.
    areas: Grid,
}

impl<'a> Field<'a> {
    fn new(heap: &'a Heap, distance: f64) -> Self {
        let bands = heap.edges.iter().map(|edge| edge.bounds(distance + SAME_MM));
        let areas = heap.triangles.iter().map(edges::bounds_of);
        Self { heap, distance, bands: Grid::of(bands), areas: Grid::of(areas) }
    }

    /// The edges whose bands come near a box.
    fn near(&self, low: DVec2, high: DVec2) -> impl Iterator<Item = &'a Edge> + '_ {
        self.bands.within(low, high).into_iter().filter_map(|place| self.heap.edges.get(place))
    }

    /// One side of a band, parted where others cross it.
    fn cut_side(&self, [from, to]: [DVec2; 2], parts: &mut Vec<Part>) {
        let length = from.distance(to);
        let mut cuts = vec![0.0, 1.0];
        for edge in self.near(from.min(to), from.max(to)) {
            for side in edge.sides(self.distance) {
                parts::line_line([from, to], side, &mut cuts);
            }
            for middle in edge.ends() {
                parts::line_circle([from, to], middle, self.distance, &mut cuts);
            }
        }
        sort_and_clear(&mut cuts, SAME_MM / length.max(SAME_MM));
        let pairs = cuts.windows(2).filter(|pair| pair[0] >= 0.0 && pair[1] <= 1.0);
        parts.extend(
            pairs.map(|pair| Part::Line {
                from: from.lerp(to, pair[0]),
                to: from.lerp(to, pair[1]),
            }),
        );
    }

    /// The rim of a disc, parted where others cross it.
    fn cut_rim(&self, middle: DVec2, parts: &mut Vec<Part>) {
        let radius = self.distance;
        let mut cuts = Vec::new();
        for edge in self.near(middle - radius, middle + radius) {
            for side in edge.sides(radius) {
                parts::circle_line(middle, radius, side, &mut cuts);
            }
            for other in edge.ends() {
                parts::circle_circle(middle, other, radius, &mut cuts);
            }
        }
        // No arc of a quarter or more, so that each has a middle and a bulge well below 1.
        cuts.extend((0..4).map(|k| f64::from(k) * FRAC_PI_2));
        for angle in &mut cuts {
            *angle = angle.rem_euclid(TAU);
        }
        sort_and_clear(&mut cuts, SAME_MM / radius.max(SAME_MM));
        let Some(first) = cuts.first().copied() else { return };
        cuts.push(first + TAU);
        parts.extend(cuts.windows(2).map(|pair| Part::Arc {
            middle,
            radius,
            from: pair[0],
            to: pair[1],
        }));
    }

    /// Whether the middle of a part is inside nothing.
    fn is_outline(&self, part: &Part) -> bool {
        let at = part.middle();
        let is_clear = |edge: &Edge| edge.distance(at) >= self.distance - SAME_MM;
        self.near(at, at).all(is_clear)
            && !self.areas.within(at, at).into_iter().any(|place| {
                self.heap.triangles.get(place).is_some_and(|t| edges::is_inside(at, t))
            })
    }
}

/// In order, each once.
fn sort_and_clear(cuts: &mut Vec<f64>, apart: f64) {
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|later, earlier| *later - *earlier <= apart);
}

#[cfg(test)]
mod tests;
