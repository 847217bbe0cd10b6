//! `lie-tie`: a span may bow more than one way.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::lie::SpanNote;
use crate::model::{Mark, Source};

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "lie-tie",
    severity: Severity::Note,
    title: "May bow another way",
    what: "A span that is held in line, or in another way that leaves several shapes of the same \
           energy, may bow any of these ways. The one that hangs lowest is drawn; all of them are held \
           against the solids.",
    source: Source::fixed(Mark::Calculated, "two shapes of the same bending energy"),
};

/// One finding for each such span.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some(lay) = run.lay else { return Vec::new() };
    let tied = lay.lie.spans.iter().filter(|span| span.notes.contains(&SpanNote::Tie));
    tied.map(|span| {
        let middle = f64::midpoint(span.from_mm, span.to_mm());
        let mut points = span.shape.iter().map(|shape| shape.point_at(span.held.length / 2.0));
        Finding {
            at_mm: Some(run.solved.drawn_at_mm(middle)),
            point: points.next(),
            message:
                "This stretch may bow another way round: the one that hangs lowest is shown, and \
                      all are held against the solids"
                    .to_owned(),
            hint: "Draw it with a bend to the side wanted, or set a clamp".to_owned(),
            ..run.finding(&RULE)
        }
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn a_span_held_in_line_says_so_and_a_drawn_bend_does_not() {
        let straight = Fixture::straight(600.0, |bay| run(bay).slack_pct = Some(5.0));
        assert_eq!(check(&straight.context()).len(), 1);
        assert_eq!(check(&Fixture::z().context()), []);
    }
}
