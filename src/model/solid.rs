//! What a hose must keep off.

use std::sync::Arc;

use glam::DVec3;

use super::{Extra, Mark, Source};

/// A thing in the bay with a distance to keep.
#[derive(Debug, Clone, PartialEq)]
pub struct Solid {
    /// Unique among solids.
    pub id: String,
    /// Shown to the user.
    pub name: String,
    /// Why a hose keeps off it.
    pub nature: Nature,
    /// Distance to keep, surface to surface; [`Nature::default_keep_off_mm`] where absent.
    pub keep_off_mm: Option<f64>,
    /// The body it rides on.
    pub body: Option<String>,
    /// Its form.
    pub shape: Shape,
    /// Unknown keys.
    pub extra: Extra,
}

impl Solid {
    /// Its name; its id where it has none.
    pub fn shown_name(&self) -> &str {
        super::name_or(&self.name, &self.id)
    }

    /// The distance to keep that is in force.
    pub fn keep_off_in_force_mm(&self) -> f64 {
        self.keep_off_mm.unwrap_or_else(|| self.nature.default_keep_off_mm())
    }
}

/// Why a hose keeps off a solid.
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

    /// The word of the file.
    pub fn word(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Hot => "hot",
            Self::Moving => "moving",
            Self::Sharp => "sharp",
        }
    }

    /// Keep-off where the solid gives none. Hot: 2 in, FAA AD 95-26-13 (published, reprint).
    /// Moving and sharp: 19 mm, common practice. Plain: only not to touch.
    pub fn default_keep_off_mm(self) -> f64 {
        match self {
            Self::Plain => 0.0,
            Self::Hot => 50.8,
            Self::Moving | Self::Sharp => 19.0,
        }
    }

    /// Where [`Self::default_keep_off_mm`] comes from.
    pub fn default_keep_off_source(self) -> Source {
        match self {
            Self::Plain => Source::fixed(Mark::Practice, "only not to touch"),
            Self::Hot => Source::fixed(Mark::Published, "2 in, FAA AD 95-26-13, read in a reprint"),
            Self::Moving | Self::Sharp => Source::fixed(Mark::Practice, "19 mm"),
        }
    }
}

/// The form of a solid.
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
        /// What was read, as it lies in the bay.
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
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Mesh {
    /// Corner points.
    pub vertices: Vec<DVec3>,
    /// Three places in `vertices` each; all valid.
    pub triangles: Vec<[u32; 3]>,
}

impl Mesh {
    /// The same with a unit of another length, moved.
    #[must_use]
    pub fn placed(mut self, scale: f64, at: DVec3) -> Self {
        for vertex in &mut self.vertices {
            *vertex = *vertex * scale + at;
        }
        self
    }

    /// The box around it; both corners at the origin for an empty mesh.
    pub fn bounds(&self) -> (DVec3, DVec3) {
        let mut points = self.vertices.iter();
        let Some(first) = points.next() else { return (DVec3::ZERO, DVec3::ZERO) };
        points.fold((*first, *first), |(lo, hi), p| (lo.min(*p), hi.max(*p)))
    }
}
