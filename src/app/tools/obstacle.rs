//! Drawing obstacles: from corner to corner, along an axis, or from the middle out.

use glam::DVec3;

use super::hold::{Drag, Held};
use crate::app::App;
use crate::app::canvas::pointer::Gesture;
use crate::document::{Command, fresh_id};
use crate::model::{Nature, Obstacle, Shape};

/// The form that is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum ObstacleKind {
    /// From corner to corner.
    #[default]
    Box,
    /// Along its axis.
    Cylinder,
    /// From its middle out.
    Sphere,
}

impl ObstacleKind {
    /// All, with their words.
    pub const ALL: [(Self, &'static str); 3] =
        [(Self::Box, "Box"), (Self::Cylinder, "Cylinder"), (Self::Sphere, "Sphere")];
}

/// An obstacle that is being drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct ObstacleDraft {
    /// Its id.
    pub id: String,
    name: String,
    kind: ObstacleKind,
}

/// Radius of a cylinder before it is told (our own default).
const CYLINDER_RADIUS_MM: f64 = 30.0;

impl App {
    pub(super) fn begin_obstacle(&mut self, gesture: &Gesture) {
        let Some(document) = &self.document else { return };
        let bay = document.bay();
        let (_, word) = ObstacleKind::ALL[self.obstacle_kind as usize];
        let draft = ObstacleDraft {
            id: fresh_id("obstacle-1", |id| bay.obstacle(id).is_some()),
            name: format!("{word} {}", bay.obstacles.len() + 1),
            kind: self.obstacle_kind,
        };
        let (from, third) = self.landing_at(gesture.view, gesture.at, gesture.free);
        let mut drag = Drag::new(Held::NewObstacle(draft), gesture, from);
        drag.grip = glam::DVec2::ZERO;
        drag.third = Some(third.words);
        self.hold(drag);
    }
}

impl ObstacleDraft {
    /// The obstacle as far as it is drawn; none while it has no extent.
    pub(super) fn command(&self, drag: &Drag) -> Option<Command> {
        let shape = self.shape(drag)?;
        Some(Command::AddObstacle(Box::new(Obstacle {
            id: self.id.clone(),
            name: self.name.clone(),
            nature: Nature::Plain,
            min_clearance_mm: None,
            group: None,
            shape,
            extra: Vec::new(),
        })))
    }

    fn shape(&self, drag: &Drag) -> Option<Shape> {
        let (from, to) = (drag.from, drag.place);
        let drawn = drag.view.project(to) - drag.view.project(from);
        match self.kind {
            ObstacleKind::Box => {
                // As deep as it is narrow, about the coordinate that this view does not show.
                let depth = drag.view.to_viewer().abs() * drawn.abs().min_element() / 2.0;
                let (min, max) = (from.min(to) - depth, from.max(to) + depth);
                (drawn.abs().min_element() > 0.0).then_some(Shape::Box { min, max })
            }
            ObstacleKind::Cylinder => {
                (from != to).then_some(Shape::Cylinder { from, to, radius: CYLINDER_RADIUS_MM })
            }
            ObstacleKind::Sphere => {
                let radius = from.distance(to);
                (radius > 0.0).then_some(Shape::Sphere { at: from, radius })
            }
        }
    }

    /// Its figures so far, for the pointer.
    pub(super) fn extent(&self, drag: &Drag) -> Option<DVec3> {
        let (lo, hi) = self.shape(drag)?.bounds();
        Some(hi - lo)
    }
}
