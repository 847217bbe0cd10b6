//! `installed-clearance`: the installed hose stays clear of obstacles and other hoses.

use super::clearance::sentence;
use super::hose_clearance::{of_pair, sentence as of_hoses};
use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::words::Shape;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::clearance::{HosePair, NearObstacle};
use crate::engine::lay::RoutingLay;
use crate::model::{Bay, Mark, Obstacle, Routing, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "installed-clearance",
    severity: Severity::Fail,
    title: "Clearance below minimum, as installed",
    what: "As clearance and hose-clearance, for the installed shape. Where a free length can bow \
           either way, all its shapes are checked against obstacles: below the minimum in \
           another shape than the one shown is a warning. Two hoses closer than their clearance \
           are a warning, two that touch a fault.",
    source: Source::fixed(
        Mark::Calculated,
        "shape of least bending energy for the length of each free length; minimum clearance: as \
         for the drawn hose",
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
    let shape = if is_other_way { Shape::OtherWay } else { Shape::Installed };
    Finding {
        severity: if is_other_way { Severity::Warn } else { Severity::Fail },
        message: sentence(run, shape, obstacle, near),
        hint: format!(
            "Set a clamp where the hose bows towards {}, or give it less slack",
            obstacle.shown_name()
        ),
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
    let to_finding = |pair: &HosePair| {
        let [one, two] = pair.hoses.map(|place| routing.runs.get(place));
        let (one, two) = (one?, two?);
        let message = of_hoses(figures, Shape::Installed, two, pair, hose_clearance_mm);
        let finding = of_pair(figures, &RULE, [one, two], pair, hose_clearance_mm);
        Some((pair.hoses[0], Finding { message, at_mm: None, ..finding }))
    };
    lay.pairs.iter().filter_map(to_finding).collect()
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
                locked: None,
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
        assert!(found[0].message.starts_with("Fouls Floor by "), "{}", found[0].message);
        assert_eq!(check(&over_a_floor(300.0).context()), []);
    }

    #[test]
    fn the_installed_shape_stays_a_fault_where_another_way_is_worse() {
        // A wall 30 mm beside a hose that hangs straight down, and may as well bow into it.
        let (min, max) = (DVec3::new(0.0, 30.0, -300.0), DVec3::new(600.0, 60.0, 300.0));
        let found = check(&beside("Wall", 40.0, min, max).context());
        assert_eq!(found.len(), 2, "{found:?}");
        let [own, other] = [&found[0], &found[1]];
        assert_eq!((own.severity, other.severity), (Severity::Fail, Severity::Warn));
        assert!((own.value.unwrap() - 24.0).abs() < 0.1, "{own:?}");
        assert!(
            other.value.unwrap() < 0.0
                && other.message.starts_with("Bowed another way: fouls Wall by "),
            "{other:?}"
        );
        // Wide enough for the installed shape, not for another way.
        let min = DVec3::new(0.0, 60.0, -300.0);
        let found = check(&beside("Wall", 40.0, min, max + 60.0 * DVec3::Y).context());
        assert_eq!((found.len(), found[0].severity), (1, Severity::Warn));
    }
}
