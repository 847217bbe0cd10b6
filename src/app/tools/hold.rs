//! Something held with the pointer: where it goes, and what that does to the bay.

use glam::{DVec2, DVec3};

use super::typed::Typed;
use crate::app::App;
use crate::app::canvas::camera::View;
use crate::app::canvas::pointer::Gesture;
use crate::app::canvas::snap::Snapped;
use crate::app::canvas::thing::Thing;
use crate::document::Command;
use crate::model::{Bay, Corner, Port, Via};

use super::obstacle::ObstacleDraft;

/// A drag under way.
#[derive(Debug, Clone, PartialEq)]
pub struct Drag {
    /// What is held.
    pub held: Held,
    /// In which view.
    pub view: View,
    /// Where it was.
    pub from: DVec3,
    /// From the pointer to the thing when it was taken hold of, mm in the view.
    pub grip: DVec2,
    /// Where it is now.
    pub place: DVec3,
    /// Where the pointer is, mm in the view.
    pub pointer: DVec2,
    /// Coordinates typed meanwhile.
    pub typed: Typed,
    /// What decided where it is.
    pub snapped: Option<Snapped>,
    /// Where the coordinate comes from that the view does not show, for something new.
    pub third: Option<String>,
}

/// What a drag moves or makes.
#[derive(Debug, Clone, PartialEq)]
pub enum Held {
    /// Things, with the one that was taken hold of.
    Things {
        /// The one under the pointer.
        grabbed: Thing,
        /// All that move with it, itself too.
        all: Vec<Thing>,
    },
    /// A bend that is pulled out of a hose.
    NewCorner {
        /// Id of the run.
        run: String,
        /// The place in `Run::via` that it takes.
        at: usize,
    },
    /// A port whose direction is dragged out; it stands where the drag began.
    NewPort(Box<Port>),
    /// An obstacle that is drawn.
    NewObstacle(ObstacleDraft),
    /// A hose that is pulled from a port.
    NewHose,
    /// A rectangle to select by.
    Frame {
        /// Whether it adds to what is selected.
        adds: bool,
    },
    /// A distance measured on screen.
    Measure,
}

impl Drag {
    /// Something taken hold of at the place where the gesture began.
    pub(super) fn new(held: Held, gesture: &Gesture, from: DVec3) -> Self {
        Self {
            held,
            view: gesture.view,
            from,
            grip: gesture.view.project(from) - gesture.at,
            place: from,
            pointer: gesture.at,
            typed: Typed::default(),
            snapped: None,
            third: None,
        }
    }

    /// The thing that moves, where it is one of the bay already.
    pub fn thing(&self) -> Option<Thing> {
        match &self.held {
            Held::Things { grabbed, .. } => Some(grabbed.clone()),
            Held::NewCorner { run, at } => Some(Thing::Via { run: run.clone(), via: *at }),
            Held::NewPort(port) => Some(Thing::Port(port.id.clone())),
            Held::NewObstacle(draft) => Some(Thing::Obstacle(draft.id.clone())),
            Held::NewHose | Held::Frame { .. } | Held::Measure => None,
        }
    }

    /// What moves, and so is no mark to go by.
    pub(super) fn moving(&self) -> Vec<Thing> {
        match &self.held {
            Held::Things { all, .. } => all.clone(),
            _ => self.thing().into_iter().collect(),
        }
    }

    /// What it does to the bay as it was when the drag began.
    pub(super) fn command(&self, bay: &Bay, routing: usize) -> Option<Command> {
        match &self.held {
            Held::Things { all, .. } => {
                let items = all.iter().filter_map(|thing| thing.item(bay, routing)).collect();
                Some(Command::Move { items, by: self.place - self.from })
            }
            Held::NewCorner { run, at } => Some(Command::AddVia {
                routing: bay.routings.get(routing)?.id.clone(),
                run: run.clone(),
                at: *at,
                via: Via::Corner(Corner { at: self.place, ..Corner::default() }),
            }),
            Held::NewPort(port) => Some(super::port::command(port, self)),
            Held::NewObstacle(draft) => draft.command(self),
            Held::NewHose | Held::Frame { .. } | Held::Measure => None,
        }
    }
}

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
