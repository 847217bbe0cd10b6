//! Parts of an outline, and where straights and circles meet.

use glam::DVec2;

use super::{Corner, SAME_MM};

/// A straight or an arc, what is inside to its left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Part {
    Line {
        from: DVec2,
        to: DVec2,
    },
    /// From one angle up to another.
    Arc {
        middle: DVec2,
        radius: f64,
        from: f64,
        to: f64,
    },
}

impl Part {
    pub(super) fn middle(&self) -> DVec2 {
        match *self {
            Self::Line { from, to } => from.midpoint(to),
            Self::Arc { middle, radius, from, to } => {
                middle + DVec2::from_angle(f64::midpoint(from, to)) * radius
            }
        }
    }

    pub(super) fn ends(&self) -> [DVec2; 2] {
        match *self {
            Self::Line { from, to } => [from, to],
            Self::Arc { middle, radius, from, to } => {
                [from, to].map(|angle| middle + DVec2::from_angle(angle) * radius)
            }
        }
    }

    pub(super) fn start(&self) -> Corner {
        let bulge = match *self {
            Self::Line { .. } => 0.0,
            Self::Arc { from, to, .. } => ((to - from) / 4.0).tan(),
        };
        Corner { at: self.ends()[0], bulge }
    }
}

/// Shares of a straight at which another crosses it, or begins or ends on it.
pub(super) fn line_line([a, b]: [DVec2; 2], [p, q]: [DVec2; 2], cuts: &mut Vec<f64>) {
    let (way, other) = (b - a, q - p);
    let length = way.length_squared();
    if length == 0.0 {
        return;
    }
    let cross = way.perp_dot(other);
    // Side by side: only ends that lie on it matter.
    if cross * cross > 1e-24 * length * other.length_squared() {
        let (t, u) = ((p - a).perp_dot(other) / cross, (p - a).perp_dot(way) / cross);
        if is_share(t, way.length()) && is_share(u, other.length()) {
            cuts.push(t.clamp(0.0, 1.0));
        }
    }
    for end in [p, q] {
        let t = (end - a).dot(way) / length;
        if (0.0..=1.0).contains(&t) && end.distance(a + way * t) <= SAME_MM {
            cuts.push(t);
        }
    }
}

fn is_share(t: f64, length: f64) -> bool {
    let hair = SAME_MM / length.max(SAME_MM);
    (-hair..=1.0 + hair).contains(&t)
}

/// Where a circle crosses a straight, or touches it: shares of the straight.
fn shares([a, b]: [DVec2; 2], middle: DVec2, radius: f64) -> Vec<f64> {
    let way = b - a;
    let length = way.length_squared();
    if length == 0.0 {
        return Vec::new();
    }
    let foot = (middle - a).dot(way) / length;
    let away = middle.distance(a + way * foot);
    if away > radius + SAME_MM {
        return Vec::new();
    }
    let half = (radius * radius - away * away).max(0.0).sqrt() / length.sqrt();
    let mut found = vec![foot - half, foot + half];
    if radius - away <= SAME_MM {
        found.push(foot);
    }
    found.retain(|t| is_share(*t, length.sqrt()));
    found
}

pub(super) fn line_circle(line: [DVec2; 2], middle: DVec2, radius: f64, cuts: &mut Vec<f64>) {
    cuts.extend(shares(line, middle, radius).into_iter().map(|t| t.clamp(0.0, 1.0)));
}

/// Angles of a circle at which a straight crosses it, touches it, begins or ends on it.
pub(super) fn circle_line(middle: DVec2, radius: f64, line: [DVec2; 2], cuts: &mut Vec<f64>) {
    let [a, b] = line;
    cuts.extend(
        shares(line, middle, radius).into_iter().map(|t| (a.lerp(b, t) - middle).to_angle()),
    );
    for end in line {
        if (end.distance(middle) - radius).abs() <= SAME_MM {
            cuts.push((end - middle).to_angle());
        }
    }
}

/// Angles of a circle at which another of its size crosses it.
pub(super) fn circle_circle(middle: DVec2, other: DVec2, radius: f64, cuts: &mut Vec<f64>) {
    let way = other - middle;
    let apart = way.length();
    if apart == 0.0 || apart > 2.0 * radius {
        return;
    }
    let half = (apart / (2.0 * radius)).clamp(-1.0, 1.0).acos();
    let angle = way.to_angle();
    cuts.extend([angle - half, angle + half]);
}
