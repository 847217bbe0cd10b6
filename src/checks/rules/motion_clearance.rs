//! `motion-clearance`: the hose keeps off solids and other hoses while bodies move.

use super::lie_clearance::of_pair;
use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
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
        other: Some(solid.id.clone()),
        at_mm: Some(run.solved.drawn_at_mm(near.at_mm)),
        point: Some(near.on_axis),
        value: Some(near.gap_mm),
        limit: Some(near.keep_off_mm),
        unit: Unit::Mm,
        message,
        hint: "Set a clamp that holds the hose away from it, or lead it where nothing moves towards it"
            .to_owned(),
        ..run.finding(&RULE)
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
        let said = format!("With {pose} the hose comes to lie {{}} hose {}", two.shown_name());
        Some((pair.hoses[0], of_pair(&RULE, figures, one, two, pair, hose_gap_mm, &said)))
    });
    told.collect()
}
