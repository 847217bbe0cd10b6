//! A whole cut length: along a line, the place where the hose comes out at a whole step.

use std::cell::Cell;

use glam::DVec2;

use super::cause::Cause;
use super::offer::{Key, Kind};
use super::{MOST_TRIALS, RELEASE, SnapRequest};
use crate::units::{Length, LengthUnit};

/// Whole lengths come often: they catch close by, points.
pub(super) const PULL: f64 = 4.0;
/// Steps stand no closer than this where the length changes as fast as the pointer moves, points.
const LEAST_STEP: f64 = 16.0;
/// A pointer that moved less has no direction yet, points.
const LEAST_MOVE: f64 = 2.0;
/// A length is whole within this, mm: finer than the tolerance of the bench.
const WHOLE_MM: f64 = 1e-8;
/// Steps that a builder would cut to.
const MM: [f64; 5] = [5.0, 10.0, 20.0, 50.0, 100.0];
const INCHES: [f64; 5] = [0.5, 1.0, 2.0, 6.0, 12.0];

/// The step of cut lengths at this zoom; none where it is looked at from too far away.
fn step_mm(points_per_mm: f64, unit: LengthUnit) -> Option<f64> {
    let (steps, mm) = match unit {
        LengthUnit::Mm => (MM, 1.0),
        LengthUnit::Inch => (INCHES, 25.4),
    };
    steps.into_iter().map(|step| step * mm).find(|step| step * points_per_mm >= LEAST_STEP)
}

/// On the straight way that the pointer took, near where it is.
pub(super) fn on_the_way(request: &SnapRequest<'_>, wanted: DVec2) -> Option<(DVec2, Key)> {
    let way = wanted - request.set_out?;
    let far_enough = way.length() * request.points_per_mm >= LEAST_MOVE;
    let (at, steps) = far_enough.then(|| near(request, wanted, way.normalize_or_zero()))??;
    Some((at, Key::CutLength { steps, on_the_way: true }))
}

/// On the line through `at` along the unit vector `direction`, near `at`.
pub(super) fn along(
    request: &SnapRequest<'_>,
    at: DVec2,
    direction: DVec2,
) -> Option<(DVec2, Key)> {
    let (at, steps) = near(request, at, direction)?;
    Some((at, Key::CutLength { steps, on_the_way: false }))
}

fn near(request: &SnapRequest<'_>, at: DVec2, direction: DVec2) -> Option<(DVec2, i64)> {
    let length = request.cut_length?;
    let step = step_mm(request.points_per_mm, request.unit)?;
    let place = |t: f64| at + direction * t;
    let asked = Cell::new(0);
    let off = |t: f64| {
        asked.set(asked.get() + 1);
        // Half of them for the way the pointer took, half for the line it is on.
        if asked.get() > MOST_TRIALS / 2 {
            return None;
        }
        length(request.plane().point(place(t))).filter(|mm| mm.is_finite())
    };
    let (t, steps) = nearest_whole(&off, request.mm(PULL + RELEASE), step)?;
    Some((place(t), steps))
}

/// A place on the line and the length there.
type Sample = (f64, f64);

/// The place nearest to 0 within `reach` where `length` is a whole number of steps, and which.
fn nearest_whole(length: &dyn Fn(f64) -> Option<f64>, reach: f64, step: f64) -> Option<(f64, i64)> {
    let here = (0.0, length(0.0)?);
    let whole = (here.1 / step).round();
    if (here.1 - whole * step).abs() <= WHOLE_MM {
        return Some((0.0, whole as i64));
    }
    let mut found: Option<(f64, i64)> = None;
    for side in [1.0, -1.0] {
        let mut near = here;
        for share in [0.5, 1.0] {
            let t = side * share * reach;
            let Some(mm) = length(t) else { break };
            let far = (t, mm);
            if let Some((t, steps)) = between(length, near, far, step) {
                if found.is_none_or(|(other, _)| t.abs() < other.abs()) {
                    found = Some((t, steps));
                }
                break;
            }
            near = far;
        }
    }
    found
}

/// The place nearest to `near` between two samples.
fn between(
    length: &dyn Fn(f64) -> Option<f64>,
    near: Sample,
    far: Sample,
    step: f64,
) -> Option<(f64, i64)> {
    let grows = far.1 > near.1;
    let steps = if grows { (near.1 / step).ceil() } else { (near.1 / step).floor() };
    let target = steps * step;
    let inside = if grows { target <= far.1 } else { target >= far.1 };
    if !inside {
        return None;
    }
    let t = root(length, (near.0, near.1 - target), (far.0, far.1 - target), target)?;
    Some((t, steps as i64))
}

/// Where the length is `target`, between two places of which one is shorter and one longer: by the rule
/// of false position, halving the weight of the end that stays (the Illinois rule, common practice).
fn root(
    length: &dyn Fn(f64) -> Option<f64>,
    mut a: Sample,
    mut b: Sample,
    target: f64,
) -> Option<f64> {
    loop {
        for end in [a, b] {
            if end.1.abs() <= WHOLE_MM {
                return Some(end.0);
            }
        }
        let t = (a.0 * b.1 - b.0 * a.1) / (b.1 - a.1);
        let between = (t - a.0) * (t - b.0) < 0.0;
        let t = if between { t } else { f64::midpoint(a.0, b.0) };
        let off = length(t)? - target;
        if off.abs() <= WHOLE_MM {
            return Some(t);
        }
        if off * b.1 < 0.0 {
            a = b;
        } else {
            a.1 /= 2.0;
        }
        b = (t, off);
    }
}

pub(super) fn cause(request: &SnapRequest<'_>, key: Key) -> Option<Cause> {
    let Key::CutLength { steps, .. } = key else { return None };
    let step = step_mm(request.points_per_mm, request.unit)?;
    Some(Cause {
        kind: Kind::CutLength,
        words: format!("cut {}", Length::from_mm(steps as f64 * step).show(request.unit)),
        guides: Vec::new(),
        target: None,
        key,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn whole(
        length: impl Fn(f64) -> Option<f64>,
        reach: f64,
        step: f64,
    ) -> (Option<(f64, i64)>, u32) {
        let asked = Cell::new(0);
        let counted = |t: f64| {
            asked.set(asked.get() + 1);
            length(t)
        };
        let found = nearest_whole(&counted, reach, step);
        (found, asked.get())
    }

    #[test]
    fn it_finds_the_nearest_place_in_few_trials() {
        // Distance to a point 30 beside the line, from 40 before its foot: 50, and 54 a little further back.
        let length = |t: f64| Some((t - 40.0).hypot(30.0));
        let (found, asked) = whole(length, 8.0, 2.0);
        assert_eq!(found, Some((0.0, 25)), "it stands on a whole step");
        assert_eq!(asked, 1);
        let (found, asked) = whole(|t| length(t + 0.3), 8.0, 2.0);
        let (t, steps) = found.unwrap();
        assert!((t + 0.3).abs() < 1e-6 && steps == 25, "{t}");
        assert!(asked <= 15, "{asked}");
    }

    #[test]
    fn nothing_within_reach_nothing_found() {
        assert_eq!(whole(|t| Some(53.0 + t / 100.0), 8.0, 10.0).0, None);
        assert_eq!(whole(|_| None, 8.0, 10.0).0, None);
    }

    #[test]
    fn steps_follow_the_zoom() {
        assert_eq!(step_mm(4.0, LengthUnit::Mm), Some(5.0));
        assert_eq!(step_mm(2.0, LengthUnit::Mm), Some(10.0));
        assert_eq!(step_mm(2.0, LengthUnit::Inch), Some(12.7));
        assert_eq!(step_mm(0.7, LengthUnit::Inch), Some(25.4));
        assert_eq!(step_mm(0.01, LengthUnit::Mm), None);
    }
}
