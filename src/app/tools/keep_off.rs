//! Drawing solids to keep off: from corner to corner, along an axis, or from the middle out.

use glam::DVec3;

use super::hold::{Drag, Held};
use crate::app::App;
use crate::app::canvas::pointer::Gesture;
use crate::document::{Command, fresh_id};
use crate::model::{Nature, Shape, Solid};

/// The form that is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum SolidKind {
    /// From corner to corner.
    #[default]
    Box,
    /// Along its axis.
    Cylinder,
    /// From its middle out.
    Sphere,
}

impl SolidKind {
    /// All, with their words.
    pub const ALL: [(Self, &'static str); 3] =
        [(Self::Box, "Box"), (Self::Cylinder, "Cylinder"), (Self::Sphere, "Sphere")];
}

/// A solid that is being drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct SolidDraft {
    /// Its id.
    pub id: String,
    name: String,
    kind: SolidKind,
}

/// Radius of a cylinder before it is told (our own default).
const CYLINDER_RADIUS_MM: f64 = 30.0;

impl App {
    pub(super) fn begin_keep_off(&mut self, gesture: &Gesture) {
        let Some(document) = &self.document else { return };
        let bay = document.bay();
        let (_, word) = SolidKind::ALL[self.solid_kind as usize];
        let draft = SolidDraft {
            id: fresh_id("keep-off-1", |id| bay.solid(id).is_some()),
            name: format!("{word} {}", bay.solids.len() + 1),
            kind: self.solid_kind,
        };
        let (from, third) = self.landing_at(gesture.view, gesture.at, gesture.free);
        let mut drag = Drag::new(Held::NewSolid(draft), gesture, from);
        drag.grip = glam::DVec2::ZERO;
        drag.third = Some(third.words);
        self.hold(drag);
    }
}

impl SolidDraft {
    /// The solid as far as it is drawn; none while it has no extent.
    pub(super) fn command(&self, drag: &Drag) -> Option<Command> {
        let shape = self.shape(drag)?;
        Some(Command::AddSolid(Box::new(Solid {
            id: self.id.clone(),
            name: self.name.clone(),
            nature: Nature::Plain,
            keep_off_mm: None,
            body: None,
            shape,
            extra: Vec::new(),
        })))
    }

    fn shape(&self, drag: &Drag) -> Option<Shape> {
        let (from, to) = (drag.from, drag.place);
        let drawn = drag.view.project(to) - drag.view.project(from);
        match self.kind {
            SolidKind::Box => {
                // As deep as it is narrow, about the coordinate that this view does not show.
                let depth = drag.view.to_viewer().abs() * drawn.abs().min_element() / 2.0;
                let (min, max) = (from.min(to) - depth, from.max(to) + depth);
                (drawn.abs().min_element() > 0.0).then_some(Shape::Box { min, max })
            }
            SolidKind::Cylinder => {
                (from != to).then_some(Shape::Cylinder { from, to, radius: CYLINDER_RADIUS_MM })
            }
            SolidKind::Sphere => {
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
