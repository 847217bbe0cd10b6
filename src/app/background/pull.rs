//! Two points picked with one pull of the pointer: from the first, held, to the second. A photo that
//! is moved so goes along.

use glam::DVec2;

use super::picking::{self, Task};
use crate::app::App;
use crate::app::canvas::camera::View;
use crate::app::canvas::gesture::{Gesture, Kind};
use crate::document::Command;
use crate::model::Background;

/// A pull that has begun.
#[derive(Debug, Clone)]
pub(super) struct Pull {
    from_mm: DVec2,
    from_screen: DVec2,
    /// Whether it may pick both points: it began with the first, in the right view.
    picks_both: bool,
    /// As it was, where it is moved.
    before: Option<Background>,
}

/// A shorter pull is a click that trembled, screen points.
const TREMBLE: f64 = 8.0;

impl App {
    /// Hears the pointer while points of a background are picked.
    pub(in crate::app) fn pick_by(&mut self, gesture: &Gesture) {
        match gesture.kind {
            Kind::Begin => self.begin_pull(gesture),
            Kind::Move => self.pull_to(gesture),
            Kind::End => self.end_pull(gesture),
            Kind::Click | Kind::DoubleClick => {
                self.click_in_view(gesture.view, gesture.at);
            }
        }
    }

    fn begin_pull(&mut self, gesture: &Gesture) {
        let Some(picking) = &self.desk.picking else { return };
        let is_first = picking.points.is_empty() && picking.task.needs() == 2;
        let picks_both = is_first && View::of(picking.plane) == gesture.view;
        let moves = picks_both && picking.task == Task::Move;
        let before = self.background(&picking.id).filter(|_| moves);
        let (from_mm, from_screen) = (gesture.at, gesture.on_screen);
        self.desk.pull = Some(Pull { from_mm, from_screen, picks_both, before });
    }

    fn pull_to(&mut self, gesture: &Gesture) {
        let Some(Pull { from_mm, before: Some(before), .. }) = &self.desk.pull else { return };
        let to = picking::moved(before.clone(), *from_mm, gesture.at);
        let command = Command::SetBackground {
            id: before.id.clone(),
            background: Box::new(to),
            label: Task::Move.label(),
        };
        if let Some(Err(error)) = self.document.as_mut().map(|d| d.preview(&command)) {
            self.say(error.to_string());
        }
    }

    fn end_pull(&mut self, gesture: &Gesture) {
        // None: it was let go of by key before the button was.
        let Some(pull) = self.desk.pull.clone() else { return };
        if !pull.picks_both || pull.from_screen.distance(gesture.on_screen) < TREMBLE {
            self.drop_pull();
            self.click_in_view(gesture.view, gesture.at);
            return;
        }
        if pull.before.is_some() {
            self.pull_to(gesture);
            self.desk.pull = None;
            self.desk.picking = None;
            if let Some(document) = &mut self.document {
                document.commit();
            }
            self.show_alone();
            return;
        }
        self.desk.pull = None;
        if self.click_in_view(gesture.view, pull.from_mm) {
            self.click_in_view(gesture.view, gesture.at);
        }
    }

    /// Lets go of a pull: what went along goes back. Says whether there was one.
    pub(in crate::app) fn drop_pull(&mut self) -> bool {
        let Some(pull) = self.desk.pull.take() else { return false };
        if let (Some(_), Some(document)) = (&pull.before, &mut self.document) {
            document.abort();
        }
        true
    }
}
