//! What the pointer does to the bay, tool by tool. A gesture of the canvas comes in; commands of
//! the document come out. Whatever is under way is one transaction: it shows at once, and becomes
//! one step when the button is released.

mod clamp;
pub mod drag;
mod edit;
mod hold;
mod hose;
mod landing;
mod measure;
mod obstacle;
mod port;
mod riding;
mod select;
mod typed;

pub(super) use typed::typed_keys;

use glam::{DVec2, DVec3};

use super::canvas::camera::View;
use super::canvas::gesture::{Gesture, Hit, Kind};
use super::canvas::thing::Thing;
use crate::app::actions::{ObstacleKind, Tool};
use crate::app::work::Work;
use crate::document::Command;

/// What the pointer does, and what is kept of it.
#[derive(Default)]
pub(super) struct Hand {
    pub(super) tool: Tool,
    /// The form that the obstacle tool draws.
    pub(super) obstacle_kind: ObstacleKind,
    /// Nothing snaps just now.
    drag_free: bool,
    /// The last measure taken: in which view, from where to where.
    pub(super) measurement: Option<(View, DVec3, DVec3)>,
    /// What is being renamed, and the name as typed so far.
    pub(super) renaming: Option<(Thing, String)>,
    /// What was copied last, to be put in again.
    copied: Vec<Thing>,
    /// Where the last thing was put: a new one takes from it what a view does not show.
    last_place: Option<DVec3>,
}

impl Hand {
    /// Another bay: only what was copied stays.
    pub(super) fn let_go(&mut self) {
        let (obstacle_kind, copied) = (self.obstacle_kind, std::mem::take(&mut self.copied));
        *self = Self { obstacle_kind, copied, ..Self::default() };
    }

    /// Takes a gesture of the canvas.
    pub(super) fn gesture(&mut self, work: &mut Work, gesture: &Gesture) {
        if gesture.kind != Kind::Move {
            work.selected.note_fresh();
        }
        match gesture.kind {
            Kind::Begin => self.begin(work, gesture),
            Kind::Move => {
                self.drag_to(work, gesture);
                work.sketch_to(gesture);
            }
            Kind::End => {
                self.drag_to(work, gesture);
                self.finish(work, gesture);
            }
            Kind::Click => self.click(work, gesture),
            Kind::DoubleClick => self.double_click(work, gesture),
        }
    }

    fn begin(&mut self, work: &mut Work, gesture: &Gesture) {
        match self.tool {
            Tool::Select => work.begin_selecting(gesture),
            Tool::Port => self.begin_port(work, gesture),
            Tool::Hose => self.begin_hose(work, gesture),
            Tool::Clamp => self.click(work, gesture),
            Tool::Obstacle => self.begin_obstacle(work, gesture),
            Tool::Measure => self.begin_measure(work, gesture),
        }
    }

    fn click(&mut self, work: &mut Work, gesture: &Gesture) {
        match self.tool {
            Tool::Select | Tool::Obstacle | Tool::Measure => self.click_selecting(work, gesture),
            Tool::Port => self.click_port(work, gesture),
            Tool::Hose => self.click_hose(work, gesture),
            Tool::Clamp => work.click_clamp(gesture),
        }
    }

    fn double_click(&mut self, work: &mut Work, gesture: &Gesture) {
        match (self.tool, &gesture.hit) {
            (Tool::Select, None) => work.fit_view(gesture.view),
            (Tool::Select, Some(Hit::Thing { thing, .. })) => {
                let thing = thing.clone();
                self.begin_rename(work, thing);
            }
            _ => self.click(work, gesture),
        }
    }

    /// Takes up a tool.
    pub(super) fn take_tool(&mut self, work: &mut Work, tool: Tool) {
        work.drag_abort();
        work.sketch = None;
        self.tool = tool;
    }
}

impl Work {
    /// Moves a thing by the keyboard, or all that is selected: `by` in steps of the bench.
    pub(super) fn nudge(&mut self, thing: Option<Thing>, view: View, by: DVec2) {
        if let Some(thing) = thing
            && !self.selected.things.contains(&thing)
        {
            self.select_thing(thing);
        }
        if let Some(items) = self.selected_items() {
            let unit = self.document.as_ref().map(|document| document.bay().show_units);
            let by = by * unit.unwrap_or_default().bench_step_mm();
            self.apply(&Command::Move { items, by: view.with(DVec3::ZERO, by) });
        }
    }
}
