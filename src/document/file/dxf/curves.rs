//! Curves to points. `accuracy` bounds how far a chord is from its curve.

use std::f64::consts::{FRAC_PI_2, TAU};

use glam::{DVec2, DVec3};

/// No curve is cut into more pieces than this, however large and however fine the accuracy.
const MOST_PIECES: f64 = 4096.0;

/// How many chords of a circle's part keep within `accuracy`: their sagitta is `r(1 − cos φ/2)`.
fn pieces(radius: f64, sweep: f64, accuracy: f64) -> usize {
    let ratio = (accuracy / radius).clamp(0.0, 1.0);
    let step = (2.0 * (1.0 - ratio).acos()).min(FRAC_PI_2);
    let count = (sweep.abs() / step).ceil();
    if count.is_finite() { count.clamp(1.0, MOST_PIECES) as usize } else { MOST_PIECES as usize }
}

/// The part of an ellipse from parameter `from` to `to` (radians), with half axes `major` and
/// `minor`. A circle is one too.
pub(super) fn ellipse(
    centre: DVec3,
    [major, minor]: [DVec3; 2],
    from: f64,
    to: f64,
    accuracy: f64,
) -> Vec<DVec3> {
    let sweep = to - from;
    // An ellipse is a circle of its longer half axis, squeezed: so are the distances.
    let count = pieces(major.length().max(minor.length()), sweep, accuracy);
    let at = |i: usize| {
        let (sin, cos) = (from + sweep * i as f64 / count as f64).sin_cos();
        centre + major * cos + minor * sin
    };
    (0..=count).map(at).collect()
}

/// The end angle, brought to within one turn after the start.
pub(super) fn after(from: f64, to: f64) -> f64 {
    let sweep = (to - from).rem_euclid(TAU);
    from + if sweep == 0.0 { TAU } else { sweep }
}

/// The points of an arc from `a` to `b` without `a`, where `bulge` is the tangent of a quarter of
/// its angle, positive where it goes round counter-clockwise (the DXF reference, LWPOLYLINE, code 42).
pub(super) fn bulged(a: DVec2, b: DVec2, bulge: f64, accuracy: f64) -> Vec<DVec2> {
    let chord = b - a;
    let sweep = 4.0 * bulge.atan();
    if chord == DVec2::ZERO || sweep.abs() < 1e-9 || !sweep.is_finite() {
        return vec![b];
    }
    // From the middle of the chord to the centre: c/2 · cot(θ/2), to the left where θ > 0.
    let to_centre = chord.perp() / 2.0 * ((1.0 - bulge * bulge) / (2.0 * bulge));
    let centre = a.midpoint(b) + to_centre;
    let arm = a - centre;
    let count = pieces(arm.length(), sweep, accuracy);
    let mut points: Vec<DVec2> = (1..count)
        .map(|i| centre + DVec2::from_angle(sweep * i as f64 / count as f64).rotate(arm))
        .collect();
    points.push(b);
    points
}

/// A non-uniform rational B-spline.
pub(super) struct Spline<'a> {
    pub(super) degree: usize,
    pub(super) knots: &'a [f64],
    pub(super) points: Vec<DVec3>,
    /// Empty: all alike.
    pub(super) weights: &'a [f64],
}

impl Spline<'_> {
    /// Its points; none where its numbers do not fit together.
    pub(super) fn flatten(&self, accuracy: f64) -> Option<Vec<DVec3>> {
        let (n, p) = (self.points.len(), self.degree);
        let fits = (1..=15).contains(&p)
            && n > p
            && self.knots.len() == n + p + 1
            && self.knots.is_sorted()
            && (self.weights.is_empty() || self.weights.len() == n);
        if !fits {
            return None;
        }
        let mut line = vec![self.at(p, self.knots[p])?];
        for span in p..n {
            let (from, to) = (self.knots[span], self.knots[span + 1]);
            if to > from {
                let end = self.at(span, to)?;
                let start = *line.last()?;
                self.halve(span, (from, start), (to, end), (accuracy, 0), &mut line)?;
            }
        }
        Some(line)
    }

    /// Adds the points after `a` up to `b`: halved until the curve is within the accuracy of the
    /// chord at both quarters and the middle.
    fn halve(
        &self,
        span: usize,
        a: (f64, DVec3),
        b: (f64, DVec3),
        (accuracy, depth): (f64, u32),
        line: &mut Vec<DVec3>,
    ) -> Option<()> {
        const DEEPEST: u32 = 10;
        let at = |share: f64| {
            let t = a.0 + (b.0 - a.0) * share;
            Some((t, self.at(span, t)?))
        };
        let middle = at(0.5)?;
        let off = |p: DVec3| distance_to_chord(p, a.1, b.1);
        let flat = [at(0.25)?.1, middle.1, at(0.75)?.1].into_iter().all(|p| off(p) <= accuracy);
        if (flat && depth > 0) || depth >= DEEPEST {
            line.push(b.1);
            return Some(());
        }
        self.halve(span, a, middle, (accuracy, depth + 1), line)?;
        self.halve(span, middle, b, (accuracy, depth + 1), line)
    }

    /// de Boor's algorithm in homogeneous coordinates (C. de Boor, J. Approx. Theory 6, 1972).
    fn at(&self, span: usize, t: f64) -> Option<DVec3> {
        let p = self.degree;
        let first = span - p;
        let mut d: Vec<(DVec3, f64)> = (0..=p)
            .map(|i| {
                let weight = self.weights.get(first + i).copied().unwrap_or(1.0);
                (self.points[first + i] * weight, weight)
            })
            .collect();
        for round in 1..=p {
            for i in (round..=p).rev() {
                let (lo, hi) = (self.knots[first + i], self.knots[first + i + p + 1 - round]);
                let share = if hi > lo { (t - lo) / (hi - lo) } else { 0.0 };
                d[i] = (d[i - 1].0.lerp(d[i].0, share), d[i - 1].1 + (d[i].1 - d[i - 1].1) * share);
            }
        }
        let (point, weight) = d[p];
        let point = point / weight;
        point.is_finite().then_some(point)
    }
}

fn distance_to_chord(p: DVec3, a: DVec3, b: DVec3) -> f64 {
    let chord = b - a;
    let share = ((p - a).dot(chord) / chord.length_squared()).clamp(0.0, 1.0);
    if share.is_finite() { p.distance(a + chord * share) } else { p.distance(a) }
}
