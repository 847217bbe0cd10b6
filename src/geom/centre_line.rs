//! The centre line: straight pieces and arcs in space, measured along from its start.

use glam::DVec3;

use super::{Fillet, Polyline, STRAIGHT_RAD};

/// A piece of a centre line. Directions are unit vectors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Piece {
    /// Straight.
    Line {
        /// Where it begins.
        start: DVec3,
        /// The way it goes.
        direction: DVec3,
        /// Its length.
        length: f64,
    },
    /// Circular.
    Arc {
        /// Where it begins.
        start: DVec3,
        /// The way it begins.
        direction: DVec3,
        /// From the start towards the centre; at right angles to `direction`.
        inward: DVec3,
        /// Its radius, more than 0.
        radius: f64,
        /// The angle it turns through, rad, in (0, π).
        angle: f64,
    },
}

impl Piece {
    /// Its length.
    pub fn length(&self) -> f64 {
        match *self {
            Self::Line { length, .. } => length,
            Self::Arc { radius, angle, .. } => radius * angle,
        }
    }

    /// The point at distance `s` from its start.
    pub fn point_at(&self, s: f64) -> DVec3 {
        match *self {
            Self::Line { start, direction, .. } => start + direction * s,
            Self::Arc { start, direction, inward, radius, .. } => {
                let (sin, cos) = (s / radius).sin_cos();
                start + radius * (sin * direction + (1.0 - cos) * inward)
            }
        }
    }

    /// The direction at distance `s` from its start.
    pub fn direction_at(&self, s: f64) -> DVec3 {
        match *self {
            Self::Line { direction, .. } => direction,
            Self::Arc { direction, inward, radius, .. } => {
                let (sin, cos) = (s / radius).sin_cos();
                cos * direction + sin * inward
            }
        }
    }

    /// The part between two distances from its start, the second not less than the first.
    #[must_use]
    pub fn part(&self, from: f64, to: f64) -> Self {
        match *self {
            Self::Line { start, direction, .. } => {
                Self::Line { start: start + direction * from, direction, length: to - from }
            }
            Self::Arc { direction, inward, radius, .. } => {
                let (sin, cos) = (from / radius).sin_cos();
                Self::Arc {
                    start: self.point_at(from),
                    direction: cos * direction + sin * inward,
                    inward: cos * inward - sin * direction,
                    radius,
                    angle: (to - from) / radius,
                }
            }
        }
    }

    /// 0 on a straight, one over the radius on an arc.
    pub fn curvature(&self) -> f64 {
        match *self {
            Self::Line { .. } => 0.0,
            Self::Arc { radius, .. } => radius.recip(),
        }
    }
}

/// A curve of straight pieces and arcs. Continuous; its direction is too, but at a corner whose
/// fillet has radius 0.
///
/// Kept as corners with their arcs, not as pieces: half the memory, and a large bay is a thousand
/// of these.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CentreLine {
    knots: Box<[Knot]>,
    length: f64,
}

/// A point of the polyline, its arc, and the straight after it. Directions follow from the points:
/// a stretch of no length has neither a straight nor an arc beside it, so none is missed.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Knot {
    /// The corner.
    corner: DVec3,
    /// Of the arc; 0 where there is none.
    radius: f64,
    /// Of the arc.
    angle: f64,
    /// From the corner to either end of the arc.
    tangent: f64,
    /// Length of the straight after the arc; 0 where there is none.
    straight: f64,
}

impl Knot {
    fn arc_length(&self) -> f64 {
        self.radius * self.angle
    }

    fn length(&self) -> f64 {
        self.arc_length() + self.straight
    }
}

/// A corner with its arc, as the curve keeps it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turn {
    /// The middle of the arc; the corner itself where the radius is 0.
    pub middle: DVec3,
    /// Where the middle is, along the curve.
    pub at: f64,
    /// Its radius; 0 where there was no room.
    pub radius: f64,
    /// The angle it turns through, rad.
    pub angle: f64,
}

impl CentreLine {
    /// The polyline with its corners rounded. `fillets` holds one for each point of `line`.
    /// `middles` is filled with, for each point, the distance of the middle of its arc (of the
    /// corner itself where the radius is 0) from the start.
    pub fn rounded(line: &Polyline, fillets: &[Fillet], middles: &mut Vec<f64>) -> Self {
        middles.clear();
        let mut at = 0.0;
        let mut knot = |(i, corner): (usize, &DVec3)| {
            let (fillet, stretch) = (&fillets[i], line.stretches.get(i));
            let knot = Knot {
                corner: *corner,
                radius: if fillet.bends() { fillet.radius } else { 0.0 },
                angle: fillet.angle,
                tangent: fillet.tangent,
                straight: stretch.map_or(0.0, |stretch| {
                    (stretch.length - fillet.tangent - fillets[i + 1].tangent).max(0.0)
                }),
            };
            middles.push(at + knot.arc_length() / 2.0);
            at += knot.length();
            knot
        };
        let knots = line.points.iter().enumerate().map(&mut knot).collect();
        let length = line.length() - fillets.iter().map(Fillet::saving).sum::<f64>();
        Self { knots, length }
    }

    /// Its length, from the closed form Σ|stretches| − Σ r (2 tan(θ/2) − θ).
    pub fn length(&self) -> f64 {
        self.length
    }

    /// The corners that turn, in order.
    pub fn turns(&self) -> impl Iterator<Item = Turn> + Clone + '_ {
        self.placed_knots().filter(|(_, _, knot)| knot.angle >= STRAIGHT_RAD).map(
            |(i, start, knot)| {
                let at = start + knot.arc_length() / 2.0;
                let middle =
                    self.arc(i).map_or(knot.corner, |arc| arc.point_at(arc.length() / 2.0));
                Turn { middle, at, radius: knot.radius, angle: knot.angle }
            },
        )
    }

    /// The pieces, each with the distance of its start from the start of the curve.
    pub fn pieces(&self) -> impl Iterator<Item = (f64, Piece)> + Clone + '_ {
        self.placed_knots().flat_map(|(i, start, knot)| {
            let arc = self.arc(i).map(|piece| (start, piece));
            let line = self.line(i).map(|piece| (start + knot.arc_length(), piece));
            arc.into_iter().chain(line)
        })
    }

    /// Each knot with its place and where its arc begins along the curve.
    fn placed_knots(&self) -> impl Iterator<Item = (usize, f64, &Knot)> + Clone + '_ {
        self.knots.iter().enumerate().scan(0.0, |at, (i, knot)| {
            let start = *at;
            *at += knot.length();
            Some((i, start, knot))
        })
    }

    /// The direction from knot `i` to the next.
    fn direction(&self, i: usize) -> DVec3 {
        (self.knots[i + 1].corner - self.knots[i].corner).normalize_or(DVec3::X)
    }

    /// The arc of knot `i`. The ends have none.
    fn arc(&self, i: usize) -> Option<Piece> {
        let knot = &self.knots[i];
        if knot.arc_length() <= 0.0 || i == 0 || i + 1 >= self.knots.len() {
            return None;
        }
        let (into, out) = (self.direction(i - 1), self.direction(i));
        Some(Piece::Arc {
            start: knot.corner - into * knot.tangent,
            direction: into,
            inward: (out - into * into.dot(out)).normalize_or_zero(),
            radius: knot.radius,
            angle: knot.angle,
        })
    }

    /// The straight after knot `i`.
    fn line(&self, i: usize) -> Option<Piece> {
        let knot = &self.knots[i];
        (knot.straight > 0.0).then(|| {
            let direction = self.direction(i);
            let start = knot.corner + direction * knot.tangent;
            Piece::Line { start, direction, length: knot.straight }
        })
    }

    /// The point at distance `s` from the start; `s` is held between 0 and the length. The origin
    /// for an empty curve.
    pub fn point_at(&self, s: f64) -> DVec3 {
        self.piece_at(s).map_or(DVec3::ZERO, |(piece, along)| piece.point_at(along))
    }

    /// The direction at distance `s` from the start; `s` is held between 0 and the length. +X for
    /// an empty curve.
    pub fn direction_at(&self, s: f64) -> DVec3 {
        self.piece_at(s).map_or(DVec3::X, |(piece, along)| piece.direction_at(along))
    }

    fn piece_at(&self, s: f64) -> Option<(Piece, f64)> {
        let mut best = None;
        for (i, start, knot) in self.placed_knots() {
            if start > s && best.is_some() {
                break;
            }
            if knot.arc_length() > 0.0 {
                best = Some((i, start, true));
            }
            let begin = start + knot.arc_length();
            if knot.straight > 0.0 && (begin <= s || best.is_none()) {
                best = Some((i, begin, false));
            }
        }
        let (i, start, is_arc) = best?;
        let piece = if is_arc { self.arc(i) } else { self.line(i) }?;
        Some((piece, (s - start).clamp(0.0, piece.length())))
    }

    /// Points along the curve, ends included, for drawing: no arc strays from its chords by more
    /// than `accuracy` (mm, more than 0).
    pub fn sampled(&self, accuracy: f64) -> Vec<DVec3> {
        let mut points = Vec::with_capacity(4 * self.knots.len());
        let mut last = None;
        for (_, piece) in self.pieces() {
            points.push(piece.point_at(0.0));
            if let Piece::Arc { radius, angle, .. } = piece {
                let steps = arc_steps(radius, angle, accuracy);
                let step = radius * angle / f64::from(steps);
                points.extend((1..steps).map(|k| piece.point_at(step * f64::from(k))));
            }
            last = Some(piece);
        }
        if let Some(last) = last {
            points.push(last.point_at(last.length()));
        }
        points
    }
}

/// Chords needed so that a sagitta `r (1 − cos(φ/2))` stays within `accuracy`.
fn arc_steps(radius: f64, angle: f64, accuracy: f64) -> u32 {
    let half = (1.0 - accuracy.max(1e-6) / radius).max(-1.0).acos().max(1e-3);
    (angle / (2.0 * half)).ceil().clamp(1.0, 4096.0) as u32
}
