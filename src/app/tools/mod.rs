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

pub(super) use riding::measure_lines;

pub(super) use typed::typed_keys;

use glam::{DVec2, DVec3};

use super::App;
use super::canvas::camera::View;
use super::canvas::gesture::Hit;
use super::canvas::gesture::{Gesture, Kind};
use super::canvas::thing::Thing;
use crate::app::actions::Tool;
use crate::document::Command;

impl App {
    /// Takes a gesture of the canvas.
    pub(super) fn gesture(&mut self, gesture: &Gesture) {
        if self.document.is_none() {
            return;
        }
        self.canvas.active = gesture.view;
        if self.is_picking() {
            self.pick_by(gesture);
            return;
        }
        match gesture.kind {
            Kind::Begin => self.begin(gesture),
            Kind::Move => {
                self.drag_to(gesture);
                self.sketch_to(gesture);
            }
            Kind::End => {
                self.drag_to(gesture);
                self.finish(gesture);
            }
            Kind::Click => self.click(gesture),
            Kind::DoubleClick => self.double_click(gesture),
        }
    }

    fn begin(&mut self, gesture: &Gesture) {
        match self.tool {
            Tool::Select => self.begin_selecting(gesture),
            Tool::Port => self.begin_port(gesture),
            Tool::Hose => self.begin_hose(gesture),
            Tool::Clamp => self.click(gesture),
            Tool::Obstacle => self.begin_obstacle(gesture),
            Tool::Measure => self.begin_measure(gesture),
        }
    }

    fn click(&mut self, gesture: &Gesture) {
        match self.tool {
            Tool::Select | Tool::Obstacle | Tool::Measure => self.click_selecting(gesture),
            Tool::Port => self.click_port(gesture),
            Tool::Hose => self.click_hose(gesture),
            Tool::Clamp => self.click_clamp(gesture),
        }
    }

    fn double_click(&mut self, gesture: &Gesture) {
        match (self.tool, &gesture.hit) {
            (Tool::Select, None) => self.fit_view(gesture.view),
            (Tool::Select, Some(Hit::Thing { thing, .. })) => {
                let thing = thing.clone();
                self.begin_rename(thing);
            }
            _ => self.click(gesture),
        }
    }

    /// Moves a thing by the keyboard, or all that is selected.
    pub(super) fn nudge(&mut self, thing: Option<Thing>, view: View, by: DVec2) {
        if let Some(thing) = thing
            && !self.selected.things.contains(&thing)
        {
            self.select_thing(thing);
        }
        if let Some(items) = self.selected_items() {
            self.apply(&Command::Move { items, by: view.with(DVec3::ZERO, by) });
        }
    }

    /// Carries out a command of the document.
    pub(super) fn apply(&mut self, command: &Command) {
        self.drag_abort();
        let Some(document) = &mut self.document else { return };
        if let Err(error) = document.apply(command) {
            self.say(error.to_string());
        }
    }

    /// Takes up a tool.
    pub(super) fn take_tool(&mut self, tool: Tool) {
        self.drag_abort();
        self.sketch = None;
        self.tool = tool;
    }
}
