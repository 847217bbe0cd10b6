//! `motion-reach`: no hose pulled tight while groups move.

use crate::checks::context::RunContext;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::model::{Mark, Source};
use crate::units::EPS_MM;

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "motion-reach",
    severity: Severity::Fail,
    title: "Pulled tight when things move",
    what: "In every position, span by span: the hose between two holds, less its worst shortening under \
           pressure, as for `taut`, against the straight way between them.",
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
    // The position as drawn is the matter of `taut`.
    let worst =
        motion.least_reach().filter(|(position, reach)| *position > 0 && reach.spare_mm < -EPS_MM);
    let Some((position, reach)) = worst else { return Vec::new() };
    let short = run.figures().length(-reach.spare_mm);
    vec![Finding {
        point: Some(reach.point),
        value: Some(reach.spare_mm),
        limit: Some(0.0),
        unit: Unit::Mm,
        message: format!(
            "With {} the hose is {short} too short: pulled tight. Shortening under pressure: {}",
            positions.all[position].name,
            run.shortening_words(),
        ),
        hint: "Give more slack, or lead the hose round a bend that can follow the movement"
            .to_owned(),
        ..run.finding(&RULE)
    }]
}
