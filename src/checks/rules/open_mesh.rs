//! `open-mesh`: a mesh without an inside.

use crate::checks::context::blank;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::clearance::RoutingClearance;
use crate::model::{Bay, Mark, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "open-mesh",
    severity: Severity::Note,
    title: "Mesh not closed",
    what: "Meshes whose triangles do not close (an edge of one triangle only): they have no \
           inside. Clearances to their surface are right; a hose wholly inside one is not found \
           to foul it, and the depth of one that goes through its surface is unknown.",
    source: Source::fixed(Mark::BayFile, "the mesh's own triangles"),
};

/// One finding for each open mesh, where there is a hose to check against it.
pub(in crate::checks) fn check(bay: &Bay, clearance: &RoutingClearance) -> Vec<Finding> {
    if clearance.runs.is_empty() {
        return Vec::new();
    }
    let obstacles = clearance.open_meshes.iter().filter_map(|place| bay.obstacles.get(*place));
    obstacles
        .map(|obstacle| {
            let name = obstacle.shown_name();
            Finding {
                other: Some(obstacle.id.clone()),
                message: format!(
                    "Mesh of {name} not closed: clearance to its surface is checked, a hose inside it is \
                     not found"
                ),
                hint: "Close the mesh in the program that made it, or add a box or cylinder in its place"
                    .to_owned(),
                ..blank(&RULE, None)
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::Fixture;
    use crate::engine::solve_routing;
    use crate::model::{Mesh, Nature, Obstacle, Shape};
    use glam::DVec3;
    use std::sync::Arc;

    fn found(triangles: usize) -> Vec<Finding> {
        let mut bay = Fixture::z().bay;
        let vertices = vec![
            DVec3::new(0.0, -900.0, 0.0),
            DVec3::new(10.0, -900.0, 0.0),
            DVec3::new(0.0, -890.0, 0.0),
            DVec3::new(0.0, -900.0, 10.0),
        ];
        let mut faces = vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]];
        faces.truncate(triangles);
        bay.obstacles.push(Obstacle {
            id: "m".into(),
            name: String::new(),
            nature: Nature::Plain,
            min_clearance_mm: None,
            group: None,
            shape: Shape::Mesh {
                file: "m.stl".into(),
                scale: 1.0,
                at: DVec3::ZERO,
                mesh: Arc::new(Mesh::new(vertices, faces)),
            },
            locked: None,
            extra: Vec::new(),
        });
        check(&bay, &solve_routing(&bay, &bay.routings[0]).clearance)
    }

    #[test]
    fn closed_or_not() {
        assert_eq!(found(4), []);
        assert_eq!(found(3)[0].other.as_deref(), Some("m"));
    }
}
