//! Names on the drawing, once they are placed.

use glam::DVec2;

use super::super::camera::Area;

/// A name on the drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// What it says.
    pub text: String,
    /// Where.
    pub area: Area,
    /// Whether it names an obstacle: those are quieter.
    pub quiet: bool,
    /// Whether it needs paper behind it: it does not stand inside a plain surface.
    pub on_paper: bool,
    /// A line from what it names, where it does not stand beside or inside it.
    pub leader: Option<[DVec2; 2]>,
    /// What it names.
    pub of: Named,
}

impl Label {
    pub(super) fn moved(&self, by: DVec2) -> Self {
        let area = Area { min: self.area.min + by, max: self.area.max + by };
        let leader = self.leader.map(|ends| ends.map(|end| end + by));
        Self { area, leader, ..self.clone() }
    }
}

/// What a name belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Named {
    /// A port, by its place in the scene.
    Port(usize),
    /// An obstacle, by its place in the scene.
    Obstacle(usize),
    /// A corner or a clamp, by its place among those of all hoses.
    Via(usize),
    /// What is under the pointer.
    Pointed,
}
