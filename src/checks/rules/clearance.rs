//! `clearance`: the drawn hose stays clear of every obstacle.

use crate::checks::context::RunContext;
use crate::checks::words::{self, Shape};
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::clearance::NearObstacle;
use crate::model::{Mark, Obstacle, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "clearance",
    severity: Severity::Fail,
    title: "Clearance below minimum, as drawn",
    what: "The clearance of the hose as drawn to each obstacle, surface to surface, against the \
           minimum clearance of the obstacle, at the worst place of each obstacle. Negative: the \
           hose fouls it, by that much. An obstacle that a port of the hose is on counts only \
           from the first place, seen from that port, where the hose has its minimum clearance; \
           fouling it always counts. Where that obstacle is hot, moving or sharp, \
           `near-own-port` checks the stretch before.",
    source: Source::fixed(
        Mark::BayFile,
        "the obstacle's own minimum clearance; where it gives none, the usual one of its nature, \
         marked there",
    ),
};

/// One finding for each obstacle that the hose is too near to.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let near = run.clearance.too_near.iter();
    near.filter_map(|near| Some(finding(run, run.bay.obstacles.get(near.obstacle)?, near)))
        .collect()
}

fn finding(run: &RunContext<'_>, obstacle: &Obstacle, near: &NearObstacle) -> Finding {
    let figures = run.figures();
    let missing = figures.length_up(-near.spare_mm());
    Finding {
        other: Some(obstacle.id.clone()),
        value: Some(near.gap_mm),
        limit: Some(near.min_clearance_mm),
        unit: Unit::Mm,
        message: sentence(run, Shape::Drawn, obstacle, near),
        hint: format!("Move the hose {missing} away from {} here", obstacle.shown_name()),
        source: min_clearance_source(obstacle).to_string(),
        point: Some(near.on_axis),
        ..run.finding_at(&RULE, near.at_mm)
    }
}

/// The clearance of one shape of the hose to an obstacle, in words.
pub(super) fn sentence(
    run: &RunContext<'_>,
    shape: Shape<'_>,
    obstacle: &Obstacle,
    near: &NearObstacle,
) -> String {
    let figures = (near.gap_mm, near.min_clearance_mm);
    words::clearance(run.figures(), shape, obstacle.shown_name(), figures, obstacle.nature)
}

/// Where an obstacle's minimum clearance comes from.
pub(super) fn min_clearance_source(obstacle: &Obstacle) -> Source {
    match obstacle.min_clearance_mm {
        Some(_) => Source::fixed(Mark::BayFile, "the obstacle's own minimum clearance"),
        None => obstacle.nature.default_min_clearance_source(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::Fixture;
    use crate::model::{Nature, Shape};
    use glam::DVec3;

    /// A straight hose of 12 mm along X, and a box whose face is `away` from its axis.
    fn beside(away: f64, nature: Nature, min_clearance_mm: Option<f64>) -> Fixture {
        Fixture::straight(600.0, |bay| {
            bay.obstacles.push(Obstacle {
                id: "s".into(),
                name: "Manifold".into(),
                nature,
                min_clearance_mm,
                group: None,
                shape: Shape::Box {
                    min: DVec3::new(200.0, away, -50.0),
                    max: DVec3::new(300.0, away + 100.0, 50.0),
                },
                locked: None,
                extra: Vec::new(),
            });
        })
    }

    #[test]
    fn on_the_min_clearance_it_passes_and_nearer_it_fails() {
        assert_eq!(check(&beside(31.0, Nature::Plain, Some(25.0)).context()), []);
        let fixture = beside(30.0, Nature::Plain, Some(25.0));
        let found = check(&fixture.context());
        assert_eq!((found.len(), found[0].severity), (1, Severity::Fail));
        assert!((found[0].value.unwrap() - 24.0).abs() < 1e-9);
        assert_eq!((found[0].limit, found[0].other.as_deref()), (Some(25.0), Some("s")));
        assert!(
            found[0].message == "Clearance to Manifold 24 mm as drawn, minimum 25 mm",
            "{found:?}"
        );
        assert!(found[0].hint.contains("1 mm away from Manifold"), "{}", found[0].hint);
        // The exit is 21 mm from the seat at the origin.
        let at = found[0].point.unwrap().x - 21.0;
        assert!((found[0].at_mm.unwrap() - at).abs() < 1e-9);
    }

    #[test]
    fn without_a_min_clearance_the_usual_one_of_its_nature_counts() {
        let found = check(&beside(40.0, Nature::Hot, None).context());
        assert_eq!(found[0].limit, Some(50.8));
        assert!(found[0].source.contains("95-26-13") && found[0].message.contains("(hot)"));
        assert_eq!(check(&beside(40.0, Nature::Moving, None).context()), []);
    }

    #[test]
    fn fouling_an_obstacle_is_said_as_a_depth() {
        let found = check(&beside(-2.0, Nature::Plain, None).context());
        assert!((found[0].value.unwrap() + 8.0).abs() < 1e-9, "{found:?}");
        assert!(found[0].message == "Fouls Manifold by 8 mm as drawn", "{}", found[0].message);
    }
}
