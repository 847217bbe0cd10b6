//! `installed-radius`: no installed bend below the minimum bend radius.

use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::limit::with_limit_severity;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "installed-radius",
    severity: Severity::Fail,
    title: "Installed radius below minimum",
    what: "The tightest radius of the installed shape, at the cut length with its slack and held \
           in its sockets and clamps, against the minimum bend radius, both to the centre line. \
           Slack on a short free length bends a hose that was drawn straight. A narrow miss of a \
           doubtful limit is a warning, as in bend-radius.",
    source: Source::fixed(
        Mark::Calculated,
        "shape of least bending energy for the length of each free length; minimum bend radius: \
         the hose's own table",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some(installed) = run.lay.map(|lay| &lay.installed) else { return Vec::new() };
    // Of a free length that could not be solved only the drawn radius is known: `bend-radius`.
    let is_solved =
        |span: usize| installed.spans.get(span).is_some_and(|span| span.shape.is_some());
    let Some(place) = installed.tightest.filter(|place| is_solved(place.span)) else {
        return Vec::new();
    };
    let Some(tight) = run.finding_tight(&RULE, &place) else { return Vec::new() };
    let (radius, limit) = run.figures().lengths(place.radius_mm, run.solved.radius_limit_mm);
    let finding = Finding {
        message: format!(
            "Installed radius {radius} at {} slack, minimum {limit}, centre line",
            Figures::percent(run.solved.slack_pct()),
        ),
        hint: "Try another slack, or make the free length here longer: move a clamp, turn an elbow"
            .to_owned(),
        ..tight
    };
    vec![with_limit_severity(finding, &run.solved.hose.radius_limit_source)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn slack_on_a_short_straight_span_bends_it_too_tight() {
        // Handbook §4: 5 % slack on a span S bends it to 0.379 S.
        let fixture = Fixture::straight(200.0, |bay| run(bay).slack_pct = Some(5.0));
        let found = check(&fixture.context());
        let spans = &fixture.lay.as_ref().unwrap().installed.spans;
        let (held, chord) = (spans[0].held.length, spans[0].held.from.distance(spans[0].held.to));
        // All slack goes into the one span, which is shorter than the hose: a little more than 5 %.
        assert!(held / chord > 1.05 && held / chord < 1.08);
        let share = found[0].value.unwrap() / chord;
        assert!(share < 0.379 && share > 0.311, "{share}");
    }

    #[test]
    fn a_hose_drawn_and_cut_well_holds() {
        let fixture = Fixture::straight(900.0, |bay| run(bay).slack_pct = Some(5.0));
        assert_eq!(check(&fixture.context()), []);
    }
}
