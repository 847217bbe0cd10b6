//! What is looked at: the selected thing as large as it goes, and the other routing behind.

use glam::DVec3;

use super::canvas::moving::Moving;
use super::canvas::thing::Thing;
use crate::app::work::Work;

/// What is shown about a selected point, mm: enough to see what it belongs to.
const ABOUT_MM: f64 = 120.0;

impl Work {
    /// The box about what is selected: the thing last clicked where it is a place, else the hose whose
    /// card is shown.
    pub(super) fn bounds_of_selection(&self) -> Option<(DVec3, DVec3)> {
        let (document, solved) = (self.document.as_ref()?, self.solved.as_ref()?);
        let about = |at: DVec3| (at - ABOUT_MM, at + ABOUT_MM);
        match self.selected.thing() {
            Some(Thing::Obstacle(id)) => {
                document.bay().obstacle(id).map(|obstacle| obstacle.shape.bounds())
            }
            Some(thing @ (Thing::Port(_) | Thing::Via { .. })) => {
                thing.place(document.bay(), self.routing).map(about)
            }
            _ => solved.scene.bounds_of_run(self.selected.run.as_deref()?),
        }
    }

    /// Shows what is selected as large as it goes.
    pub(super) fn fit_selection(&mut self) {
        if let Some(bounds) = self.bounds_of_selection() {
            self.canvas.fit_box(bounds);
        }
    }

    /// Plays the motion, or stops showing it.
    pub(super) fn play_motion(&mut self) {
        self.canvas.moving = match self.canvas.moving {
            Some(moving) if moving.plays => None,
            _ => Some(Moving::played()),
        };
    }

    /// Shows the next routing behind the one in view, or takes it away.
    pub(super) fn toggle_ghost(&mut self) {
        let count = self.bay().map_or(0, |bay| bay.routings.len());
        self.canvas.ghost = match self.canvas.ghost {
            None if count > 1 => Some((self.routing + 1) % count),
            _ => None,
        };
    }
}
