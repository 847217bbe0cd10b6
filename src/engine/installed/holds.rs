//! What holds the hose: end fittings and clamps, where they stand in a position.

use glam::DVec3;

use crate::engine::RunSolution;
use crate::geom::rod::RodSpan;

/// An end fitting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndHold {
    /// Where the hose was cut, `E`.
    pub exit: DVec3,
    /// The way the hose leaves, unit.
    pub direction: DVec3,
}

/// A clamp.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClampHold {
    /// Its middle.
    pub point: DVec3,
    /// Through it from A to B, unit.
    pub along: DVec3,
}

/// All that holds a run, in one position.
#[derive(Debug, Clone, PartialEq)]
pub struct Holds {
    /// End A.
    pub from: EndHold,
    /// End B.
    pub to: EndHold,
    /// The clamps, in the order of [`RunSolution::clamps`].
    pub clamps: Vec<ClampHold>,
}

impl Holds {
    /// The position as drawn: as drawn.
    pub fn as_drawn(run: &RunSolution) -> Self {
        let end = |frame: &crate::geom::EndFrame| EndHold {
            exit: frame.exit,
            direction: frame.direction,
        };
        let clamps = run.clamps.iter();
        Self {
            from: end(&run.from.frame),
            to: end(&run.to.frame),
            clamps: clamps.map(|c| ClampHold { point: c.point, along: c.along }).collect(),
        }
    }
}

/// A grip: straight hose from one place to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Grip {
    pub(super) start: DVec3,
    pub(super) along: DVec3,
    pub(super) length_mm: f64,
}

impl Grip {
    pub(super) fn end(&self) -> DVec3 {
        self.start + self.along * self.length_mm
    }
}

/// The way from one grip to the next, as drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Gap {
    /// On the drawn centre line.
    pub(super) from_mm: f64,
    pub(super) to_mm: f64,
}

impl Gap {
    fn length_mm(&self) -> f64 {
        self.to_mm - self.from_mm
    }
}

/// Grips in order, and the gaps between them: one more grip than gaps. A gap of no length is where
/// two grips meet or overlap.
pub(super) fn grips_and_gaps(run: &RunSolution, holds: &Holds) -> (Vec<Grip>, Vec<Gap>) {
    let (a, b) = (run.from.end.socket_mm, run.to.end.socket_mm);
    let mut grips = Vec::with_capacity(run.clamps.len() + 2);
    let mut gaps = Vec::with_capacity(run.clamps.len() + 1);
    grips.push(Grip { start: holds.from.exit, along: holds.from.direction, length_mm: a });
    let mut from_mm = a.min(run.centreline_mm);
    for (mark, hold) in run.clamps.iter().zip(&holds.clamps) {
        let half = mark.half_grip_mm;
        gaps.push(Gap { from_mm, to_mm: mark.at_mm - half });
        from_mm = (mark.at_mm + half).max(from_mm);
        let start = hold.point - half * hold.along;
        grips.push(Grip { start, along: hold.along, length_mm: 2.0 * half });
    }
    gaps.push(Gap { from_mm, to_mm: run.centreline_mm - b });
    let mouth = holds.to.exit + b * holds.to.direction;
    grips.push(Grip { start: mouth, along: -holds.to.direction, length_mm: b });
    (grips, gaps)
}

/// The free lengths at a cut length, one for each gap; none for a gap of no length. Each has its drawn
/// length, its slack, and its share of what the hose is longer than the run's own cut length.
pub(super) fn spans(
    run: &RunSolution,
    cut_length_mm: f64,
    grips: &[Grip],
    gaps: &[Gap],
) -> Vec<Option<RodSpan>> {
    let longer_mm = cut_length_mm - run.cut_length_mm;
    let mut free = run.spans.iter();
    let held = grips.windows(2).zip(gaps).map(|(pair, gap)| {
        let [from, to] = [pair[0], pair[1]];
        let span = (gap.length_mm() > 0.0).then(|| free.next()).flatten()?;
        Some(RodSpan {
            from: from.end(),
            from_direction: from.along,
            to: to.start,
            to_direction: to.along,
            length: span.hose_mm(longer_mm),
        })
    });
    held.collect()
}

/// The free lengths at a cut length, unsolved.
pub(in crate::engine) fn held_spans(
    run: &RunSolution,
    cut_length_mm: f64,
    holds: &Holds,
) -> Vec<RodSpan> {
    let (grips, gaps) = grips_and_gaps(run, holds);
    spans(run, cut_length_mm, &grips, &gaps).into_iter().flatten().collect()
}
