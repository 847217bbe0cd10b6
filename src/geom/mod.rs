//! Pure geometry in f64: frames, the polyline, fillets, the centre line, carrying a direction along
//! it. Millimetres and the bay's axes throughout; nothing here knows what a hose is.
//!
//! Degenerate input has a stated answer in every function; none panics, none makes a NaN from
//! finite input.

mod angle;
mod around;
mod bounds;
mod bow;
mod centre_line;
mod chain;
mod cylinder;
mod fillet;
mod flat;
mod frame;
mod homography;
mod hull;
mod nearest;
mod polyline;
mod rigid;
pub mod rod;
mod transport;

pub use angle::{half_angle_excess, sin_cos_deg};
pub use around::{Corner, around};
pub use bounds::Bounds;
pub use bow::{BOW_SLACK_MAX, Bow, in_line_bow};
pub use centre_line::{CentreLine, Piece, Turn};
pub use chain::{Chain, ChainNear, Link};
pub use cylinder::Cylinder;
pub use fillet::{Fillet, Held, STRAIGHT_RAD, fit_fillets, fit_fillets_into, stretch_scale};
pub use flat::{Flatness, flatness};
pub use frame::{EndFrame, end_frame, is_upright, unit_or_x};
pub use homography::{Homography, HomographyError};
pub use hull::hull;
pub use nearest::{
    Chord, Form, MeshField, Near, Placed, ReachFrom, first_reach, piece_piece, point_piece,
};
pub use polyline::{Polyline, Stretch};
pub use rigid::Rigid;
pub use transport::{clock_between_deg, transport};
