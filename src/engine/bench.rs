//! From the drawn centre line to the hose on the bench: free spans, their share of the slack, and
//! where a mark comes to lie.

use super::solution::{ClampMark, EndSolution, FreeSpan, RunSolution};

/// The stretches between held points: socket mouths and clamps. The slack goes to them in
/// proportion to their drawn length (contract §5); a run held everywhere puts it in evenly by
/// having no span, and its marks stay where they are drawn.
pub(super) fn free_spans(
    from: &EndSolution,
    to: &EndSolution,
    clamps: &[ClampMark],
    centreline_mm: f64,
    slack_mm: f64,
) -> Box<[FreeSpan]> {
    let mut spans = Vec::with_capacity(clamps.len() + 1);
    let (mut begin_mm, mut begin) = (from.end.socket_mm.min(centreline_mm), from.mouth);
    for clamp in clamps {
        let reach = clamp.half_grip_mm * clamp.along;
        let (left, right) = (clamp.at_mm - clamp.half_grip_mm, clamp.at_mm + clamp.half_grip_mm);
        push(&mut spans, (begin_mm, left), begin.distance(clamp.point - reach));
        (begin_mm, begin) = (right.max(begin_mm), clamp.point + reach);
    }
    push(&mut spans, (begin_mm, centreline_mm - to.end.socket_mm), begin.distance(to.mouth));
    let free: f64 = spans.iter().map(FreeSpan::length_mm).sum();
    for span in &mut spans {
        span.slack_mm = if free > 0.0 { slack_mm * span.length_mm() / free } else { 0.0 };
    }
    spans.into()
}

fn push(spans: &mut Vec<FreeSpan>, (from_mm, to_mm): (f64, f64), chord_mm: f64) {
    if to_mm > from_mm {
        spans.push(FreeSpan { from_mm, to_mm, chord_mm, slack_mm: 0.0 });
    }
}

/// Where a place on the drawn centre line comes to lie on the cut hose, from cut end A.
pub(super) fn on_bench_mm(run: &RunSolution, at_mm: f64) -> f64 {
    if run.spans.is_empty() {
        let share = if run.centreline_mm > 0.0 { at_mm / run.centreline_mm } else { 0.0 };
        return at_mm + run.slack_mm * share;
    }
    let gained: f64 = run
        .spans
        .iter()
        .map(|span| {
            let share = (at_mm - span.from_mm) / span.length_mm();
            span.slack_mm * share.clamp(0.0, 1.0)
        })
        .sum();
    at_mm + gained
}

/// The other way round: what place of the drawn centre line lies at `bench_mm` from cut end A.
pub(super) fn drawn_at_mm(run: &RunSolution, bench_mm: f64) -> f64 {
    if run.spans.is_empty() {
        let grown = if run.centreline_mm > 0.0 { run.slack_mm / run.centreline_mm } else { 0.0 };
        return bench_mm / (1.0 + grown);
    }
    let mut gained = 0.0;
    for span in &run.spans {
        let along = bench_mm - (span.from_mm + gained);
        let length = span.length_mm() + span.slack_mm;
        if along <= 0.0 {
            break;
        }
        if along < length {
            return span.from_mm + along * span.length_mm() / length;
        }
        gained += span.slack_mm;
    }
    bench_mm - gained
}
