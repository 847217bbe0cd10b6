//! Measuring: from place to place in a view.

use crate::app::App;
use crate::app::canvas::gesture::Gesture;
use crate::app::tools::drag::{Drag, Held};

impl App {
    pub(super) fn begin_measure(&mut self, gesture: &Gesture) {
        let on_port = gesture.hit.as_ref().and_then(|hit| {
            let thing = hit.thing()?;
            let document = self.document.as_ref()?;
            thing.place(document.bay(), self.routing)
        });
        let from =
            on_port.unwrap_or_else(|| self.landing_at(gesture.view, gesture.at, gesture.free).0);
        self.measurement = None;
        let mut drag = Drag::new(Held::Measure, gesture, from);
        drag.grip = glam::DVec2::ZERO;
        self.hold(drag);
    }
}
