//! The first place along a piece that is as far away as asked.

use glam::DVec3;

use crate::geom::Piece;

/// From which end to look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReachFrom {
    /// From its start on.
    Start,
    /// From its end back.
    End,
}

/// A place counts as reached within this.
const ACCURACY: f64 = 1e-9;
/// A gain of less than this between two places is passed over.
const PASSED_OVER: f64 = 1e-6;

/// The first place, from one end of `piece`, whose distance is `target` or more, as a distance along
/// the piece from its start; `None` where there is none. `field` gives the signed distance from a
/// point, and the nearest place to it. Found by halving, with proven upper bounds: no stretch that
/// reaches higher by more than 1e-6 is passed over.
pub fn first_reach(
    piece: &Piece,
    from: ReachFrom,
    target: f64,
    field: &impl Fn(DVec3) -> (f64, DVec3),
) -> Option<f64> {
    let field = |p: DVec3| {
        let (distance, nearest) = field(p);
        Foot { distance, nearest, straight: None }
    };
    first_reach_by_feet(piece, from, target, &field)
}

/// The nearest place of something to a point.
#[derive(Debug, Clone, Copy)]
pub(in crate::geom) struct Foot {
    /// Signed distance.
    pub(in crate::geom) distance: f64,
    pub(in crate::geom) nearest: DVec3,
    /// The straight that it lies on: of two places on one straight, all between them is on it too.
    pub(in crate::geom) straight: Option<usize>,
}

/// The same of a field that tells on which straight the nearest place lies.
pub(in crate::geom) fn first_reach_by_feet(
    piece: &Piece,
    from: ReachFrom,
    target: f64,
    field: &impl Fn(DVec3) -> Foot,
) -> Option<f64> {
    let length = piece.length();
    let place = |s: f64| match from {
        ReachFrom::Start => s,
        ReachFrom::End => length - s,
    };
    let at = |s: f64| {
        let point = piece.point_at(place(s));
        let Foot { distance, nearest, straight } = field(point);
        Probe { s, point, distance, nearest, straight }
    };
    let seek = Seek { target, curvature: piece.curvature(), at: &at };
    let (first, last) = (at(0.0), at(length));
    if first.distance >= target - ACCURACY {
        return Some(place(0.0));
    }
    seek.between(first, last, 60).map(place)
}

#[derive(Clone, Copy)]
struct Probe {
    s: f64,
    point: DVec3,
    distance: f64,
    nearest: DVec3,
    straight: Option<usize>,
}

struct Seek<'a, A> {
    target: f64,
    curvature: f64,
    at: &'a A,
}

impl<A: Fn(f64) -> Probe> Seek<'_, A> {
    /// The first place after `a`, which is too near, up to `b`.
    fn between(&self, a: Probe, b: Probe, levels: u32) -> Option<f64> {
        let width = b.s - a.s;
        let reached = b.distance >= self.target - ACCURACY;
        if levels == 0 || width <= 1e-9 {
            return reached.then_some(b.s);
        }
        let middle = (self.at)(f64::midpoint(a.s, b.s));
        if !reached && self.greatest(&a, &middle, &b) < self.target + PASSED_OVER {
            return (middle.distance >= self.target - ACCURACY)
                .then(|| self.between(a, middle, levels - 1))
                .flatten();
        }
        if middle.distance >= self.target - ACCURACY {
            return self.between(a, middle, levels - 1);
        }
        self.between(a, middle, levels - 1).or_else(|| self.between(middle, b, levels - 1))
    }

    /// No distance between `a` and `b` is greater. A distance changes no faster than the place; and
    /// none is greater than that to the place nearest to the middle, which is greatest at an end of
    /// the chord, give or take the sagitta. Where the nearest places of both ends lie on one straight,
    /// a chord is nowhere farther from it than at one of its ends.
    fn greatest(&self, a: &Probe, middle: &Probe, b: &Probe) -> f64 {
        let width = b.s - a.s;
        let by_slope = 0.5 * (a.distance.max(b.distance) + middle.distance + 0.5 * width);
        let nearest = middle.nearest;
        let sagitta = 0.125 * width * width * self.curvature;
        let by_place = a.point.distance(nearest).max(b.point.distance(nearest)) + sagitta;
        let is_beside = a.straight.is_some() && a.straight == b.straight;
        let by_straight =
            if is_beside { a.distance.max(b.distance) + sagitta } else { f64::INFINITY };
        by_slope.min(by_place).min(by_straight)
    }
}
