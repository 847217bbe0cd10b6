//! `either-way`: a free length that can bow either way.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::installed::SpanNote;
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "either-way",
    severity: Severity::Note,
    title: "Can bow either way",
    what: "A free length held in line, or held so that several shapes have the same energy, can \
           bow either way. The shape that hangs lowest is shown; all are checked against \
           obstacles.",
    source: Source::fixed(Mark::Calculated, "two shapes of the same bending energy"),
};

/// One finding a run, at the first such free length.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some(lay) = run.lay else { return Vec::new() };
    let mut tied = lay.installed.spans.iter().filter(|span| span.notes.contains(&SpanNote::Tie));
    let Some(first) = tied.next() else { return Vec::new() };
    let message = match tied.count() {
        0 => "Can bow either way".to_owned(),
        more => format!("{} free lengths can bow either way", more + 1),
    };
    let middle = f64::midpoint(first.from_mm, first.to_mm());
    vec![Finding {
        at_mm: Some(run.solved.drawn_at_mm(middle)),
        point: first.shape.as_ref().map(|shape| shape.point_at(first.held.length / 2.0)),
        message: format!("{message}: lowest shape shown, all shapes checked against obstacles"),
        hint: "Draw a bend to the side that you want, or set a clamp".to_owned(),
        ..run.finding(&RULE)
    }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn a_span_held_in_line_says_so_and_one_without_ties_does_not() {
        let mut fixture = Fixture::straight(600.0, |bay| run(bay).slack_pct = Some(5.0));
        let found = check(&fixture.context());
        assert_eq!(found.len(), 1);
        assert!(found[0].message.starts_with("Can bow either way: lowest"), "{}", found[0].message);
        fixture.lay.as_mut().unwrap().installed.spans[0].notes.clear();
        assert_eq!(check(&fixture.context()), []);
    }
}
