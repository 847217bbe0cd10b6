//! What a hose must keep off.

use std::sync::{Arc, OnceLock};

use glam::DVec3;

use super::{Extra, Mark, Source};
use crate::geom::MeshField;

/// A thing in the bay with a distance to keep.
#[derive(Debug, Clone, PartialEq)]
pub struct Obstacle {
    /// Unique among obstacles.
    pub id: String,
    /// Shown to the user.
    pub name: String,
    /// Why a hose keeps off it.
    pub nature: Nature,
    /// Distance to keep, surface to surface; [`Nature::default_min_clearance_mm`] where absent.
    pub min_clearance_mm: Option<f64>,
    /// The group it rides on.
    pub group: Option<String>,
    /// Its form.
    pub shape: Shape,
    /// Unknown keys.
    pub extra: Extra,
}

impl Obstacle {
    /// Its name; its id where it has none.
    pub fn shown_name(&self) -> &str {
        super::name_or(&self.name, &self.id)
    }

    /// The distance to keep that is in force.
    pub fn min_clearance_in_force_mm(&self) -> f64 {
        self.min_clearance_mm.unwrap_or_else(|| self.nature.default_min_clearance_mm())
    }
}

/// Why a hose keeps off an obstacle.
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

    /// Those that do harm from beside: what a sleeve may keep off.
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
            Self::Plain => Source::fixed(Mark::Practice, "only not to touch"),
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

/// Triangles, in bay millimetres.
#[derive(Debug, Clone, Default)]
pub struct Mesh {
    /// Corner points.
    pub vertices: Vec<DVec3>,
    /// Three places in `vertices` each; all valid.
    pub triangles: Vec<[u32; 3]>,
    ready: Ready,
    bounds: OnceLock<(DVec3, DVec3)>,
}

/// A mesh made ready for distances, once for all its copies, and how far this one is from there.
#[derive(Debug, Clone, Default)]
struct Ready {
    field: Arc<OnceLock<Arc<MeshField>>>,
    moved: DVec3,
}

impl PartialEq for Mesh {
    /// Quick where both are one in memory: bays are compared in every step of a drag.
    fn eq(&self, other: &Self) -> bool {
        let Self { vertices, triangles, ready: _, bounds: _ } = self;
        std::ptr::eq(self, other) || (vertices == &other.vertices && triangles == &other.triangles)
    }
}

impl Mesh {
    /// A mesh of these points and triangles.
    pub fn new(vertices: Vec<DVec3>, triangles: Vec<[u32; 3]>) -> Self {
        Self { vertices, triangles, ready: Ready::default(), bounds: OnceLock::new() }
    }

    /// The same with a unit of another length, moved.
    #[must_use]
    pub fn placed(mut self, scale: f64, at: DVec3) -> Self {
        for vertex in &mut self.vertices {
            *vertex = *vertex * scale + at;
        }
        self.bounds = OnceLock::new();
        if scale == 1.0 {
            self.ready.moved += at;
        } else {
            self.ready = Ready::default();
        }
        self
    }

    /// The mesh made ready for distances, and the way from there to where this one lies. Made when first
    /// asked for (a fifth of a second for 200 000 triangles); what only moves is not made ready again.
    pub fn field(&self) -> (Arc<MeshField>, DVec3) {
        let moved = self.ready.moved;
        let make = || {
            let vertices: Vec<DVec3> = self.vertices.iter().map(|vertex| *vertex - moved).collect();
            Arc::new(MeshField::new(&vertices, &self.triangles))
        };
        (Arc::clone(self.ready.field.get_or_init(make)), moved)
    }

    /// How far this is from where `old` lies, where it is the same mesh and has only been moved.
    pub fn moved_from(&self, old: &Self) -> Option<DVec3> {
        let is_same = Arc::ptr_eq(&self.ready.field, &old.ready.field);
        is_same.then(|| self.ready.moved - old.ready.moved)
    }

    /// The box around it; both corners at the origin for an empty mesh.
    pub fn bounds(&self) -> (DVec3, DVec3) {
        *self.bounds.get_or_init(|| {
            let mut points = self.vertices.iter();
            let Some(first) = points.next() else { return (DVec3::ZERO, DVec3::ZERO) };
            points.fold((*first, *first), |(lo, hi), p| (lo.min(*p), hi.max(*p)))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
        let first = Mesh::new(mesh.vertices.clone(), mesh.triangles.clone()).placed(1.0, by);
        let (field, moved) = first.field();
        assert_eq!((field.triangles(), moved), (1, by));
        let (larger, moved) = mesh.placed(2.0, by).field();
        assert!(!Arc::ptr_eq(&same, &larger));
        assert_eq!(moved, DVec3::ZERO);
    }
}
