//! Two points picked with one pull of the pointer: from the first, held, to the second. A photo that
//! is moved so goes along.

use glam::DVec2;

use super::picking::{self, Task};
use crate::app::background::Desk;
use crate::app::canvas::camera::View;
use crate::app::canvas::gesture::{Gesture, Kind};
use crate::app::work::Work;
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

impl Desk {
    /// Hears the pointer while points of a background are picked.
    pub(in crate::app) fn pick_by(&mut self, work: &mut Work, gesture: &Gesture) {
        match gesture.kind {
            Kind::Begin => self.begin_pull(work, gesture),
            Kind::Move => self.pull_to(work, gesture),
            Kind::End => self.end_pull(work, gesture),
            Kind::Click | Kind::DoubleClick => {
                self.click_in_view(work, gesture.view, gesture.at);
            }
        }
    }

    fn begin_pull(&mut self, work: &mut Work, gesture: &Gesture) {
        let Some(picking) = &self.picking else { return };
        let is_first = picking.points.is_empty() && picking.task.needs() == 2;
        let picks_both = is_first && View::of(picking.plane) == gesture.view;
        let moves = picks_both && picking.task == Task::Move;
        let before = work.background(&picking.id).filter(|_| moves);
        let (from_mm, from_screen) = (gesture.at, gesture.on_screen);
        self.pull = Some(Pull { from_mm, from_screen, picks_both, before });
    }

    fn pull_to(&mut self, work: &mut Work, gesture: &Gesture) {
        let Some(Pull { from_mm, before: Some(before), .. }) = &self.pull else { return };
        let to = picking::moved(before.clone(), *from_mm, gesture.at);
        let command = Command::SetBackground {
            id: before.id.clone(),
            background: Box::new(to),
            label: Task::Move.label(),
        };
        work.preview(&command);
    }

    fn end_pull(&mut self, work: &mut Work, gesture: &Gesture) {
        // None: it was let go of by key before the button was.
        let Some(pull) = self.pull.clone() else { return };
        if !pull.picks_both || pull.from_screen.distance(gesture.on_screen) < TREMBLE {
            self.drop_pull(work);
            self.click_in_view(work, gesture.view, gesture.at);
            return;
        }
        if pull.before.is_some() {
            self.pull_to(work, gesture);
            self.pull = None;
            self.picking = None;
            work.commit();
            work.show_alone();
            return;
        }
        self.pull = None;
        if self.click_in_view(work, gesture.view, pull.from_mm) {
            self.click_in_view(work, gesture.view, gesture.at);
        }
    }

    /// Lets go of a pull: what went along goes back. Says whether there was one.
    pub(in crate::app) fn drop_pull(&mut self, work: &mut Work) -> bool {
        let Some(pull) = self.pull.take() else { return false };
        if let (Some(_), Some(document)) = (&pull.before, &mut work.document) {
            document.abort();
        }
        true
    }
}
