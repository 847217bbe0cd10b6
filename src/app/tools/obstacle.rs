//! Drawing obstacles: from corner to corner, along an axis, or from the middle out.

use crate::app::actions::ObstacleKind;
use crate::app::canvas::gesture::Gesture;
use crate::app::tools::Hand;
use crate::app::tools::drag::{Drag, Held, ObstacleDraft};
use crate::app::work::Work;
use crate::document::fresh_id;

impl Hand {
    pub(super) fn begin_obstacle(&mut self, work: &mut Work, gesture: &Gesture) {
        let Some(bay) = work.bay() else { return };
        let (_, word) = ObstacleKind::ALL[self.obstacle_kind as usize];
        let draft = ObstacleDraft {
            id: fresh_id("obstacle-1", |id| bay.obstacle(id).is_some()),
            name: format!("{word} {}", bay.obstacles.len() + 1),
            kind: self.obstacle_kind,
        };
        let (from, third) = self.landing_at(work, gesture.view, gesture.at, gesture.free);
        let mut drag = Drag::new(Held::NewObstacle(draft), gesture, from);
        drag.grip = glam::DVec2::ZERO;
        drag.third = Some(third.words);
        work.hold(drag);
    }
}
