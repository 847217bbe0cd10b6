//! `motion-clearance`: the installed hose stays clear of obstacles and other hoses while groups move.

use super::clearance::sentence;
use super::hose_clearance::{of_pair, sentence as of_hoses};
use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::words::Shape;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::motion::RoutingMotion;
use crate::model::{Bay, Mark, Routing, Source};
use crate::units::EPS_MM;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "motion-clearance",
    severity: Severity::Fail,
    title: "Clearance below minimum in motion",
    what: "As installed-clearance in the worst position: hoses with their ends, and obstacles, \
           move with their groups. One finding a hose for obstacles, and one for each pair of \
           hoses.",
    source: Source::fixed(
        Mark::Calculated,
        "shape of least bending energy in every position; minimum clearance: as for the drawn \
         hose",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some((motion, positions)) = run.motion else { return Vec::new() };
    // `installed-clearance` checks the position as drawn.
    let worst =
        motion.nearest().filter(|(position, near)| *position > 0 && near.spare_mm() < -EPS_MM);
    let Some((position, near)) = worst else { return Vec::new() };
    let Some(obstacle) = run.bay.obstacles.get(near.obstacle) else { return Vec::new() };
    let shape = Shape::Position(&positions.all[position].name);
    vec![Finding {
        message: sentence(run, shape, obstacle, &near),
        hint: format!(
            "Set a clamp that holds the hose away from {}, or route it where nothing moves towards it",
            obstacle.shown_name()
        ),
        ..run.finding_near(&RULE, obstacle, &near)
    }]
}

/// One finding for each pair of hoses that is nearer in another position than in the one as drawn.
pub(in crate::checks) fn check_hoses(
    bay: &Bay,
    routing: &Routing,
    motion: &RoutingMotion,
    hose_clearance_mm: f64,
) -> Vec<(usize, Finding)> {
    let figures = Figures { unit: bay.show_units };
    let moved = motion.pairs.iter().filter(|(position, _)| *position > 0);
    let found = moved.filter_map(|(position, pair)| {
        let [one, two] = pair.hoses.map(|place| routing.runs.get(place));
        let (one, two) = (one?, two?);
        let shape = Shape::Position(&motion.positions.all.get(*position)?.name);
        let message = of_hoses(figures, shape, two, pair, hose_clearance_mm);
        let finding = of_pair(figures, &RULE, [one, two], pair, hose_clearance_mm);
        Some((pair.hoses[0], Finding { message, at_mm: None, ..finding }))
    });
    found.collect()
}
