//! The depth cue: what lies behind is fainter. It is measured from what is selected, else from what is nearest
//! to the eye; in steps, so that a drag does not change every colour in every frame.

use glam::DVec3;

use super::super::camera::View;
use super::super::scene::Scene;
use super::super::thing::Thing;

/// How many steps back there are.
pub const STEPS: u8 = 4;
/// The step of what stands in front of what is selected, where that is asked to be seen through.
pub const IN_FRONT: u8 = STEPS + 1;
/// What is nearer to the eye than what is selected by no more than this is not in front of it, mm.
const CUT_MM: f64 = 40.0;
/// The place that is measured from goes in steps of this, mm.
const GRAIN_MM: f64 = 25.0;
/// The bay counts as no shallower than this, mm: what is a hand's breadth behind stays as strong.
const SHALLOW_MM: f64 = 400.0;

/// What depths are measured by.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Behind {
    /// How near the eye something is that is not behind at all, mm.
    from_mm: f64,
    /// From there to the farthest, mm.
    over_mm: f64,
    /// Whether what is nearer is seen through.
    cuts: bool,
}

impl Behind {
    /// From the nearest place of what counts to the farthest of all; depths as [`View::depth`] tells them.
    pub fn between(nearest_mm: f64, farthest_mm: f64) -> Self {
        let from_mm = (nearest_mm / GRAIN_MM).floor() * GRAIN_MM;
        Self { from_mm, over_mm: (from_mm - farthest_mm).max(SHALLOW_MM), cuts: false }
    }

    /// What is nearer than what is measured from is seen through.
    #[must_use]
    pub fn cut(self) -> Self {
        Self { cuts: true, ..self }
    }

    /// In a view of a scene: from what is selected, else from the hose whose card is shown.
    pub fn of(scene: &Scene, view: View, run: Option<&str>, selected: &[Thing]) -> Self {
        let Some(whole) = scene.bounds else { return Self::default() };
        let nearest = |(lo, hi): (DVec3, DVec3)| view.depth(lo).max(view.depth(hi));
        let farthest = view.depth(whole.0).min(view.depth(whole.1));
        let hose = |run: &str| Some(nearest(scene.hoses.iter().find(|h| h.run == run)?.bounds()));
        let thing = |thing: &Thing| match thing {
            Thing::Port(id) => {
                scene.ports.iter().find(|port| port.id == *id).map(|port| view.depth(port.at))
            }
            Thing::Obstacle(id) => {
                let mark = scene.obstacles.iter().find(|mark| mark.id == *id)?;
                Some(nearest(mark.shape.bounds()))
            }
            Thing::Hose(run) | Thing::Via { run, .. } => hose(run),
            Thing::MovingGroup(_) => None,
        };
        let finite = |depth: &f64| depth.is_finite();
        let things = selected.iter().filter_map(thing).filter(finite).reduce(f64::max);
        let from = things.or_else(|| run.and_then(hose).filter(finite));
        Self::between(from.unwrap_or_else(|| nearest(whole)), farthest)
    }

    /// How many steps back something is whose nearest place is at this depth: 0 for what is not behind.
    pub fn step(self, depth_mm: f64) -> u8 {
        if self.cuts && depth_mm > self.from_mm + GRAIN_MM + CUT_MM {
            return IN_FRONT;
        }
        let share = (self.from_mm - depth_mm) / self.over_mm.max(SHALLOW_MM);
        // Past the clamp a cast rounds down what is positive.
        (share * f64::from(STEPS) + 0.5).clamp(0.0, f64::from(STEPS)) as u8
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn what_is_as_near_as_the_selected_or_nearer_is_not_faint() {
        let behind = Behind::between(300.0, -700.0);
        for depth in [900.0, 300.0, 290.0] {
            assert_eq!(behind.step(depth), 0, "{depth}");
        }
        assert_eq!(behind.step(-700.0), STEPS);
        assert_eq!(behind.step(-200.0), STEPS / 2);
    }

    #[test]
    fn what_is_in_front_is_seen_through_only_where_that_is_asked_for() {
        let behind = Behind::between(300.0, -700.0);
        assert_eq!([behind.step(1000.0), behind.cut().step(1000.0)], [0, IN_FRONT]);
        for depth in [310.0, 300.0, 0.0, -700.0] {
            assert_eq!(behind.cut().step(depth), behind.step(depth), "{depth}");
        }
    }

    #[test]
    fn in_a_shallow_bay_little_is_faint() {
        let behind = Behind::between(100.0, 60.0);
        assert_eq!(behind.step(60.0), 0);
    }

    proptest! {
        #[test]
        fn farther_is_never_stronger(
            from in -1e4..1e4_f64, deep in 0.0..1e4_f64, a in -2e4..2e4_f64, by in 0.0..1e4_f64,
        ) {
            let behind = Behind::between(from, from - deep);
            prop_assert!(behind.step(a - by) >= behind.step(a));
            prop_assert!(behind.step(a) <= STEPS);
            prop_assert_eq!(behind.step(from + by), 0);
        }
    }
}
