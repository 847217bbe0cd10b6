//! `motion-radius`: no bend tighter than the hose stands while groups move.

use crate::checks::context::RunContext;
use crate::checks::limit::by_limit;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::model::{Mark, Source};

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "motion-radius",
    severity: Severity::Fail,
    title: "Bends too tight when things move",
    what: "The tightest radius of the hose as installed in the worst position of the groups that its ends ride \
           on, against the hose's least radius, both to the centre line. Also said where the hose snaps \
           over to another shape or its installed shape in a position could not be found: then as a warning. A \
           narrow miss of a doubtful limit is a warning, as in bend-radius.",
    source: Source::fixed(
        Mark::Calculated,
        "shape of least bending energy in every position; least radius: the hose's own table",
    ),
};

/// At most two findings a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some((motion, positions)) = run.motion.filter(|(motion, _)| motion.rides) else {
        return Vec::new();
    };
    let mut found = Vec::new();
    // The position as drawn is the matter of `installed-radius` and `installed-not-found`.
    if let Some((position, place)) = motion.tightest().filter(|(position, _)| *position > 0)
        && let Some(tight) = run.finding_tight(&RULE, &place)
    {
        let (radius, limit) = run.figures().lengths(place.radius_mm, run.solved.radius_limit_mm);
        let finding = Finding {
            message: format!(
                "With {} the hose bends to {radius}; it needs {limit}",
                positions.all[position].name
            ),
            hint:
                "Lead the hose so that it bends in the plane of the movement (NAVEDTRA 14018), and \
                   give the moving end more free length"
                    .to_owned(),
            ..tight
        };
        found.push(by_limit(finding, &run.solved.hose.radius_limit_source));
    }
    if let Some(position) = motion.unsolved().filter(|position| *position > 0) {
        found.push(Finding {
            severity: Severity::Warn,
            message: format!(
                "With {} it could not be told how the hose lies; its radius there is not known",
                positions.all[position].name
            ),
            hint: "Change the slack, or set a clamp so that the shape is certain".to_owned(),
            ..run.finding(&RULE)
        });
    }
    found
}
