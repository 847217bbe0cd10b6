//! Two arcs.

use glam::DVec3;

use super::line_line::line_line;
use super::point_piece::point_piece;
use crate::geom::Piece;

/// Certified: no pair of places is nearer than the answer by more than this. The answer itself is
/// polished to the last digits.
const ACCURACY: f64 = 3e-3;

/// A part of an arc as a chord that the part never leaves by more than its sagitta.
#[derive(Clone, Copy)]
struct Part {
    from: f64,
    to: f64,
    a: DVec3,
    b: DVec3,
    sagitta: f64,
}

impl Part {
    fn new(piece: &Piece, from: f64, to: f64, a: DVec3, b: DVec3) -> Self {
        let half = 0.5 * (to - from) * piece.curvature();
        let sagitta =
            if half > 0.0 { 2.0 * (half / 2.0).sin().powi(2) / piece.curvature() } else { 0.0 };
        Self { from, to, a, b, sagitta }
    }

    fn halves(&self, piece: &Piece) -> [Self; 2] {
        let middle = f64::midpoint(self.from, self.to);
        let point = piece.point_at(middle);
        [
            Self::new(piece, self.from, middle, self.a, point),
            Self::new(piece, middle, self.to, point, self.b),
        ]
    }

    fn straight(&self) -> (DVec3, DVec3, f64) {
        let step = self.b - self.a;
        let length = step.length();
        (self.a, if length > 0.0 { step / length } else { DVec3::X }, length)
    }
}

/// Two parts with the least distance they can have, and where their chords are nearest.
#[derive(Clone, Copy)]
struct Pair {
    one: Part,
    two: Part,
    floor: f64,
    guess: (f64, f64),
}

impl Pair {
    fn new(one: Part, two: Part) -> Self {
        let (u, v) = (one.straight(), two.straight());
        let (s, t) = line_line(u, v);
        let apart = (u.0 + u.1 * s).distance(v.0 + v.1 * t);
        let share = |part: &Part, along: f64, length: f64| {
            part.from + (part.to - part.from) * if length > 0.0 { along / length } else { 0.0 }
        };
        Self {
            floor: apart - one.sagitta - two.sagitta,
            guess: (share(&one, s, u.2), share(&two, t, v.2)),
            one,
            two,
        }
    }
}

/// How far along each the nearest places lie, with their distance; good to [`ACCURACY`]. `None` where
/// nothing is nearer than `enough`.
pub(super) fn arc_arc(one: &Piece, two: &Piece, enough: f64) -> Option<(f64, (f64, f64))> {
    let whole = |piece: &Piece| {
        let length = piece.length();
        Part::new(piece, 0.0, length, piece.point_at(0.0), piece.point_at(length))
    };
    let first = Pair::new(whole(one), whole(two));
    if first.floor >= enough {
        return None;
    }
    let mut best = polished(one, two, first.guess);
    if best.0 <= floor_of_circles(one, two) + ACCURACY {
        return (best.0 < enough).then_some(best);
    }
    let mut open = Vec::with_capacity(32);
    open.push(first);
    while let Some(pair) = open.pop() {
        if pair.floor >= (best.0 - ACCURACY).min(enough) {
            continue;
        }
        let mut made = if pair.one.sagitta >= pair.two.sagitta {
            pair.one.halves(one).map(|half| Pair::new(half, pair.two))
        } else {
            pair.two.halves(two).map(|half| Pair::new(pair.one, half))
        };
        for pair in &made {
            let (s, t) = pair.guess;
            if one.point_at(s).distance(two.point_at(t)) < best.0 {
                best = polished(one, two, pair.guess);
            }
        }
        made.sort_by(|a, b| b.floor.total_cmp(&a.floor));
        open.extend(made.iter().filter(|pair| pair.floor < (best.0 - ACCURACY).min(enough)));
    }
    (best.0 < enough).then_some(best)
}

/// No places of the two whole circles are nearer: on one axis their distance is that of their radii and
/// planes, and no place of the second moves farther than by its offset and tilt from there. Sharp for
/// hoses led side by side, whose nearest places are all along the bend.
fn floor_of_circles(one: &Piece, two: &Piece) -> f64 {
    let circle = |piece: &Piece| match *piece {
        Piece::Arc { start, direction, inward, radius, .. } => {
            Some((start + radius * inward, direction.cross(inward), radius))
        }
        Piece::Line { .. } => None,
    };
    let Some(((centre, axis, radius), (other, axis_2, radius_2))) = circle(one).zip(circle(two))
    else {
        return 0.0;
    };
    let step = other - centre;
    let rise = step.dot(axis);
    let offset = (step - rise * axis).length();
    // 2 sin(tilt/2), the chord of the tilt, on whichever side the axis points.
    let tilt = (axis - axis_2).length().min((axis + axis_2).length());
    (radius - radius_2).hypot(rise) - offset - tilt * radius_2
}

/// Downhill from a guess: to and fro between the two, each time to the nearest place of the other, and
/// in between by Newton's method for both at once.
fn polished(one: &Piece, two: &Piece, guess: (f64, f64)) -> (f64, (f64, f64)) {
    let measure = |s: f64, t: f64| one.point_at(s).distance(two.point_at(t));
    let (mut s, mut t) = guess;
    let mut best = measure(s, t);
    for _ in 0..24 {
        let before = best;
        if let Some((next_s, next_t)) = newton(one, two, s, t) {
            let distance = measure(next_s, next_t);
            if distance < best {
                (s, t, best) = (next_s, next_t, distance);
            }
        }
        let next_t = point_piece(one.point_at(s), two);
        let next_s = point_piece(two.point_at(next_t), one);
        let distance = measure(next_s, next_t);
        if distance < best {
            (s, t, best) = (next_s, next_t, distance);
        }
        if before - best <= 1e-12 * (1.0 + best) {
            break;
        }
    }
    (best, (s, t))
}

/// One step for the half square of the distance; `None` where its second derivatives are not those of
/// a minimum.
fn newton(one: &Piece, two: &Piece, s: f64, t: f64) -> Option<(f64, f64)> {
    let apart = one.point_at(s) - two.point_at(t);
    let (u, v) = (one.direction_at(s), two.direction_at(t));
    let bend = |piece: &Piece, at: f64| match *piece {
        Piece::Line { .. } => DVec3::ZERO,
        Piece::Arc { direction, inward, radius, .. } => {
            let (sin, cos) = (at / radius).sin_cos();
            (cos * inward - sin * direction) / radius
        }
    };
    let (gs, gt) = (apart.dot(u), -apart.dot(v));
    let (ss, tt) = (1.0 + apart.dot(bend(one, s)), 1.0 - apart.dot(bend(two, t)));
    let st = -u.dot(v);
    let determinant = ss * tt - st * st;
    if ss <= 0.0 || tt <= 0.0 || determinant <= 1e-12 {
        return None;
    }
    let next_s = s - (tt * gs - st * gt) / determinant;
    let next_t = t - (ss * gt - st * gs) / determinant;
    Some((next_s.clamp(0.0, one.length()), next_t.clamp(0.0, two.length())))
}
