//! Something held with the pointer: where it goes, and what that does to the bay.

use crate::app::App;
use crate::app::canvas::gesture::Gesture;
use crate::app::canvas::thing::Thing;
use crate::app::tools::drag::{Drag, Held};

impl App {
    pub(super) fn hold(&mut self, drag: Drag) {
        let Some(document) = &mut self.document else { return };
        if self.drag.is_none() {
            document.begin();
            self.drag = Some(drag);
        }
    }

    /// The pointer goes on.
    pub(super) fn drag_to(&mut self, gesture: &Gesture) {
        let Some(drag) = &mut self.drag else { return };
        if drag.view != gesture.view {
            return;
        }
        drag.pointer = gesture.at;
        self.drag_free = gesture.free;
        self.replace_held();
    }

    /// Works out again where what is held goes, and shows what that does.
    pub(super) fn replace_held(&mut self) {
        let Some(snapped) = self.landing() else { return };
        let (Some(drag), Some(document)) = (&mut self.drag, &mut self.document) else { return };
        drag.place = snapped.place;
        drag.snapped = Some(snapped);
        // Ids and places are those before the drag.
        let before = document.before();
        if let Some(command) = drag.command(before, self.routing)
            && let Err(error) = document.preview(&command)
        {
            self.drag_abort();
            self.say(error.to_string());
        }
    }

    /// The button is released.
    pub(super) fn finish(&mut self, gesture: &Gesture) {
        if matches!(&self.drag, Some(Drag { held: Held::NewHose, .. })) {
            self.drag_abort();
            self.drop_hose(gesture);
        } else {
            self.release();
        }
    }

    /// What is held stays where it is.
    pub(super) fn release(&mut self) {
        let Some(drag) = self.drag.take() else { return };
        match &drag.held {
            Held::Frame { adds } => return self.select_in_frame(&drag, *adds),
            Held::Measure => {
                self.measurement = Some((drag.view, drag.from, drag.place));
                if let Some(document) = &mut self.document {
                    document.abort();
                }
                return;
            }
            _ => {}
        }
        let Some(document) = &mut self.document else { return };
        let changed = document.commit();
        let is_new = changed && !matches!(drag.held, Held::Things { .. });
        if let (true, Some(thing)) = (is_new, drag.thing()) {
            self.select_thing(thing.clone());
            self.made(&drag.held, &thing);
        }
    }

    /// After something was made: tools that make one thing at a time are put down.
    fn made(&mut self, held: &Held, thing: &Thing) {
        if matches!(held, Held::NewObstacle(_)) {
            self.tool = super::Tool::Select;
        }
        let place = self.document.as_ref().and_then(|d| thing.place(d.bay(), self.routing));
        self.last_place = place.or(self.last_place);
    }

    /// Says whether there was a drag to abort.
    pub(in crate::app) fn drag_abort(&mut self) -> bool {
        let was = self.drag.take().is_some();
        if let (true, Some(document)) = (was, &mut self.document) {
            document.abort();
        }
        was
    }
}
