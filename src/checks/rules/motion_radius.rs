//! `motion-radius`: no installed bend below the minimum bend radius while groups move.

use crate::checks::context::RunContext;
use crate::checks::limit::with_limit_severity;
use crate::checks::words;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "motion-radius",
    severity: Severity::Fail,
    title: "Radius below minimum in motion",
    what: "The tightest radius of the installed shape in the worst position of the groups that \
           its ends are on, against the minimum bend radius, both to the centre line. A warning \
           where the hose snaps over to another shape or its shape in a position was not found. \
           A narrow miss of a doubtful limit is a warning, as in bend-radius.",
    source: Source::fixed(
        Mark::Calculated,
        "shape of least bending energy in every position; minimum bend radius: the hose's own \
         table",
    ),
};

/// At most two findings a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some((motion, positions)) = run.motion.filter(|(motion, _)| motion.rides) else {
        return Vec::new();
    };
    let mut found = Vec::new();
    // `installed-radius` and `installed-not-found` check the position as drawn.
    if let Some((position, place)) = motion.tightest().filter(|(position, _)| *position > 0)
        && let Some(tight) = run.finding_tight(&RULE, &place)
    {
        let (radius, limit) = run.figures().lengths(place.radius_mm, run.solved.radius_limit_mm);
        let finding = Finding {
            message: format!(
                "{}: installed radius {radius}, minimum {limit}, centre line",
                words::position(&positions.all[position].name)
            ),
            hint: "Give the moving end more free length, bent in the plane of the movement (NAVEDTRA 14018)"
                .to_owned(),
            ..tight
        };
        found.push(with_limit_severity(finding, &run.solved.hose.radius_limit_source));
    }
    if let Some(position) = motion.unsolved().filter(|position| *position > 0) {
        found.push(Finding {
            severity: Severity::Warn,
            message: format!(
                "{}: installed shape not found, radius unknown",
                words::position(&positions.all[position].name)
            ),
            hint: "Change the slack, or set a clamp so that the shape is certain".to_owned(),
            ..run.finding(&RULE)
        });
    }
    found
}
