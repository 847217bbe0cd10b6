//! An arc against a convex solid.

use glam::DVec3;

use super::Near;
use super::convex::Convex;
use crate::geom::Piece;

/// Certified: no place of the arc is nearer than the answer by more than this. The answer itself is
/// polished to the last digits.
const ACCURACY: f64 = 1e-6;
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
    level: usize,
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
    fn probe(&self, at: f64, solid: &impl Convex) -> Probe {
        let (sin, cos) = at.sin_cos();
        self.probe_at(at, cos * self.out + sin * self.along, cos * self.along - sin * self.out, solid)
    }

    #[inline]
    fn probe_at(&self, at: f64, out: DVec3, along: DVec3, solid: &impl Convex) -> Probe {
        let (distance, normal) = solid.distance(self.centre + self.radius * out);
        Probe { at, distance, normal, slope: normal.dot(along) }
    }

    /// The lower bound of a part: the distance lies above its tangent plane at the middle, and the
    /// plane's least value on the part is exact.
    #[inline]
    fn floor(&self, probe: &Probe, out: DVec3, (sin, cos): (f64, f64)) -> f64 {
        let outward = probe.normal.dot(out);
        let steep = outward.hypot(probe.slope);
        let least = if -outward >= steep * cos {
            -steep
        } else {
            outward * cos - probe.slope.abs() * sin
        };
        probe.distance + self.radius * (least - outward)
    }

    /// The minimum beside `best`, between two places that enclose it.
    fn polished(&self, best: Probe, from: f64, to: f64, solid: &impl Convex) -> Probe {
        let (mut left, mut right) = (self.probe(from, solid), self.probe(to, solid));
        let nearer = |a: Probe, b: Probe| if b.distance < a.distance { b } else { a };
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
            if at <= left.at || at >= right.at || width * self.radius * -left.slope.min(-right.slope) < 1e-13 {
                break;
            }
            let probe = self.probe(at, solid);
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
pub(super) fn arc_convex(piece: &Piece, solid: &impl Convex, enough: f64) -> Option<Near> {
    let Piece::Arc { start, direction, inward, radius, angle } = *piece else { return None };
    let circle =
        Circle { centre: start + radius * inward, out: -inward, along: direction, radius };
    let halves = halvings(angle);
    let (sin, cos) = halves[0];
    let out = cos * circle.out + sin * circle.along;
    let along = cos * circle.along - sin * circle.out;
    let middle = circle.probe_at(angle / 2.0, out, along, solid);
    let floor = circle.floor(&middle, out, halves[0]);
    if floor >= enough {
        return None;
    }
    let mut best = middle;
    for end in [0.0, angle] {
        let probe = circle.probe(end, solid);
        if probe.distance < best.distance {
            best = probe;
        }
    }
    best = searched(&circle, Part { middle: angle / 2.0, level: 0, out, along, floor }, best, |best| {
        (best - ACCURACY).min(enough)
    }, &halves, angle, solid);
    let on_piece = piece.point_at(best.at * radius);
    (best.distance < enough).then(|| Near {
        distance: best.distance,
        along: best.at * radius,
        on_piece,
        on_other: on_piece - best.normal * best.distance,
    })
}

/// Sine and cosine of half the angle of a part, level by level.
fn halvings(angle: f64) -> [(f64, f64); LEVELS + 1] {
    let mut halves = [(angle / 2.0).sin_cos(); LEVELS + 1];
    for level in 1..=LEVELS {
        let (sin, cos) = halves[level - 1];
        let half_cos = ((1.0 + cos) / 2.0).sqrt();
        halves[level] = (sin / (2.0 * half_cos), half_cos);
    }
    halves
}

fn searched(
    circle: &Circle,
    whole: Part,
    mut best: Probe,
    wanted: impl Fn(f64) -> f64,
    halves: &[(f64, f64); LEVELS + 1],
    angle: f64,
    solid: &impl Convex,
) -> Probe {
    let mut open = [whole; LEVELS + 2];
    let mut count = 1;
    let mut polished = f64::INFINITY;
    while count > 0 {
        count -= 1;
        let part = open[count];
        if part.floor >= wanted(best.distance) || part.level >= LEVELS {
            continue;
        }
        let level = part.level + 1;
        let quarter = angle / f64::from(1_u32 << (level + 1).min(31));
        let (sin, cos) = halves[level];
        let mut made = [part; 2];
        for (child, way) in made.iter_mut().zip([-1.0, 1.0]) {
            child.level = level;
            child.middle = part.middle + way * quarter;
            child.out = cos * part.out + way * sin * part.along;
            child.along = cos * part.along - way * sin * part.out;
            let probe = circle.probe_at(child.middle, child.out, child.along, solid);
            child.floor = circle.floor(&probe, child.out, halves[level]);
            if probe.distance < best.distance {
                best = probe;
            }
        }
        if level >= 3 && best.distance < polished {
            let reach = 2.0 * quarter;
            best = circle.polished(best, (best.at - reach).max(0.0), (best.at + reach).min(angle), solid);
            polished = best.distance;
        }
        made.sort_by(|a, b| b.floor.total_cmp(&a.floor));
        for child in made {
            if child.floor < wanted(best.distance) {
                open[count] = child;
                count += 1;
            }
        }
    }
    best
}
