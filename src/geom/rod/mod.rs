//! The installed shape of a springy line: held in place and direction at both ends, of given length, the
//! stable shape of least bending energy ∫κ² ds, in space, untwisted.
//!
//! Newton steps on unit tangents (`system`, `newton`) find a minimum on few pieces; from there two
//! grids of fourth order (`correct`) give the figures and, by their difference, the error. A count of
//! negative pivots proves that the shape is stable. Nearly taut spans have a closed form (`taut`).

mod chain;
mod correct;
mod curve;
mod error;
mod newton;
mod rescue;
mod seed;
mod shape;
mod span;
mod system;
mod taut;
mod tie;
mod workspace;

pub use error::RodError;
pub use seed::RodSeed;
pub use shape::{RodAccuracy, RodForm, RodHow, RodShape, RodTwin, Tie};
pub use span::RodSpan;
pub use workspace::{ROD_PIECES, RodSolver};
