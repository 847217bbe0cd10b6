//! Shapes that are as good as the one found: images of it under what leaves the span as it is.

use glam::{DMat3, DQuat, DVec3};

use super::shape::RodShape;
use super::span::{Problem, RodSpan, across};

/// Clamps within this of a symmetry have it (rad, or share of the length).
const SYMMETRIC: f64 = 1e-6;
/// A shape that a symmetry moves by more than this (rad) is not the same shape.
const DIFFERS: f64 = 1e-3;

/// An image of a span on itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RodTwin {
    /// About the middle between the span's ends.
    linear: DMat3,
    /// Whether it swaps the ends.
    swaps: bool,
}

/// Other shapes that are as good.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Tie {
    /// None.
    #[default]
    None,
    /// Held in line, it bows any way round: every turn about `axis` (unit, through the span's start).
    AnyWayRound {
        /// The line that the clamps are on.
        axis: DVec3,
    },
    /// One to three mirror images.
    Twins([Option<RodTwin>; 3]),
}

impl Tie {
    /// Finds the ties of `shape`, which solves `span`.
    pub(super) fn find(problem: &Problem, shape: &RodShape) -> Self {
        if shape.peak_curvature == 0.0 {
            return Self::None;
        }
        if let Some(axis) = common_axis(problem) {
            return Self::AnyWayRound { axis };
        }
        let mut twins = [None; 3];
        let mut count = 0;
        let mut consider = |twin: RodTwin| {
            if count < 3 && twin.moves(shape) {
                twins[count] = Some(twin);
                count += 1;
            }
        };
        let mirror = flat(problem).map(|normal| reflection(normal));
        if let Some(linear) = mirror {
            consider(RodTwin { linear, swaps: false });
        }
        if let Some(linear) = swap(problem) {
            consider(RodTwin { linear, swaps: true });
            if let Some(mirror) = mirror {
                consider(RodTwin { linear: mirror * linear, swaps: true });
            }
        }
        if count == 0 { Self::None } else { Self::Twins(twins) }
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
        let middle = 0.5 * (span.from + span.to);
        let mut twin = shape.clone();
        for point in &mut twin.points {
            *point = middle + self.linear * (*point - middle);
        }
        let sign = if self.swaps { -1.0 } else { 1.0 };
        for tangent in &mut twin.tangents {
            *tangent = sign * (self.linear * *tangent);
        }
        twin.force = sign * (self.linear * twin.force);
        if self.swaps {
            twin.points.reverse();
            twin.tangents.reverse();
            twin.curvatures.reverse();
            twin.stations.reverse();
            for station in &mut twin.stations {
                *station = shape.length - *station;
            }
            twin.peak_at = shape.length - shape.peak_at;
        }
        twin
    }
}

impl RodShape {
    /// This shape turned by `angle` (rad) about `axis` (unit) through its start.
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
