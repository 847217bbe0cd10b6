//! The polyline of a route: points and the straight stretches between them.

use glam::DVec3;

/// A straight stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Unit vector.
    pub direction: DVec3,
    /// Length, not negative.
    pub length: f64,
}

/// Points and stretches; stretch `i` goes from point `i` to point `i + 1`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Polyline {
    /// At least one.
    pub points: Vec<DVec3>,
    /// One fewer.
    pub stretches: Vec<Stretch>,
}

impl Polyline {
    /// A polyline through `points`. `known(i)` gives the unit direction of stretch `i` where it is
    /// known by itself (along an end's axis, through a clamp): so a stretch of no length has one
    /// too. A stretch of no length without takes the direction of the one before it, the first
    /// one +X.
    pub fn new(points: Vec<DVec3>, known: impl Fn(usize) -> Option<DVec3>) -> Self {
        let mut line = Self { points, stretches: Vec::new() };
        line.measure(known);
        line
    }

    /// The same line through other points; what was in it is gone.
    pub fn refill(&mut self, points: &[DVec3], known: impl Fn(usize) -> Option<DVec3>) {
        self.points.clear();
        self.points.extend_from_slice(points);
        self.measure(known);
    }

    fn measure(&mut self, known: impl Fn(usize) -> Option<DVec3>) {
        let mut before = DVec3::X;
        self.stretches.clear();
        self.stretches.extend(self.points.windows(2).enumerate().map(|(i, pair)| {
            let step = pair[1] - pair[0];
            let length = step.length();
            let direction = known(i).unwrap_or(if length > 0.0 { step / length } else { before });
            before = direction;
            Stretch { direction, length }
        }));
    }

    /// Sum of the stretches.
    pub fn length(&self) -> f64 {
        self.stretches.iter().map(|s| s.length).sum()
    }
}
