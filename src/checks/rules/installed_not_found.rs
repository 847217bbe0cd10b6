//! `installed-not-found`: an installed shape that could not be calculated.

use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::installed::SpanNote;
use crate::geom::rod::RodError;
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "installed-not-found",
    severity: Severity::Warn,
    title: "Installed shape not found",
    what: "A free length whose shape could not be calculated: too short for its ends, on the \
           point of snapping over, or no stable shape found. The drawn route stands in for it. A \
           shape with an estimated error above 0.5 % of the radius or 0.2 % of the energy is a \
           note.",
    source: Source::fixed(Mark::Calculated, "no shape in stable balance"),
};

/// One finding for each such span.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some(lay) = run.lay else { return Vec::new() };
    let mut found = Vec::new();
    for span in &lay.installed.spans {
        for note in &span.notes {
            let (severity, message, hint) = match note {
                SpanNote::NotSolved(why) => not_solved(run, *why),
                SpanNote::Inexact(share) => (
                    Severity::Note,
                    format!("Installed shape accurate to {} only", Figures::percent(share * 100.0)),
                    "Keep that much more than each limit".to_owned(),
                ),
                _ => continue,
            };
            let middle = f64::midpoint(span.drawn_from_mm, span.drawn_to_mm);
            found.push(Finding { severity, message, hint, ..run.finding_at(&RULE, middle) });
        }
    }
    found
}

fn not_solved(run: &RunContext<'_>, why: RodError) -> (Severity, String, String) {
    let figures = run.figures();
    let sure = "Change the slack, or set a clamp so that the shape is certain";
    let (message, hint) = match why {
        RodError::TooShort { length_mm, chord_mm } => {
            let (length, chord) = figures.lengths(length_mm, chord_mm);
            (
                format!(
                    "Pulled tight: {length} of hose between ends {chord} apart, in line or nearly"
                ),
                format!(
                    "Give more than {} more slack here",
                    figures.length_up(chord_mm - length_mm)
                ),
            )
        }
        RodError::Fold => (
            "Installed shape unknown: on the point of snapping over to another shape".to_owned(),
            sure.to_owned(),
        ),
        RodError::NotConverged | RodError::Input => (
            "Installed shape unknown: the drawn route stands in for it".to_owned(),
            sure.to_owned(),
        ),
    };
    (Severity::Warn, message, hint)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn nothing_is_said_of_a_hose_whose_shape_is_known() {
        assert_eq!(check(&Fixture::z().context()), []);
    }

    #[test]
    fn a_free_length_shorter_than_its_ends_are_apart_is_named() {
        let fixture = Fixture::edited(|bay| run(bay).slack_pct = Some(0.0));
        let lay = fixture.lay.as_ref().unwrap();
        // A drawn route with bends is longer than the straight distance: it has an installed shape without slack too.
        assert!(lay.installed.is_whole());
        let mut short = fixture;
        let lay = short.lay.as_mut().unwrap();
        let (length_mm, chord_mm) = (100.0, 120.0);
        let why = RodError::TooShort { length_mm, chord_mm };
        lay.installed.spans[0].notes.push(SpanNote::NotSolved(why));
        let found = check(&short.context());
        assert_eq!((found.len(), found[0].severity), (1, Severity::Warn));
        assert!(found[0].message.contains("100 mm") && found[0].message.contains("120 mm"));
    }
}
