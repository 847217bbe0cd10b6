//! Measuring: from place to place in a view.

use crate::app::canvas::gesture::Gesture;
use crate::app::tools::Hand;
use crate::app::tools::drag::{Drag, Held};
use crate::app::work::Work;

impl Hand {
    pub(super) fn begin_measure(&mut self, work: &mut Work, gesture: &Gesture) {
        let on_port = gesture.hit.as_ref().and_then(|hit| {
            let thing = hit.thing()?;
            let document = work.document.as_ref()?;
            thing.place(document.bay(), work.routing)
        });
        let from = on_port
            .unwrap_or_else(|| self.landing_at(work, gesture.view, gesture.at, gesture.free).0);
        self.measurement = None;
        let mut drag = Drag::new(Held::Measure, gesture, from);
        drag.grip = glam::DVec2::ZERO;
        work.hold(drag);
    }
}
