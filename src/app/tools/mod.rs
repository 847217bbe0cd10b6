//! What the pointer does to the bay, tool by tool. A gesture of the canvas comes in; commands of
//! the document come out. Whatever is under way is one transaction: it shows at once, and becomes
//! one step when the button is released.

mod choose;
mod clamp;
mod edit;
mod hold;
mod hose;
mod landing;
mod min_clearance;
mod port;
mod riding;
mod tape;
mod typed;

pub use edit::Edit;
pub use hold::{Drag, Held};
pub use hose::Sketch;
pub use min_clearance::ObstacleKind;
pub(super) use riding::tape_lines;
pub use typed::TypedKey;
pub(super) use typed::typed_keys;

use eframe::egui::CursorIcon;
use glam::{DVec2, DVec3};

use super::App;
use super::canvas::camera::View;
use super::canvas::layout::Hit;
use super::canvas::pointer::{Gesture, Kind};
use super::canvas::thing::Thing;
use crate::document::Command;

/// What the pointer does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Tool {
    /// Chooses, moves, pulls bends.
    #[default]
    Choose,
    /// Puts down ports.
    Port,
    /// Pulls hoses from port to port.
    Hose,
    /// Puts clamps on hoses.
    Clamp,
    /// Draws obstacles to keep off.
    MinClearance,
    /// Measures.
    Tape,
}

impl Tool {
    /// What to do next, in a few words.
    pub fn advice(self) -> &'static str {
        match self {
            Self::Choose => {
                "Drag things to move them, drag a hose to pull a bend out of it, drag on paper to select several"
            }
            Self::Port => "Press where the seat is and drag the way the hose leaves",
            Self::Hose => "Press on a port and drag to another; or click port, corners, port",
            Self::Clamp => "Click a hose",
            Self::MinClearance => "Drag from corner to corner",
            Self::Tape => "Drag from one place to another",
        }
    }

    /// How the pointer looks.
    pub(super) fn cursor(self, hit: Option<&Hit>) -> CursorIcon {
        let thing = hit.and_then(Hit::thing);
        match (self, hit, thing) {
            (Self::Choose, _, Some(_)) => CursorIcon::Grab,
            (Self::Choose, None, None) => CursorIcon::Default,
            (Self::Choose, Some(Hit::Finding(_)), _)
            | (Self::Clamp, _, Some(Thing::Hose(_)))
            | (Self::Hose, _, Some(Thing::Port(_))) => CursorIcon::PointingHand,
            _ => CursorIcon::Crosshair,
        }
    }
}

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
            Tool::Choose => self.begin_choosing(gesture),
            Tool::Port => self.begin_port(gesture),
            Tool::Hose => self.begin_hose(gesture),
            Tool::Clamp => self.click(gesture),
            Tool::MinClearance => self.begin_min_clearance(gesture),
            Tool::Tape => self.begin_tape(gesture),
        }
    }

    fn click(&mut self, gesture: &Gesture) {
        match self.tool {
            Tool::Choose | Tool::MinClearance | Tool::Tape => self.click_choosing(gesture),
            Tool::Port => self.click_port(gesture),
            Tool::Hose => self.click_hose(gesture),
            Tool::Clamp => self.click_clamp(gesture),
        }
    }

    fn double_click(&mut self, gesture: &Gesture) {
        match (self.tool, &gesture.hit) {
            (Tool::Choose, None) => self.fit_view(gesture.view),
            (Tool::Choose, Some(Hit::Thing { thing, .. })) => {
                let thing = thing.clone();
                self.begin_rename(thing);
            }
            _ => self.click(gesture),
        }
    }

    /// Moves a thing by the keyboard, or all that is chosen.
    pub(super) fn nudge(&mut self, thing: Option<Thing>, view: View, by: DVec2) {
        if let Some(thing) = thing
            && !self.chosen.things.contains(&thing)
        {
            self.choose_thing(thing);
        }
        if let Some(items) = self.chosen_items() {
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
