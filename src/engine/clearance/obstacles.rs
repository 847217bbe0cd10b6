//! The obstacles of a bay, made ready for many questions.

use parry3d_f64::bounding_volume::Aabb;
use parry3d_f64::partitioning::{Bvh, BvhBuildStrategy};

use crate::geom::{Bounds, Form, Placed, Rigid};
use crate::model::{Nature, Obstacle, Shape};

/// The obstacles of a bay as forms in their places, with a tree over them. Keep it while only hoses move;
/// [`Self::update`] does again what has changed, and a mesh is made ready once, wherever it is moved.
#[derive(Default)]
pub struct ClearanceIndex {
    pub(super) entries: Vec<Entry>,
    pub(super) tree: Bvh,
    version: u64,
}

pub(super) struct Entry {
    shape: Shape,
    form: Form,
    /// From the form's axes to where the obstacle is drawn.
    drawn: Rigid,
    /// From there to where it is now.
    position: Rigid,
    pub(super) placed: Placed,
    pub(super) min_clearance_mm: f64,
    pub(super) nature: Nature,
}

impl std::fmt::Debug for ClearanceIndex {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.debug_struct("ClearanceIndex")
            .field("obstacles", &self.entries.len())
            .finish_non_exhaustive()
    }
}

impl Clone for ClearanceIndex {
    /// Prepared meshes are shared.
    fn clone(&self) -> Self {
        let entries = self.entries.iter().map(|entry| Entry {
            shape: entry.shape.clone(),
            form: entry.form.clone(),
            placed: entry.placed.clone(),
            ..*entry
        });
        Self { entries: entries.collect(), tree: self.tree.clone(), version: self.version }
    }
}

impl ClearanceIndex {
    /// The obstacles where they are drawn.
    pub fn new(obstacles: &[Obstacle]) -> Self {
        let mut index = Self::default();
        index.update(obstacles);
        index
    }

    /// Whether there are no obstacles.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// Follows the bay: obstacles that are as they were stay as they are, back where they are drawn.
    /// Whether anything has changed.
    pub fn update(&mut self, obstacles: &[Obstacle]) -> bool {
        let same = self.entries.len() == obstacles.len()
            && self.entries.iter().zip(obstacles).all(|(entry, obstacle)| {
                entry.position == Rigid::IDENTITY
                    && entry.min_clearance_mm == obstacle.min_clearance_in_force_mm()
                    && entry.nature == obstacle.nature
                    && entry.shape == obstacle.shape
            });
        if same {
            return false;
        }
        let mut before = std::mem::take(&mut self.entries);
        self.entries = obstacles
            .iter()
            .map(|obstacle| {
                let known = before.iter().position(|entry| entry.shape == obstacle.shape);
                let (shape, form, drawn) =
                    if let Some(entry) = known.map(|place| before.swap_remove(place)) {
                        (entry.shape, entry.form, entry.drawn)
                    } else {
                        let (form, drawn) = form_of(&obstacle.shape);
                        (obstacle.shape.clone(), form, drawn)
                    };
                let placed = Placed::new(form.clone(), drawn);
                let min_clearance_mm = obstacle.min_clearance_in_force_mm();
                let (position, nature) = (Rigid::IDENTITY, obstacle.nature);
                Entry { shape, form, drawn, position, placed, min_clearance_mm, nature }
            })
            .collect();
        self.grow_tree();
        self.version += 1;
        true
    }

    /// Grows whenever [`Self::update`] changes anything.
    pub fn version(&self) -> u64 {
        self.version
    }

    /// Moves the obstacles: `position` gives, by an obstacle's place in the bay, the move from where it is drawn.
    pub fn set_positions(&mut self, position: impl Fn(usize) -> Rigid) {
        for (place, entry) in self.entries.iter_mut().enumerate() {
            let position = position(place);
            if position != entry.position {
                entry.position = position;
                entry.placed = Placed::new(entry.form.clone(), position.after(&entry.drawn));
            }
        }
        self.grow_tree();
    }

    /// Places in the bay of the meshes that have no inside, because they are not closed.
    pub fn open_meshes(&self) -> impl Iterator<Item = usize> + '_ {
        self.entries.iter().enumerate().filter_map(|(place, entry)| match &entry.form {
            Form::Mesh(mesh) => (!mesh.is_closed()).then_some(place),
            _ => None,
        })
    }

    /// Every obstacle that may come into a box, with its place in the bay.
    pub(in crate::engine) fn each_in(&self, around: &Bounds, mut each: impl FnMut(usize, &Placed)) {
        for place in self.tree.intersect_aabb(&aabb(around)) {
            let entry = &self.entries[place as usize];
            if entry.placed.bounds().distance(around) <= 0.0 {
                each(place as usize, &entry.placed);
            }
        }
    }

    /// Over the boxes of the obstacles with their minimum clearance round them.
    fn grow_tree(&mut self) {
        let boxes: Vec<Aabb> = self.entries.iter().map(|entry| aabb(&entry.kept_off())).collect();
        self.tree = Bvh::from_leaves(BvhBuildStrategy::Binned, &boxes);
    }
}

impl Entry {
    /// Nothing outside this is nearer than the minimum clearance.
    fn kept_off(&self) -> Bounds {
        self.placed.bounds().grown(self.min_clearance_mm)
    }
}

pub(super) fn aabb(bounds: &Bounds) -> Aabb {
    Aabb::new(bounds.min, bounds.max)
}

/// The form in its own axes, and the move to where it stands.
fn form_of(shape: &Shape) -> (Form, Rigid) {
    match shape {
        Shape::Box { min, max } => {
            (Form::Box { half: 0.5 * (*max - *min) }, Rigid::shifted(0.5 * (*min + *max)))
        }
        Shape::Cylinder { from, to, radius } => {
            let axis = (*to - *from).try_normalize().unwrap_or(glam::DVec3::Z);
            let half = 0.5 * from.distance(*to);
            (Form::Cylinder { half, radius: *radius }, Rigid::from_z(axis, 0.5 * (*from + *to)))
        }
        Shape::Sphere { at, radius } => (Form::Ball { radius: *radius }, Rigid::shifted(*at)),
        Shape::Mesh { mesh, .. } => {
            let (field, moved) = mesh.field();
            (Form::Mesh(field), Rigid::shifted(moved))
        }
    }
}
