//! `lie-clearance`: the hose keeps off solids and other hoses as it will really lie.

use crate::checks::context::{RunContext, blank};
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::clearance::{HosePair, SolidNear};
use crate::engine::lay::RoutingLay;
use crate::model::{Bay, Mark, Routing, Run, Solid, Source};
use crate::units::EPS_MM;

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "lie-clearance",
    severity: Severity::Fail,
    title: "Lies too near something",
    what: "The same as clearance and hose-clearance, for the shape that the hose takes by itself. Where \
           a span may bow several ways round, all of them are held against the solids: what only \
           another way than the one shown comes near is a warning. A gap between two hoses that is \
           not kept is a warning, two that touch are a failure.",
    source: Source::fixed(
        Mark::Calculated,
        "shape of least bending energy for the length of each span; the gaps to keep: as for the drawn \
         hose",
    ),
};

/// One finding for each solid.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some(lay) = run.lay else { return Vec::new() };
    let near = lay.clearance.too_near.iter();
    near.filter_map(|near| {
        let is_other_way = lay.other_way.contains(&near.solid);
        Some(finding(run, run.bay.solids.get(near.solid)?, near, is_other_way))
    })
    .collect()
}

fn finding(run: &RunContext<'_>, solid: &Solid, near: &SolidNear, is_other_way: bool) -> Finding {
    let figures = run.figures();
    let (gap, keep_off) = figures.lengths(near.gap_mm, near.keep_off_mm);
    let name = solid.shown_name();
    let message = if near.gap_mm < 0.0 {
        let depth = figures.length(-near.gap_mm);
        format!("press {depth} into {name} as it lies; {keep_off} is to be kept")
    } else {
        format!("lie {gap} from {name}; {keep_off} is to be kept")
    };
    let message = if is_other_way {
        format!("Bowing another way than shown, the hose may {message}")
    } else {
        format!("The hose will {message}")
    };
    Finding {
        severity: if is_other_way { Severity::Warn } else { Severity::Fail },
        other: Some(solid.id.clone()),
        at_mm: Some(run.solved.drawn_at_mm(near.at_mm)),
        point: Some(near.on_axis),
        value: Some(near.gap_mm),
        limit: Some(near.keep_off_mm),
        unit: Unit::Mm,
        message,
        hint: "Set a clamp where the hose bows towards it, give it less slack, or lead it farther away"
            .to_owned(),
        ..run.finding(&RULE)
    }
}

/// One finding for each pair of hoses, with the place of the first in the option.
pub(in crate::checks) fn check_hoses(
    bay: &Bay,
    option: &Routing,
    lay: &RoutingLay,
    hose_gap_mm: f64,
) -> Vec<(usize, Finding)> {
    let figures = Figures { unit: bay.show_units };
    let told = |pair: &HosePair| {
        let [one, two] = pair.hoses.map(|place| option.runs.get(place));
        let (one, two) = (one?, two?);
        let said = format!("The hose will lie {{}} hose {}", two.shown_name());
        Some((pair.hoses[0], of_pair(&RULE, figures, one, two, pair, hose_gap_mm, &said)))
    };
    lay.pairs.iter().filter_map(told).collect()
}

/// What is said of two hoses too near each other; `{}` in `said` is how near.
pub(super) fn of_pair(
    rule: &RuleInfo,
    figures: Figures,
    one: &Run,
    two: &Run,
    pair: &HosePair,
    limit_mm: f64,
    said: &str,
) -> Finding {
    let (gap, limit) = figures.lengths(pair.gap_mm, limit_mm);
    let they_touch = pair.gap_mm <= EPS_MM;
    let near = if they_touch { "against".to_owned() } else { format!("{gap} from") };
    Finding {
        severity: if they_touch { Severity::Fail } else { Severity::Warn },
        other: Some(two.id.clone()),
        point: Some(pair.on_axes[0]),
        value: Some(pair.gap_mm),
        limit: Some(limit_mm),
        unit: Unit::Mm,
        message: format!("{}; {limit} is to be kept", said.replace("{}", &near)),
        hint: "Clamp the two side by side with the gap between them, or move one".to_owned(),
        ..blank(rule, Some(one.id.clone()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::Fixture;
    use crate::model::{Nature, Shape};
    use glam::DVec3;

    fn over_a_floor(depth: f64) -> Fixture {
        Fixture::straight(600.0, |bay| {
            bay.solids.push(Solid {
                id: "floor".into(),
                name: "Floor".into(),
                nature: Nature::Plain,
                keep_off_mm: Some(10.0),
                body: None,
                shape: Shape::Box {
                    min: DVec3::new(0.0, -300.0, -depth - 50.0),
                    max: DVec3::new(600.0, 300.0, -depth),
                },
                extra: Vec::new(),
            });
        })
    }

    #[test]
    fn a_hose_drawn_clear_sags_onto_a_floor() {
        // 5 % slack on a span held in line bows by about 0.14 of it (handbook §4): some 75 mm here.
        let near = over_a_floor(60.0);
        assert!(crate::checks::rules::clearance::check(&near.context()).is_empty());
        let found = check(&near.context());
        assert_eq!(found.len(), 1);
        assert!(found[0].value.unwrap() < 0.0, "{found:?}");
        assert!(found[0].message.contains("into Floor"), "{}", found[0].message);
        assert_eq!(check(&over_a_floor(300.0).context()), []);
    }
}
