//! `motion-clearance`: the hose keeps off solids and other hoses while bodies move.

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
    what: "The same as lie-clearance in the worst pose: hoses with their ends, and solids, ride with \
           their bodies. One finding a run for solids, and one for each pair of hoses.",
    source: Source::fixed(
        Mark::Calculated,
        "shape of least bending energy in every pose; the gaps to keep: as for the drawn hose",
    ),
};

/// At most one finding a run.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some((motion, poses)) = run.motion else { return Vec::new() };
    // The neutral pose is the matter of `lie-clearance`.
    let worst = motion.nearest().filter(|(pose, near)| *pose > 0 && near.spare_mm() < -EPS_MM);
    let Some((pose, near)) = worst else { return Vec::new() };
    let Some(solid) = run.bay.solids.get(near.solid) else { return Vec::new() };
    let figures = run.figures();
    let (gap, keep_off) = figures.lengths(near.gap_mm, near.keep_off_mm);
    let (name, pose) = (solid.shown_name(), &poses.all[pose].name);
    let message = if near.gap_mm < 0.0 {
        let depth = figures.length(-near.gap_mm);
        format!("With {pose} the hose presses {depth} into {name}; {keep_off} is to be kept")
    } else {
        format!("With {pose} the hose comes to {gap} from {name}; {keep_off} is to be kept")
    };
    vec![Finding {
        message,
        hint: "Set a clamp that holds the hose away from it, or lead it where nothing moves towards it"
            .to_owned(),
        ..run.finding_near(&RULE, solid, &near)
    }]
}

/// One finding for each pair of hoses that is nearer in another pose than in the neutral one.
pub(in crate::checks) fn check_hoses(
    bay: &Bay,
    option: &Routing,
    motion: &RoutingMotion,
    hose_gap_mm: f64,
) -> Vec<(usize, Finding)> {
    let figures = Figures { unit: bay.show_units };
    let moved = motion.pairs.iter().filter(|(pose, _)| *pose > 0);
    let told = moved.filter_map(|(pose, pair)| {
        let [one, two] = pair.hoses.map(|place| option.runs.get(place));
        let (one, two) = (one?, two?);
        let pose = &motion.poses.all.get(*pose)?.name;
        let (near, limit) = how_near(figures, pair, hose_gap_mm);
        let message = format!(
            "With {pose} the hose comes to lie {near} hose {}; {limit} is to be kept",
            two.shown_name()
        );
        let finding = of_pair(&RULE, [one, two], pair, hose_gap_mm);
        Some((pair.hoses[0], Finding { message, at_mm: None, ..finding }))
    });
    told.collect()
}
