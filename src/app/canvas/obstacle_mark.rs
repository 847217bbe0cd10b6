//! An obstacle as it is drawn: its form, and what is calculated of that when first asked for.

use std::sync::OnceLock;

use glam::DVec2;

use super::camera::View;
use super::outline::{self, Cloud, Outline};
use super::turn::surface::{Surface, surface};
use crate::model::{Bay, Nature, Obstacle, Shape};

/// An obstacle.
#[derive(Debug, Clone)]
pub struct ObstacleMark {
    /// Id of the obstacle.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Name and nature.
    pub label: String,
    /// What it does to a hose.
    pub nature: Nature,
    /// How far, mm.
    pub min_clearance_mm: f64,
    /// Its form.
    pub shape: Shape,
    /// The group it rides on, by its place in the bay.
    pub group: Option<usize>,
    skins: Skins,
}

/// What is calculated of an obstacle's form when first asked for.
#[derive(Debug, Clone, Default)]
struct Skins {
    surface: OnceLock<Surface>,
    cloud: OnceLock<Cloud>,
    outlines: [OnceLock<(Outline, Vec<Vec<DVec2>>)>; 3],
}

impl ObstacleMark {
    /// Its skin in space.
    pub fn surface(&self) -> &Surface {
        self.skins.surface.get_or_init(|| surface(&self.shape))
    }

    /// Its outline in a view and the lines at its minimum clearance distance, mm.
    pub fn outlined(&self, view: View) -> &(Outline, Vec<Vec<DVec2>>) {
        self.skins.outlines[view.index()].get_or_init(|| {
            let outline = outline::outline(view, &self.shape);
            let min_clearance = outline::at_distance(&outline, self.min_clearance_mm);
            (outline, min_clearance)
        })
    }

    /// Takes over what was calculated of a mesh before it was moved, moved likewise: laying one flat takes
    /// longer than a frame.
    fn follow(&mut self, old: &Self) {
        let (Shape::Mesh { mesh, .. }, Shape::Mesh { mesh: was, .. }) = (&self.shape, &old.shape)
        else {
            return;
        };
        let Some(by) = mesh.moved_from(was) else { return };
        let keeps_off_as_far = self.min_clearance_mm == old.min_clearance_mm;
        for view in View::ALL {
            let (new, old) = (&self.skins.outlines, &old.skins.outlines);
            if let Some((outline, min_clearance)) =
                old[view.index()].get().filter(|_| keeps_off_as_far)
            {
                let shift = view.project(by);
                let line = |line: &Vec<DVec2>| line.iter().map(|p| *p + shift).collect();
                let moved = outline.mapped(&|p| p + shift);
                // It is empty as yet.
                let _ = new[view.index()].set((moved, min_clearance.iter().map(line).collect()));
            }
        }
        if let Some(surface) = old.skins.surface.get() {
            let _ = self.skins.surface.set(surface.moved(by));
        }
        if let Some(cloud) = old.skins.cloud.get() {
            let _ = self.skins.cloud.set(cloud.moved(by));
        }
    }

    /// What it is the hull of.
    pub fn cloud(&self) -> &Cloud {
        self.skins.cloud.get_or_init(|| outline::cloud(&self.shape))
    }
}

/// The mark of an obstacle of a bay that was drawn so before it was changed.
pub(super) fn obstacle_on(bay: &Bay, it: &Obstacle, old: Option<&ObstacleMark>) -> ObstacleMark {
    let mut mark = obstacle(bay, it);
    if let Some(old) = old {
        mark.follow(old);
    }
    mark
}

/// The mark of an obstacle of a bay.
fn obstacle(bay: &Bay, obstacle: &Obstacle) -> ObstacleMark {
    let of_group = |id: &str| bay.groups.iter().position(|group| group.id == id);
    let name = obstacle.shown_name();
    ObstacleMark {
        id: obstacle.id.clone(),
        name: name.to_owned(),
        label: match obstacle.nature {
            Nature::Plain => name.to_owned(),
            nature if name.to_lowercase().contains(nature.word()) => name.to_owned(),
            nature => format!("{name}, {}", nature.word()),
        },
        nature: obstacle.nature,
        min_clearance_mm: obstacle.min_clearance_in_force_mm(),
        shape: obstacle.shape.clone(),
        group: obstacle.group.as_deref().and_then(of_group),
        skins: Skins::default(),
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use glam::{DVec3, dvec3};

    use super::*;
    use crate::model::Mesh;

    fn mesh_at(mesh: &Mesh, at: DVec3) -> Obstacle {
        let mesh = Arc::new(mesh.clone().placed(1.0, at));
        Obstacle {
            id: "m".to_owned(),
            name: String::new(),
            nature: Nature::Hot,
            min_clearance_mm: Some(10.0),
            group: None,
            shape: Shape::Mesh { file: "m.stl".to_owned(), scale: 1.0, at, mesh },
            locked: None,
            extra: Vec::new(),
        }
    }

    #[test]
    fn a_mesh_that_is_moved_looks_as_if_it_had_been_drawn_there() {
        let corners =
            [DVec3::ZERO, dvec3(80.0, 0.0, 5.0), dvec3(0.0, 60.0, 9.0), dvec3(3.0, 4.0, 70.0)];
        let faces = vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]];
        let mesh = Mesh::new(corners.to_vec(), faces);
        let bay = Bay::default();
        let (here, there) = (DVec3::ZERO, dvec3(12.0, -7.0, 33.0));
        let old = obstacle_on(&bay, &mesh_at(&mesh, here), None);
        for view in View::ALL {
            old.outlined(view);
        }
        let (_, _) = (old.surface(), old.cloud());
        let moved = obstacle_on(&bay, &mesh_at(&mesh, there), Some(&old));
        assert!(moved.skins.surface.get().is_some(), "it is taken over, not worked out");
        let fresh = obstacle_on(&bay, &mesh_at(&mesh, there), None);
        assert_eq!(moved.cloud(), fresh.cloud());
        for (a, b) in moved.surface().facets.iter().zip(&fresh.surface().facets) {
            assert_eq!(a.corners, b.corners);
        }
        for view in View::ALL {
            let [(a, _), (b, _)] = [&moved, &fresh].map(|mark| mark.outlined(view));
            let [lo, hi] = [a, b].map(|o| o.extent().unwrap());
            assert!(lo.0.abs_diff_eq(hi.0, 1e-9) && lo.1.abs_diff_eq(hi.1, 1e-9), "{view:?}");
        }
        let mut farther = mesh_at(&mesh, there);
        farther.min_clearance_mm = Some(20.0);
        let farther = obstacle_on(&bay, &farther, Some(&old));
        assert!(farther.skins.outlines.iter().all(|o| o.get().is_none()), "its line is another");
    }
}
