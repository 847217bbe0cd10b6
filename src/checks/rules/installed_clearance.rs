//! `installed-clearance`: the hose keeps off obstacles and other hoses as it will really lie.

use super::hose_clearance::{how_near, of_pair};
use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::clearance::{HosePair, NearObstacle};
use crate::engine::lay::RoutingLay;
use crate::model::{Bay, Mark, Obstacle, Routing, Source};

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "installed-clearance",
    severity: Severity::Fail,
    title: "Lies too near something",
    what: "The same as clearance and hose-clearance, for the shape that the hose takes by itself. Where \
           a span may bow several ways round, all of them are held against the obstacles: what \
           another way than the one shown comes nearer to is a warning. A gap between two hoses that is \
           not kept is a warning, two that touch are a failure.",
    source: Source::fixed(
        Mark::Calculated,
        "shape of least bending energy for the length of each span; the gaps to keep: as for the drawn \
         hose",
    ),
};

/// One finding for each obstacle, and one more where another way round is worse.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let Some(lay) = run.lay else { return Vec::new() };
    let own = lay.clearance.too_near.iter().map(|near| (near, false));
    let all = own.chain(lay.other_way.iter().map(|near| (near, true)));
    all.filter_map(|(near, is_other_way)| {
        Some(finding(run, run.bay.obstacles.get(near.obstacle)?, near, is_other_way))
    })
    .collect()
}

fn finding(
    run: &RunContext<'_>,
    obstacle: &Obstacle,
    near: &NearObstacle,
    is_other_way: bool,
) -> Finding {
    let figures = run.figures();
    let (gap, min_clearance) = figures.lengths(near.gap_mm, near.min_clearance_mm);
    let name = obstacle.shown_name();
    let message = if near.gap_mm < 0.0 {
        let depth = figures.length(-near.gap_mm);
        format!("press {depth} into {name}; {min_clearance} is to be kept")
    } else {
        format!("lie {gap} from {name}; {min_clearance} is to be kept")
    };
    let message = if is_other_way {
        format!("Bowing another way than shown, the hose may {message}")
    } else {
        format!("The hose will {message}")
    };
    Finding {
        severity: if is_other_way { Severity::Warn } else { Severity::Fail },
        message,
        hint: "Set a clamp where the hose bows towards it, give it less slack, or lead it farther away"
            .to_owned(),
        ..run.finding_near(&RULE, obstacle, near)
    }
}

/// One finding for each pair of hoses, with the place of the first in the routing.
pub(in crate::checks) fn check_hoses(
    bay: &Bay,
    routing: &Routing,
    lay: &RoutingLay,
    hose_clearance_mm: f64,
) -> Vec<(usize, Finding)> {
    let figures = Figures { unit: bay.show_units };
    let told = |pair: &HosePair| {
        let [one, two] = pair.hoses.map(|place| routing.runs.get(place));
        let (one, two) = (one?, two?);
        let (near, limit) = how_near(figures, pair, hose_clearance_mm);
        let message =
            format!("The hose will lie {near} hose {}; {limit} is to be kept", two.shown_name());
        let finding = of_pair(&RULE, [one, two], pair, hose_clearance_mm);
        Some((pair.hoses[0], Finding { message, at_mm: None, ..finding }))
    };
    lay.pairs.iter().filter_map(told).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::Fixture;
    use crate::model::{Nature, Shape};
    use glam::DVec3;

    fn beside(id: &str, min_clearance_mm: f64, min: DVec3, max: DVec3) -> Fixture {
        Fixture::straight(600.0, |bay| {
            bay.obstacles.push(Obstacle {
                id: id.to_lowercase(),
                name: id.into(),
                nature: Nature::Plain,
                min_clearance_mm: Some(min_clearance_mm),
                group: None,
                shape: Shape::Box { min, max },
                extra: Vec::new(),
            });
        })
    }

    fn over_a_floor(depth: f64) -> Fixture {
        let min = DVec3::new(0.0, -300.0, -depth - 50.0);
        beside("Floor", 10.0, min, DVec3::new(600.0, 300.0, -depth))
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

    #[test]
    fn what_the_lie_comes_near_stays_a_failure_where_another_way_is_worse() {
        // A wall 30 mm beside a hose that hangs straight down, and may as well bow into it.
        let (min, max) = (DVec3::new(0.0, 30.0, -300.0), DVec3::new(600.0, 60.0, 300.0));
        let found = check(&beside("Wall", 40.0, min, max).context());
        assert_eq!(found.len(), 2, "{found:?}");
        let [own, other] = [&found[0], &found[1]];
        assert_eq!((own.severity, other.severity), (Severity::Fail, Severity::Warn));
        assert!((own.value.unwrap() - 24.0).abs() < 0.1, "{own:?}");
        assert!(other.value.unwrap() < 0.0 && other.message.contains("may press"), "{other:?}");
        // Wide enough for the installed shape, not for another way.
        let min = DVec3::new(0.0, 60.0, -300.0);
        let found = check(&beside("Wall", 40.0, min, max + 60.0 * DVec3::Y).context());
        assert_eq!((found.len(), found[0].severity), (1, Severity::Warn));
    }
}
