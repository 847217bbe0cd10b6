//! What is asked for about photos and outlines.

use std::path::PathBuf;

use glam::DVec2;

use crate::app::background::picking::Task;
use crate::model::Background;

/// A request about backgrounds.
#[derive(Debug, Clone, PartialEq)]
pub enum Act {
    /// Shows the figures of one.
    Select(String),
    /// Closes the panel.
    Close,
    /// Shows a change while it is being made.
    Preview {
        /// Id of the background.
        id: String,
        /// As it is to be.
        to: Box<Background>,
        /// Name of the change.
        label: &'static str,
    },
    /// Makes what is shown a step of the history.
    Commit,
    /// Makes a change.
    Set {
        /// Id of the background.
        id: String,
        /// As it is to be.
        to: Box<Background>,
        /// Name of the change.
        label: &'static str,
    },
    /// Puts one over or under the others: its new place among them, the lowest first.
    Order {
        /// Id of the background.
        id: String,
        /// The place.
        to: usize,
    },
    /// Asks for another file to show in the place of its own.
    Instead(String),
    /// Takes one out.
    Delete(String),
    /// Begins to pick points of one.
    Pick {
        /// Id of the background.
        id: String,
        /// What for.
        task: Task,
    },
    /// Stops picking, or closes the question.
    Stop,
    /// The distance between the points picked, mm.
    Distance(f64),
    /// The sides of the rectangle picked, mm.
    Sides(DVec2),
    /// Millimetres a unit of the mesh that was read.
    MeshUnit(f64),
    /// Reads a file again.
    LookAgain(PathBuf),
}
