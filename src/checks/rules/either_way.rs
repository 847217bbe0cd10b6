//! `installed-tie`: a span may bow more than one way.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::installed::SpanNote;
use crate::model::{Mark, Source};

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "either-way",
    severity: Severity::Note,
    title: "May bow another way",
    what: "A span that is held in line, or in another way that leaves several shapes of the same \
           energy, may bow any of these ways. The one that hangs lowest is drawn; all of them are held \
           against the obstacles.",
    source: Source::fixed(Mark::Calculated, "two shapes of the same bending energy"),
};

/// One finding a run, at the first such span.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some(lay) = run.lay else { return Vec::new() };
    let mut tied = lay.installed.spans.iter().filter(|span| span.notes.contains(&SpanNote::Tie));
    let Some(first) = tied.next() else { return Vec::new() };
    let message = match tied.count() {
        0 => "A stretch of it may bow another way round".to_owned(),
        more => format!("{} stretches of it may bow another way round", more + 1),
    };
    let middle = f64::midpoint(first.from_mm, first.to_mm());
    vec![Finding {
        at_mm: Some(run.solved.drawn_at_mm(middle)),
        point: first.shape.as_ref().map(|shape| shape.point_at(first.held.length / 2.0)),
        message: format!(
            "{message}: the way that hangs lowest is shown, and all are held against the obstacles"
        ),
        hint: "Draw it with a bend to the side wanted, or set a clamp".to_owned(),
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
        assert!(found[0].message.starts_with("A stretch of it may bow"), "{}", found[0].message);
        fixture.lay.as_mut().unwrap().installed.spans[0].notes.clear();
        assert_eq!(check(&fixture.context()), []);
    }
}
