//! `motion-reach`: no hose pulled tight while groups move.

use crate::checks::context::RunContext;
use crate::checks::words;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::model::{Mark, Source};
use crate::units::EPS_MM;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "motion-reach",
    severity: Severity::Fail,
    title: "Pulled tight in motion",
    what: "In every position, each free length: the hose between two held points, less its worst \
           shortening under pressure, as for `taut`, against the straight distance between them.",
    source: Source::fixed(
        Mark::Published,
        "NAVEDTRA 14105 p. 5-11: never stretched tight between two fittings; shortening to 4 %: \
         FAA AC 43.13-1B fig. 9-9",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some((motion, positions)) = run.motion.filter(|(motion, _)| motion.rides) else {
        return Vec::new();
    };
    // `taut` checks the position as drawn.
    let worst =
        motion.least_reach().filter(|(position, reach)| *position > 0 && reach.spare_mm < -EPS_MM);
    let Some((position, reach)) = worst else { return Vec::new() };
    let short = run.figures().depth(-reach.spare_mm);
    // What is added shortens too.
    let rest = (1.0 - run.solved.hose.shortening_pct / 100.0).max(EPS_MM);
    let more = run.figures().length_up(-reach.spare_mm / rest);
    vec![Finding {
        point: Some(reach.point),
        value: Some(reach.spare_mm),
        limit: Some(0.0),
        unit: Unit::Mm,
        message: format!(
            "{}: pulled tight, {short} too short ({})",
            words::position(&positions.all[position].name),
            run.shortening_words(),
        ),
        hint: format!(
            "Give {more} more slack here, or route the hose round a bend that can follow the movement"
        ),
        ..run.finding(&RULE)
    }]
}
