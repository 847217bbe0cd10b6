//! From the drawn centre line to the hose on the bench: free lengths, their share of the slack, and
//! where a mark comes to lie.

use super::solution::{ClampMark, EndSolution, FreeSpan};
use crate::geom::CentreLine;
use crate::model::Run;

/// A free length in which the drawn route turns by so much takes slack before all others (contract §5).
const TAKES_SLACK_DEG: f64 = 20.0;
/// Turning angles are sums: this near to the limit counts as on it.
const EPS_DEG: f64 = 1e-9;

/// The stretches between held points, socket mouths and clamps, with the slack that each gets (contract §5).
/// A run held everywhere has none: its marks lie as if the slack were spread evenly.
pub(super) fn free_spans(
    run: &Run,
    (from, to): (&EndSolution, &EndSolution),
    clamps: &[ClampMark],
    line: &CentreLine,
    slack_mm: f64,
) -> Box<[FreeSpan]> {
    let mut spans = Spans { line, given: run.slack_mm.as_deref(), found: Vec::new(), gaps: 0 };
    let centreline_mm = line.length();
    let (mut begin_mm, mut begin) = (from.end.socket_mm.min(centreline_mm), from.mouth);
    for clamp in clamps {
        let reach = clamp.half_grip_mm * clamp.along;
        let (left, right) = (clamp.at_mm - clamp.half_grip_mm, clamp.at_mm + clamp.half_grip_mm);
        spans.push((begin_mm, left), begin.distance(clamp.point - reach));
        (begin_mm, begin) = (right.max(begin_mm), clamp.point + reach);
    }
    spans.push((begin_mm, centreline_mm - to.end.socket_mm), begin.distance(to.mouth));
    spans.shared(slack_mm).into()
}

struct Spans<'a> {
    line: &'a CentreLine,
    /// Slack by free length, those without length among them.
    given: Option<&'a [f64]>,
    found: Vec<FreeSpan>,
    gaps: usize,
}

impl Spans<'_> {
    fn push(&mut self, (from_mm, to_mm): (f64, f64), chord_mm: f64) {
        let place = self.gaps;
        let given = self.given.and_then(|given| given.get(place));
        self.gaps += 1;
        if to_mm > from_mm {
            let turn_deg = turn_deg(self.line, from_mm, to_mm);
            let slack_mm = given.copied().unwrap_or_default();
            self.found.push(FreeSpan {
                place,
                from_mm,
                to_mm,
                chord_mm,
                turn_deg,
                slack_mm,
                share: 0.0,
            });
        }
    }

    /// With what is left of the slack shared out: all of it where none was given by free length, else
    /// what was given to one that has no length.
    fn shared(mut self, slack_mm: f64) -> Vec<FreeSpan> {
        let takes = |span: &FreeSpan| span.turn_deg >= TAKES_SLACK_DEG - EPS_DEG;
        let any = self.found.iter().any(takes);
        let takes = |span: &FreeSpan| !any || takes(span);
        let length = |spans: &[FreeSpan]| -> f64 {
            spans.iter().filter(|span| takes(span)).map(FreeSpan::length_mm).sum()
        };
        let whole = length(&self.found);
        let given: f64 = self.found.iter().map(|span| span.slack_mm).sum();
        for span in self.found.iter_mut().filter(|span| takes(span)) {
            span.share = span.length_mm() / whole;
            span.slack_mm += (slack_mm - given) * span.share;
        }
        if self.given.is_some() && slack_mm > 0.0 {
            for span in &mut self.found {
                span.share = span.slack_mm / slack_mm;
            }
        }
        self.found
    }
}

/// By how much the drawn route turns between two places along it.
fn turn_deg(line: &CentreLine, from_mm: f64, to_mm: f64) -> f64 {
    let within = line.turns().map(|turn| {
        let half = turn.radius * turn.angle / 2.0;
        let (begin, end) = ((turn.at - half).max(from_mm), (turn.at + half).min(to_mm));
        let share = if half > 0.0 {
            (end - begin) / (2.0 * half)
        } else {
            f64::from(u8::from(end >= begin))
        };
        turn.angle * share.clamp(0.0, 1.0)
    });
    within.sum::<f64>().to_degrees()
}
