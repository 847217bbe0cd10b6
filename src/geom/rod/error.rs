//! Why a span has no installed shape.

use thiserror::Error;

/// Why no shape is given for a span.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum RodError {
    /// A number that is not finite, a direction of no length, or a length that is not above 0.
    #[error(
        "the span's figures are not usable: a number is not finite, or a direction or the length is zero"
    )]
    Input,
    /// The line is shorter than the straight way, or has nothing left over to turn with.
    #[error("a length of {length_mm:.3} mm is too short for ends {chord_mm:.3} mm apart")]
    TooShort {
        /// The length given.
        length_mm: f64,
        /// The straight way between the ends.
        chord_mm: f64,
    },
    /// No stable shape was reached from any start.
    #[error("no stable shape was reached")]
    NotConverged,
    /// A shape in balance was reached that is on the point of snapping over: the figures would not
    /// be worth giving.
    #[error("the shape reached is on the point of snapping over to another")]
    Fold,
}
