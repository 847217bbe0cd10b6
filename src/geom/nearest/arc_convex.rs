//! An arc against a convex obstacle.

use glam::DVec3;

use super::Near;
use super::convex::Convex;
use crate::geom::Piece;

/// Certified: no place of the arc is nearer than the answer by more than this. The answer itself is
/// polished to the last digits.
const ACCURACY: f64 = 5e-7;
/// Halvings; a part of the arc is then below 1e-9 of it.
const LEVELS: usize = 30;

/// An arc about its centre: `centre + radius (cos φ · out + sin φ · along)`.
#[derive(Clone, Copy)]
struct Circle {
    centre: DVec3,
    out: DVec3,
    along: DVec3,
    radius: f64,
}

/// A part of the arc, seen from its middle.
#[derive(Clone, Copy)]
struct Part {
    middle: f64,
    /// Half its angle.
    half: f64,
    /// Sine and cosine of `half`.
    turn: (f64, f64),
    out: DVec3,
    along: DVec3,
    /// No place of it is nearer.
    floor: f64,
}

#[derive(Clone, Copy)]
struct Probe {
    at: f64,
    distance: f64,
    normal: DVec3,
    /// How the distance changes along the arc.
    slope: f64,
}

impl Circle {
    fn probe(&self, at: f64, obstacle: &impl Convex) -> Probe {
        let (sin, cos) = at.sin_cos();
        self.probe_at(
            at,
            cos * self.out + sin * self.along,
            cos * self.along - sin * self.out,
            obstacle,
        )
    }

    #[inline]
    fn probe_at(&self, at: f64, out: DVec3, along: DVec3, obstacle: &impl Convex) -> Probe {
        let (distance, normal) = obstacle.distance(self.centre + self.radius * out);
        Probe { at, distance, normal, slope: normal.dot(along) }
    }

    /// The lower bound of a part: the distance lies above its tangent plane at the middle, and the
    /// plane's least value on the part is exact.
    #[inline]
    fn floor(&self, probe: &Probe, out: DVec3, (sin, cos): (f64, f64)) -> f64 {
        let outward = probe.normal.dot(out);
        let steep = (outward * outward + probe.slope * probe.slope).sqrt();
        let least =
            if -outward >= steep * cos { -steep } else { outward * cos - probe.slope.abs() * sin };
        probe.distance + self.radius * (least - outward)
    }

    /// The minimum beside `best`, between two places that enclose it.
    fn polished(&self, best: Probe, from: f64, to: f64, obstacle: &impl Convex) -> Probe {
        let (mut left, mut right) = (self.probe(from, obstacle), self.probe(to, obstacle));
        let mut best = nearer(nearer(best, left), right);
        for step in 0..40 {
            if left.slope >= 0.0 || right.slope <= 0.0 {
                break;
            }
            let width = right.at - left.at;
            let ahead = if step % 3 == 2 {
                0.5 * width
            } else {
                width * left.slope / (left.slope - right.slope)
            };
            let at = left.at + ahead;
            if at <= left.at
                || at >= right.at
                || width * self.radius * -left.slope.min(-right.slope) < 1e-13
            {
                break;
            }
            let probe = self.probe(at, obstacle);
            best = nearer(best, probe);
            if probe.slope < 0.0 {
                left = probe;
            } else {
                right = probe;
            }
        }
        best
    }
}

/// Good to [`ACCURACY`]. `None` where nothing is nearer than `enough`. A straight has no answer.
pub(super) fn arc_convex(piece: &Piece, obstacle: &impl Convex, enough: f64) -> Option<Near> {
    let Piece::Arc { start, direction, inward, radius, angle } = *piece else { return None };
    let circle = Circle { centre: start + radius * inward, out: -inward, along: direction, radius };
    let half = angle / 2.0;
    let (sin, cos) = half.sin_cos();
    let mut whole = Part {
        middle: half,
        half,
        turn: (sin, cos),
        out: cos * circle.out + sin * circle.along,
        along: cos * circle.along - sin * circle.out,
        floor: 0.0,
    };
    let mut best = circle.probe_at(half, whole.out, whole.along, obstacle);
    whole.floor = circle.floor(&best, whole.out, whole.turn);
    if whole.floor >= enough {
        return None;
    }
    for (way, at) in [(-1.0, 0.0), (1.0, angle)] {
        let (out, along) = turned(&whole, whole.turn, way);
        best = nearer(best, circle.probe_at(at, out, along, obstacle));
    }
    let mut search = Search { circle, angle, obstacle, enough, best, polished: f64::INFINITY };
    search.halve(&whole, LEVELS);
    let best = search.best;
    let on_piece = piece.point_at(best.at * radius);
    (best.distance < enough).then(|| Near {
        distance: best.distance,
        along: best.at * radius,
        on_piece,
        on_other: on_piece - best.normal * best.distance,
    })
}

fn nearer(a: Probe, b: Probe) -> Probe {
    if b.distance < a.distance { b } else { a }
}

/// The radial and the tangent of a part turned on, or back where `way` is −1.
#[inline]
fn turned(part: &Part, (sin, cos): (f64, f64), way: f64) -> (DVec3, DVec3) {
    (cos * part.out + way * sin * part.along, cos * part.along - way * sin * part.out)
}

struct Search<'a, C> {
    circle: Circle,
    angle: f64,
    obstacle: &'a C,
    enough: f64,
    best: Probe,
    /// The distance when the best was last polished.
    polished: f64,
}

impl<C: Convex> Search<'_, C> {
    fn wanted(&self) -> f64 {
        (self.best.distance - ACCURACY).min(self.enough)
    }

    /// Looks into both halves of a part, the more promising first.
    fn halve(&mut self, part: &Part, levels: usize) {
        if levels == 0 {
            return;
        }
        let (sin, cos) = part.turn;
        let half_cos = f64::midpoint(1.0, cos).sqrt();
        let turn = (sin / (2.0 * half_cos), half_cos);
        let half = part.half / 2.0;
        let mut made = [-1.0, 1.0].map(|way| {
            let (out, along) = turned(part, turn, way);
            let middle = part.middle + way * half;
            let probe = self.circle.probe_at(middle, out, along, self.obstacle);
            self.best = nearer(self.best, probe);
            let floor = self.circle.floor(&probe, out, turn);
            Part { middle, half, turn, out, along, floor }
        });
        if levels + 2 < LEVELS && self.best.distance < self.polished {
            let (from, to) = (self.best.at - part.half, self.best.at + part.half);
            self.best =
                self.circle.polished(self.best, from.max(0.0), to.min(self.angle), self.obstacle);
            self.polished = self.best.distance;
        }
        if made[1].floor < made[0].floor {
            made.swap(0, 1);
        }
        for child in &made {
            if child.floor < self.wanted() {
                self.halve(child, levels - 1);
            }
        }
    }
}
