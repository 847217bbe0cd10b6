//! What is asked of the turning view.

use glam::DVec2;

use super::camera::Outlook;

/// What is asked of the turning view.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Deed {
    /// Turn as if dragged by so many points.
    Turn(DVec2),
    /// Move what it shows by so many points.
    Pan(DVec2),
    /// Zoom about a place on the screen.
    Zoom {
        /// How much larger.
        factor: f64,
        /// What stays where it is.
        at: DVec2,
    },
    /// Look from a known side.
    LookFrom(Outlook),
    /// Show the whole bay.
    Fit,
}
