//! The centre line: straight pieces and arcs in space, measured along from its start.

use glam::DVec3;

use super::{Fillet, Polyline};

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
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CentreLine {
    pieces: Vec<Piece>,
    starts: Vec<f64>,
    length: f64,
}

impl CentreLine {
    /// The polyline with its corners rounded. `fillets` holds one for each point of `line`.
    /// `middles` is filled with, for each point, the distance of the middle of its arc (of the
    /// corner itself where the radius is 0) from the start.
    pub fn rounded(line: &Polyline, fillets: &[Fillet], middles: &mut Vec<f64>) -> Self {
        let room = 2 * line.points.len();
        let mut curve = Self {
            pieces: Vec::with_capacity(room),
            starts: Vec::with_capacity(room),
            length: 0.0,
        };
        middles.clear();
        middles.push(0.0);
        for (i, stretch) in line.stretches.iter().enumerate() {
            let (before, after) = (&fillets[i], &fillets[i + 1]);
            curve.push(Piece::Line {
                start: line.points[i] + stretch.direction * before.tangent,
                direction: stretch.direction,
                length: stretch.length - before.tangent - after.tangent,
            });
            middles.push(curve.length + after.radius * after.angle / 2.0);
            if let Some(next) = line.stretches.get(i + 1) {
                curve.push_fillet(line.points[i + 1], stretch.direction, next.direction, after);
            }
        }
        curve.length = line.length() - fillets.iter().map(Fillet::saving).sum::<f64>();
        curve
    }

    fn push_fillet(&mut self, corner: DVec3, u: DVec3, v: DVec3, fillet: &Fillet) {
        if fillet.bends() && fillet.radius > 0.0 {
            self.push(Piece::Arc {
                start: corner - u * fillet.tangent,
                direction: u,
                inward: (v - u * u.dot(v)).normalize_or_zero(),
                radius: fillet.radius,
                angle: fillet.angle,
            });
        }
    }

    fn push(&mut self, piece: Piece) {
        let length = piece.length();
        if length > 0.0 {
            self.starts.push(self.length);
            self.pieces.push(piece);
            self.length += length;
        }
    }

    /// Its length, from the closed form Σ|stretches| − Σ r (2 tan(θ/2) − θ).
    pub fn length(&self) -> f64 {
        self.length
    }

    /// The pieces, each with the distance of its start from the start of the curve.
    pub fn pieces(&self) -> impl ExactSizeIterator<Item = (f64, &Piece)> + Clone {
        self.starts.iter().copied().zip(&self.pieces)
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

    /// The curvature at distance `s` from the start.
    pub fn curvature_at(&self, s: f64) -> f64 {
        self.piece_at(s).map_or(0.0, |(piece, _)| piece.curvature())
    }

    fn piece_at(&self, s: f64) -> Option<(&Piece, f64)> {
        let place = self.starts.partition_point(|start| *start <= s).max(1) - 1;
        let piece = self.pieces.get(place)?;
        Some((piece, (s - self.starts[place]).clamp(0.0, piece.length())))
    }

    /// Points along the curve, ends included, for drawing: no arc strays from its chords by more
    /// than `accuracy` (mm, more than 0).
    pub fn sampled(&self, accuracy: f64) -> Vec<DVec3> {
        let mut points = Vec::with_capacity(self.pieces.len() + 1);
        for piece in &self.pieces {
            points.push(piece.point_at(0.0));
            if let Piece::Arc { radius, angle, .. } = *piece {
                let steps = arc_steps(radius, angle, accuracy);
                let step = radius * angle / f64::from(steps);
                points.extend((1..steps).map(|k| piece.point_at(step * f64::from(k))));
            }
        }
        if let Some(last) = self.pieces.last() {
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
