//! `motion-clearance`: the hose keeps off obstacles and other hoses while groups move.

use super::hose_clearance::{how_near, of_pair};
use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::motion::RoutingMotion;
use crate::model::{Bay, Mark, Routing, Source};
use crate::units::EPS_MM;

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "motion-clearance",
    severity: Severity::Fail,
    title: "Too near something when things move",
    what: "The same as installed-clearance in the worst position: hoses with their ends, and obstacles, ride with \
           their groups. One finding a run for obstacles, and one for each pair of hoses.",
    source: Source::fixed(
        Mark::Calculated,
        "shape of least bending energy in every position; the gaps to keep: as for the drawn hose",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some((motion, positions)) = run.motion else { return Vec::new() };
    // The position as drawn is the matter of `installed-clearance`.
    let worst =
        motion.nearest().filter(|(position, near)| *position > 0 && near.spare_mm() < -EPS_MM);
    let Some((position, near)) = worst else { return Vec::new() };
    let Some(obstacle) = run.bay.obstacles.get(near.obstacle) else { return Vec::new() };
    let figures = run.figures();
    let (gap, min_clearance) = figures.lengths(near.gap_mm, near.min_clearance_mm);
    let (name, position) = (obstacle.shown_name(), &positions.all[position].name);
    let message = if near.gap_mm < 0.0 {
        let depth = figures.length(-near.gap_mm);
        format!(
            "With {position} the hose presses {depth} into {name}; {min_clearance} is to be kept"
        )
    } else {
        format!(
            "With {position} the hose comes to {gap} from {name}; {min_clearance} is to be kept"
        )
    };
    vec![Finding {
        message,
        hint: "Set a clamp that holds the hose away from it, or lead it where nothing moves towards it"
            .to_owned(),
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
    let told = moved.filter_map(|(position, pair)| {
        let [one, two] = pair.hoses.map(|place| routing.runs.get(place));
        let (one, two) = (one?, two?);
        let position = &motion.positions.all.get(*position)?.name;
        let (near, limit) = how_near(figures, pair, hose_clearance_mm);
        let message = format!(
            "With {position} the hose comes to lie {near} hose {}; {limit} is to be kept",
            two.shown_name()
        );
        let finding = of_pair(&RULE, [one, two], pair, hose_clearance_mm);
        Some((pair.hoses[0], Finding { message, at_mm: None, ..finding }))
    });
    told.collect()
}
