//! What a hose must stay clear of.

use std::sync::{Arc, OnceLock};

use glam::DVec3;

use super::{Extra, Mark, Source};
use crate::geom::MeshField;
use crate::units::EPS_MM;

/// A thing in the bay with a distance to keep.
#[derive(Debug, Clone, PartialEq)]
pub struct Obstacle {
    /// Unique among obstacles.
    pub id: String,
    /// Shown to the user.
    pub name: String,
    /// What it does to a hose that comes near.
    pub nature: Nature,
    /// Distance to keep, surface to surface; [`Nature::default_min_clearance_mm`] where absent.
    pub min_clearance_mm: Option<f64>,
    /// The group it rides on.
    pub group: Option<String>,
    /// Its form.
    pub shape: Shape,
    /// Whether the pointer leaves it where it is; absent, it does.
    pub locked: Option<bool>,
    /// Unknown keys.
    pub extra: Extra,
}

impl Obstacle {
    /// Its name; its id where it has none.
    pub fn shown_name(&self) -> &str {
        super::name_or(&self.name, &self.id)
    }

    /// Whether it is not to be dragged.
    pub fn is_locked(&self) -> bool {
        self.locked.unwrap_or(true)
    }

    /// Locks or unlocks it; what goes without saying is not said.
    pub fn lock(&mut self, locked: bool) {
        self.locked = (!locked).then_some(false);
    }

    /// The distance to keep that is in force.
    pub fn min_clearance_in_force_mm(&self) -> f64 {
        self.min_clearance_mm.unwrap_or_else(|| self.nature.default_min_clearance_mm())
    }
}

/// What an obstacle does to a hose that comes near.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Nature {
    /// It is simply there.
    #[default]
    Plain,
    /// Exhaust, turbine, manifold.
    Hot,
    /// Shaft, belt, linkage.
    Moving,
    /// An edge that cuts.
    Sharp,
}

impl Nature {
    /// All, with the words of the file.
    pub const ALL: [(Self, &'static str); 4] = [
        (Self::Plain, "plain"),
        (Self::Hot, "hot"),
        (Self::Moving, "moving"),
        (Self::Sharp, "sharp"),
    ];

    /// Those that do harm from beside: what a sleeve may protect from.
    pub const HARMFUL: [(Self, &'static str); 3] =
        [(Self::Hot, "hot"), (Self::Moving, "moving"), (Self::Sharp, "sharp")];

    /// The word of the file.
    pub fn word(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Hot => "hot",
            Self::Moving => "moving",
            Self::Sharp => "sharp",
        }
    }

    /// Minimum clearance where the obstacle gives none. Hot: 2 in, FAA AD 95-26-13 (published, reprint).
    /// Moving and sharp: 19 mm, common practice. Plain: only not to touch.
    pub fn default_min_clearance_mm(self) -> f64 {
        match self {
            Self::Plain => 0.0,
            Self::Hot => 50.8,
            Self::Moving | Self::Sharp => 19.0,
        }
    }

    /// Where [`Self::default_min_clearance_mm`] comes from.
    pub fn default_min_clearance_source(self) -> Source {
        match self {
            Self::Plain => Source::fixed(Mark::Practice, "must not touch"),
            Self::Hot => Source::fixed(Mark::Published, "2 in, FAA AD 95-26-13, read in a reprint"),
            Self::Moving | Self::Sharp => Source::fixed(Mark::Practice, "19 mm"),
        }
    }
}

/// The form of an obstacle.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// Aligned with the axes.
    Box {
        /// Least coordinates.
        min: DVec3,
        /// Greatest coordinates.
        max: DVec3,
    },
    /// With flat ends.
    Cylinder {
        /// Middle of one end.
        from: DVec3,
        /// Middle of the other.
        to: DVec3,
        /// Radius.
        radius: f64,
    },
    /// A ball.
    Sphere {
        /// Centre.
        at: DVec3,
        /// Radius.
        radius: f64,
    },
    /// Triangles read from a file beside the bay.
    Mesh {
        /// Path relative to the bay file, as written there; absolute while the bay has no file.
        file: String,
        /// Millimetres a unit of the file: STL tells no unit.
        scale: f64,
        /// Where the file's own origin lies.
        at: DVec3,
        /// What was read, as installed in the bay.
        mesh: Arc<Mesh>,
    },
}

impl Shape {
    /// How far it is from where `old` lies, where it has only been moved; none where it was not.
    pub fn moved_from(&self, old: &Self) -> Option<DVec3> {
        let [now, was] = match (self, old) {
            (Self::Box { min: a, max: b }, Self::Box { min: c, max: d })
            | (Self::Cylinder { from: a, to: b, .. }, Self::Cylinder { from: c, to: d, .. }) => {
                [[*a, *b], [*c, *d]]
            }
            (Self::Sphere { at: a, .. }, Self::Sphere { at: c, .. })
            | (Self::Mesh { at: a, .. }, Self::Mesh { at: c, .. }) => [[*a; 2], [*c; 2]],
            _ => return None,
        };
        let by = now[0] - was[0];
        let is_same_size = (now[1] - was[1]).abs_diff_eq(by, EPS_MM);
        (is_same_size && by != DVec3::ZERO).then_some(by)
    }

    /// The box around it, least and greatest corner.
    pub fn bounds(&self) -> (DVec3, DVec3) {
        match self {
            Self::Box { min, max } => (*min, *max),
            Self::Sphere { at, radius } => {
                (*at - DVec3::splat(*radius), *at + DVec3::splat(*radius))
            }
            Self::Cylinder { from, to, radius } => {
                let axis = (*to - *from).normalize_or_zero();
                let reach = (DVec3::ONE - axis * axis).max(DVec3::ZERO).map(f64::sqrt) * *radius;
                (from.min(*to) - reach, from.max(*to) + reach)
            }
            Self::Mesh { mesh, .. } => mesh.bounds(),
        }
    }
}

/// Triangles, in bay millimetres. Copies share what was read, wherever each lies.
#[derive(Debug, Clone)]
pub struct Mesh {
    /// Corner points, less `moved`.
    points: Arc<[DVec3]>,
    /// Three places in `points` each; all valid.
    triangles: Arc<[[u32; 3]]>,
    moved: DVec3,
    /// The points and triangles made ready for distances, once for all copies.
    field: Arc<OnceLock<Arc<MeshField>>>,
    /// Of the points.
    bounds: Arc<OnceLock<(DVec3, DVec3)>>,
}

impl Default for Mesh {
    fn default() -> Self {
        Self::new(Vec::new(), Vec::new())
    }
}

impl PartialEq for Mesh {
    /// Quick where both are one in memory: bays are compared in every step of a drag.
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self, other)
            || (self.shares(other) && self.moved == other.moved)
            || (self.triangles == other.triangles && self.vertices().eq(other.vertices()))
    }
}

impl Mesh {
    /// A mesh of these points and triangles.
    pub fn new(vertices: Vec<DVec3>, triangles: Vec<[u32; 3]>) -> Self {
        Self {
            points: vertices.into(),
            triangles: triangles.into(),
            moved: DVec3::ZERO,
            field: Arc::default(),
            bounds: Arc::default(),
        }
    }

    /// The same with a unit of another length, moved. What is only moved shares its points.
    #[must_use]
    pub fn placed(self, scale: f64, at: DVec3) -> Self {
        if scale == 1.0 {
            return Self { moved: self.moved + at, ..self };
        }
        Self {
            points: self.points.iter().map(|point| *point * scale).collect(),
            moved: self.moved * scale + at,
            triangles: self.triangles,
            field: Arc::default(),
            bounds: Arc::default(),
        }
    }

    /// Corner points.
    pub fn vertices(&self) -> impl ExactSizeIterator<Item = DVec3> + '_ {
        self.points.iter().map(|point| *point + self.moved)
    }

    /// The corner point of this place.
    pub fn vertex(&self, place: u32) -> Option<DVec3> {
        self.points.get(place as usize).map(|point| *point + self.moved)
    }

    /// Three places of corner points each.
    pub fn triangles(&self) -> &[[u32; 3]] {
        &self.triangles
    }

    /// The mesh made ready for distances, and the way from there to where this one lies. Made when first
    /// asked for (a fifth of a second for 200 000 triangles); what only moves is not made ready again.
    pub fn field(&self) -> (Arc<MeshField>, DVec3) {
        let make = || Arc::new(MeshField::new(&self.points, &self.triangles));
        (Arc::clone(self.field.get_or_init(make)), self.moved)
    }

    /// Whether both are copies of one mesh, wherever they lie.
    pub fn shares(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.points, &other.points) && Arc::ptr_eq(&self.triangles, &other.triangles)
    }

    /// How far this is from where `old` lies, where it is the same mesh and has only been moved.
    pub fn moved_from(&self, old: &Self) -> Option<DVec3> {
        self.shares(old).then(|| self.moved - old.moved)
    }

    /// The box around it; both corners at the origin for an empty mesh.
    pub fn bounds(&self) -> (DVec3, DVec3) {
        let of_points = || {
            let mut points = self.points.iter();
            let first = points.next()?;
            Some(points.fold((*first, *first), |(lo, hi), p| (lo.min(*p), hi.max(*p))))
        };
        if self.points.is_empty() {
            return (DVec3::ZERO, DVec3::ZERO);
        }
        let (lo, hi) = *self.bounds.get_or_init(|| of_points().unwrap_or_default());
        (lo + self.moved, hi + self.moved)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mesh_placed_thirty_times_is_one_in_memory() {
        let mesh = Mesh::new(vec![DVec3::ZERO, DVec3::X, DVec3::Y], vec![[0, 1, 2]]);
        let placed: Vec<Mesh> =
            (0..30).map(|k| mesh.clone().placed(1.0, DVec3::Z * f64::from(k))).collect();
        assert!(placed.iter().all(|copy| copy.shares(&mesh)));
        assert_eq!(placed[7].vertex(1), Some(DVec3::new(1.0, 0.0, 7.0)));
        assert_eq!(placed[3], Mesh::new(placed[3].vertices().collect(), vec![[0, 1, 2]]));
        assert_ne!(placed[3], placed[4]);
    }

    #[test]
    fn a_mesh_that_only_moves_is_made_ready_once() {
        let corners = vec![DVec3::ZERO, DVec3::X, DVec3::Y];
        let mesh = Mesh::new(corners, vec![[0, 1, 2]]);
        let (field, moved) = mesh.field();
        assert_eq!(moved, DVec3::ZERO);
        let by = DVec3::new(5.0, -2.0, 1.0);
        let (same, moved) = mesh.clone().placed(1.0, by).placed(1.0, by).field();
        assert!(Arc::ptr_eq(&field, &same));
        assert_eq!(moved, 2.0 * by);
        assert_eq!(mesh.clone().placed(1.0, by).moved_from(&mesh), Some(by));
        assert_eq!(mesh.clone().placed(1.0, by).bounds(), (by, DVec3::new(1.0, 1.0, 0.0) + by));
        assert_eq!(mesh.clone().placed(2.0, by).moved_from(&mesh), None);
        // Also where the copy is the one that was asked first.
        let first = Mesh::new(mesh.vertices().collect(), mesh.triangles().to_vec()).placed(1.0, by);
        let (field, moved) = first.field();
        assert_eq!((field.triangles(), moved), (1, by));
        let (larger, moved) = mesh.placed(2.0, by).field();
        assert!(!Arc::ptr_eq(&same, &larger));
        assert_eq!(moved, by);
    }
}
