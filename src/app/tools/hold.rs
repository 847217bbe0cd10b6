//! Something held with the pointer: where it goes, and what that does to the bay.

use crate::app::canvas::gesture::Gesture;
use crate::app::canvas::thing::Thing;
use crate::app::tools::Hand;
use crate::app::tools::drag::{Drag, Held};
use crate::app::work::Work;

impl Hand {
    /// The pointer goes on.
    pub(super) fn drag_to(&mut self, work: &mut Work, gesture: &Gesture) {
        let Some(drag) = &mut work.drag else { return };
        if drag.view != gesture.view {
            return;
        }
        drag.pointer = gesture.at;
        self.drag_free = gesture.free;
        self.replace_held(work);
    }

    /// Works out again where what is held goes, and shows what that does.
    pub(super) fn replace_held(&mut self, work: &mut Work) {
        let Some(snapped) = self.landing(work) else { return };
        let (Some(drag), Some(document)) = (&mut work.drag, &mut work.document) else { return };
        drag.place = snapped.place;
        drag.snapped = Some(snapped);
        // Ids and places are those before the drag.
        let before = document.before();
        if let Some(command) = drag.command(before, work.routing)
            && let Err(error) = document.preview(&command)
        {
            work.drag_abort();
            work.say(error.to_string());
        }
    }

    /// The button is released.
    pub(super) fn finish(&mut self, work: &mut Work, gesture: &Gesture) {
        if matches!(&work.drag, Some(Drag { held: Held::NewHose, .. })) {
            work.drag_abort();
            self.drop_hose(work, gesture);
        } else {
            self.release(work);
        }
    }

    /// What is held stays where it is.
    pub(super) fn release(&mut self, work: &mut Work) {
        let Some(drag) = work.drag.take() else { return };
        match &drag.held {
            Held::Frame { adds } => return work.select_in_frame(&drag, *adds),
            Held::Measure => {
                self.measurement = Some((drag.view, drag.from, drag.place));
                if let Some(document) = &mut work.document {
                    document.abort();
                }
                return;
            }
            _ => {}
        }
        let Some(document) = &mut work.document else { return };
        let changed = document.commit();
        let is_new = changed && !matches!(drag.held, Held::Things { .. });
        if let (true, Some(thing)) = (is_new, drag.thing()) {
            work.select_thing(thing.clone());
            work.selected.select_fresh(vec![thing.clone()]);
            self.made(work, &drag.held, &thing);
        }
    }

    /// After something was made: tools that make one thing at a time are put down.
    fn made(&mut self, work: &mut Work, held: &Held, thing: &Thing) {
        if matches!(held, Held::NewObstacle(_)) {
            self.tool = super::Tool::Select;
        }
        if let Thing::Port(port) = thing {
            work.say_what_it_is_on(port);
        }
        let place = work.bay().and_then(|bay| thing.place(bay, work.routing));
        self.last_place = place.or(self.last_place);
    }
}
