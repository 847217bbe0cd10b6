//! Shapes that are as good as the one found: images of it under what leaves the span as it is.

use glam::{DMat3, DQuat, DVec3};

use super::shape::{RodShape, RodTwin, Tie};
use super::span::{Problem, RodSpan, across, unit};

/// Clamps within this of a symmetry have it (rad, or share of the length).
const SYMMETRIC: f64 = 1e-6;
/// A shape that a symmetry moves by more than this (rad) is not the same shape.
const DIFFERS: f64 = 1e-3;

/// A route that is off the mirror by this share of its length is drawn to one side.
const DRAWN_OFF: f64 = 2e-3;

impl Tie {
    /// Finds the ties of `shape`, which solves `span`.
    pub(super) fn find(problem: &Problem, shape: &RodShape) -> Self {
        if shape.peak_curvature == 0.0 {
            return Self::None;
        }
        if let Some(axis) = common_axis(problem) {
            return Self::AnyWayRound { axis };
        }
        let mirror = flat(problem).map(|normal| RodTwin::new(reflection(normal), false));
        let swap = swap(problem).map(|linear| RodTwin::new(linear, true));
        let both = mirror.zip(swap).map(|(m, s)| RodTwin::new(m.linear * s.linear, true));
        let moving = |twin: Option<RodTwin>| twin.filter(|twin| twin.moves(shape));
        let twins = match (moving(mirror), moving(swap), moving(both)) {
            (None, None, None) => return Self::None,
            (Some(a), Some(b), Some(c)) => [Some(a), Some(b), Some(c)],
            // What one of the three leaves as it is, the other two move to the same place.
            (a, b, c) => [a.or(b).or(c), None, None],
        };
        Self::Twins(twins)
    }
}

/// The direction of the line that both clamps and both ends are on.
fn common_axis(problem: &Problem) -> Option<DVec3> {
    let axis = problem.t0;
    let on = problem.t1.cross(axis).length() < SYMMETRIC
        && problem.chord.cross(axis).length() < SYMMETRIC;
    on.then_some(axis)
}

/// The normal of the plane that clamps and ends are in.
fn flat(problem: &Problem) -> Option<DVec3> {
    let crosses = [
        problem.t0.cross(problem.t1),
        problem.t0.cross(problem.chord),
        problem.t1.cross(problem.chord),
    ];
    let normal = crosses
        .into_iter()
        .max_by(|a, b| a.length_squared().total_cmp(&b.length_squared()))?
        .try_normalize()?;
    let out = [problem.t0, problem.t1, problem.chord].map(|v| v.dot(normal).abs());
    out.iter().all(|d| *d < SYMMETRIC).then_some(normal)
}

/// A turn or reflection that swaps the ends.
fn swap(problem: &Problem) -> Option<DMat3> {
    let fits = |linear: &DMat3| {
        (*linear * problem.chord + problem.chord).length() < SYMMETRIC
            && (*linear * problem.t0 + problem.t1).length() < SYMMETRIC
    };
    let chord = problem.chord.try_normalize()?;
    let difference = problem.t0 - problem.t1;
    let axis = if difference.length() > SYMMETRIC {
        difference.normalize()
    } else {
        problem.chord.cross(problem.t0).try_normalize()?
    };
    let half_turn = -reflection(axis);
    [half_turn, reflection(chord)].into_iter().find(fits)
}

fn reflection(normal: DVec3) -> DMat3 {
    DMat3::IDENTITY - 2.0 * outer(normal)
}

fn outer(v: DVec3) -> DMat3 {
    DMat3::from_cols(v * v.x, v * v.y, v * v.z)
}

impl RodTwin {
    fn new(linear: DMat3, swaps: bool) -> Self {
        Self { linear, swaps }
    }

    fn moves(&self, shape: &RodShape) -> bool {
        let count = 16;
        (1..count).any(|i| {
            let share = f64::from(i) / f64::from(count);
            let own = shape.tangent_at_share(share);
            let image = if self.swaps {
                -(self.linear * shape.tangent_at_share(1.0 - share))
            } else {
                self.linear * own
            };
            image.distance(own) > DIFFERS
        })
    }

    /// The image of `shape`, which solves `span`.
    pub fn image(&self, span: &RodSpan, shape: &RodShape) -> RodShape {
        let mut twin = shape.clone();
        self.apply(span, &mut twin);
        twin
    }

    fn apply(&self, span: &RodSpan, shape: &mut RodShape) {
        let middle = 0.5 * (span.from + span.to);
        for point in &mut shape.points {
            *point = middle + self.linear * (*point - middle);
        }
        let sign = if self.swaps { -1.0 } else { 1.0 };
        for tangent in &mut shape.tangents {
            *tangent = sign * (self.linear * *tangent);
        }
        shape.force = sign * (self.linear * shape.force);
        if self.swaps {
            shape.points.reverse();
            shape.tangents.reverse();
            shape.curvatures.reverse();
            shape.stations.reverse();
            for station in &mut shape.stations {
                *station = shape.length - *station;
            }
            shape.peak_at = shape.length - shape.peak_at;
        }
        // The span need not be quite as symmetric as its shape is taken to be.
        let last = shape.points.len().saturating_sub(1);
        if let (Some(t0), Some(t1)) = (unit(span.from_direction), unit(span.to_direction)) {
            shape.tangents[0] = t0;
            shape.tangents[last] = t1;
        }
        let off = span.from - shape.points[0];
        for point in &mut shape.points {
            *point += off;
        }
        shape.points[0] = span.from;
        shape.close(span.to);
    }
}

impl RodShape {
    /// Takes the twin that leans farthest to `side`; where all lean alike, the one reached stays.
    pub(super) fn lean_towards(
        &mut self,
        span: &RodSpan,
        twins: &[Option<RodTwin>; 3],
        side: DVec3,
    ) {
        let middle = 0.5 * (span.from + span.to);
        let mean = self.centroid() - middle;
        let lean = |linear: &DMat3| side.dot(*linear * mean);
        let reach = |linear: &DMat3| {
            let along = linear.transpose() * side;
            self.points.iter().map(|p| along.dot(*p - middle)).fold(f64::NEG_INFINITY, f64::max)
        };
        // The mean first; where that is the same for all, the farthest point.
        let measure = |linear: &DMat3| lean(linear) + 1e-3 * reach(linear);
        let own = measure(&DMat3::IDENTITY);
        let best =
            twins.iter().flatten().max_by(|a, b| measure(&a.linear).total_cmp(&measure(&b.linear)));
        if let Some(twin) = best.filter(|twin| measure(&twin.linear) > own + 1e-9 * self.length) {
            twin.apply(span, self);
        }
    }

    /// Takes the twin on the side of the mirror on which the `route` was drawn. False where the
    /// route lies in the mirror, or no mirror is among the twins.
    pub(super) fn lean_as(
        &mut self,
        span: &RodSpan,
        twins: &[Option<RodTwin>; 3],
        route: &[DVec3],
    ) -> bool {
        let Some(mirror) = twins.iter().flatten().find(|twin| !twin.swaps) else { return false };
        let middle = 0.5 * (span.from + span.to);
        let off = |v: DVec3| v - mirror.linear * v;
        let own = off(self.centroid() - middle);
        let drawn = off(mean_place(route));
        if drawn.length() < DRAWN_OFF || own.length() < DRAWN_OFF * self.length {
            return false;
        }
        if own.dot(drawn) < 0.0 {
            mirror.apply(span, self);
        }
        true
    }

    /// This shape turned by `angle` (rad) about `axis` (unit) through its start.
    #[must_use]
    pub fn turned(&self, axis: DVec3, angle: f64) -> Self {
        let mut turned = self.clone();
        turned.turn(DQuat::from_axis_angle(axis, angle));
        turned
    }

    fn turn(&mut self, rotation: DQuat) {
        let Some(start) = self.points.first().copied() else { return };
        let inner = 1..self.points.len() - 1;
        for point in &mut self.points[inner.clone()] {
            *point = start + rotation * (*point - start);
        }
        for tangent in &mut self.tangents[inner] {
            *tangent = rotation * *tangent;
        }
        self.force = rotation * self.force;
    }

    /// Turns a shape that may bow any way round so that it bows towards `side`; left as it is where
    /// `side` is along the line.
    pub(super) fn turn_towards(&mut self, axis: DVec3, side: DVec3) {
        if side.cross(axis).length() < SYMMETRIC * side.length() {
            return;
        }
        let start = self.points[0];
        let aside = |v: DVec3| v - axis * axis.dot(v);
        let mean = aside(self.centroid() - start);
        // A shape as far to one side as to the other is turned by its farthest point.
        let far = self.points.iter().map(|p| aside(*p - start));
        let far = far.max_by(|a, b| a.length_squared().total_cmp(&b.length_squared()));
        let far = far.unwrap_or(DVec3::ZERO);
        let now = if mean.length() > 0.05 * far.length() { mean } else { far };
        if now.length() <= 0.0 {
            return;
        }
        let wanted = across(side, axis);
        let angle = axis.dot(now.cross(wanted)).atan2(now.dot(wanted));
        self.turn(DQuat::from_axis_angle(axis, angle));
    }
}

/// The mean place of a route of length 1, from its start, by its tangents at equal shares.
fn mean_place(route: &[DVec3]) -> DVec3 {
    let pieces = route.len().saturating_sub(1).max(1) as f64;
    let (mut place, mut sum) = (DVec3::ZERO, DVec3::ZERO);
    for pair in route.windows(2) {
        let way = 0.5 * (pair[0].normalize_or_zero() + pair[1].normalize_or_zero()) / pieces;
        sum += (place + 0.5 * way) / pieces;
        place += way;
    }
    sum
}
