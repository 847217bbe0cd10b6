//! How near a piece of centre line comes to something: box, cylinder, ball, mesh, another piece.
//!
//! Distances are signed: those to an obstacle are negative inside, and then the depth, which is the
//! distance to the nearest place of its surface. The answer for a piece is the least signed distance
//! of all its points. Every answer is a global minimum: the searches are branch-and-bound with proven
//! lower bounds (the plane through a convex obstacle's nearest point; a chord and its sagitta), the
//! accuracy of each stands where it is made.

mod arc_arc;
mod arc_convex;
mod chord;
mod convex;
mod form;
mod line_convex;
mod line_line;
mod mesh;
mod piece_mesh;
mod piece_piece;
mod point_piece;
mod reach;

pub use chord::Chord;
pub use form::{Form, Placed};
pub use mesh::MeshField;
pub use piece_piece::piece_piece;
pub use point_piece::point_piece;
pub(super) use reach::{Foot, first_reach_by_feet};
pub use reach::{ReachFrom, first_reach};

use glam::DVec3;

use super::Piece;
use convex::Convex;

/// The nearest places of a piece of centre line and of something else.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Near {
    /// Signed distance.
    pub distance: f64,
    /// Where on the piece, from its start.
    pub along: f64,
    /// The place on the piece.
    pub on_piece: DVec3,
    /// The place on the other's surface.
    pub on_other: DVec3,
}

/// A piece against a convex obstacle. `None` where nothing is nearer than `enough`.
fn piece_convex(piece: &Piece, obstacle: &impl Convex, enough: f64) -> Option<Near> {
    match piece {
        Piece::Line { start, direction, length } => {
            line_convex::line_convex(*start, *direction, *length, obstacle, enough)
        }
        Piece::Arc { .. } => arc_convex::arc_convex(piece, obstacle, enough),
    }
}
