//! Something held with the pointer: where it goes, and what that does to the bay.

use glam::{DVec2, DVec3};

use super::typed::Typed;
use crate::app::App;
use crate::app::canvas::camera::View;
use crate::app::canvas::pointer::Gesture;
use crate::app::canvas::thing::Thing;
use crate::document::Command;
use crate::model::{Bay, Corner, Port, Via};
use crate::units::LengthUnit;

use super::keep_off::SolidDraft;

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
}

/// What a drag moves or makes.
#[derive(Debug, Clone, PartialEq)]
pub enum Held {
    /// Things, with the one that was taken hold of.
    Things {
        /// The one under the pointer.
        lead: Thing,
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
    /// A solid that is drawn.
    NewSolid(SolidDraft),
    /// A hose that is pulled from a port.
    NewHose,
    /// A rectangle to choose by.
    Frame {
        /// Whether it adds to what is chosen.
        adds: bool,
    },
    /// A measuring tape.
    Tape,
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
        }
    }

    /// The thing that moves, where it is one of the bay already.
    pub fn lead(&self) -> Option<Thing> {
        match &self.held {
            Held::Things { lead, .. } => Some(lead.clone()),
            Held::NewCorner { run, at } => Some(Thing::Via { run: run.clone(), via: *at }),
            Held::NewPort(port) => Some(Thing::Port(port.id.clone())),
            Held::NewSolid(draft) => Some(Thing::Solid(draft.id.clone())),
            Held::NewHose | Held::Frame { .. } | Held::Tape => None,
        }
    }

    /// What moves, and so is no mark to go by.
    pub(super) fn moving(&self) -> Vec<Thing> {
        match &self.held {
            Held::Things { all, .. } => all.clone(),
            _ => self.lead().into_iter().collect(),
        }
    }

    /// Where the thing goes with the pointer at `pointer` (in the plane of the view) where nothing
    /// else decides. Coordinates that move land on whole steps of the bay's unit; one that does not
    /// move stays as it is.
    pub fn free_place(&self, pointer: DVec2, unit: LengthUnit) -> DVec3 {
        let step = step_mm(unit);
        let old = self.view.project(self.from);
        let new = pointer + self.grip;
        let landed = |old: f64, new: f64| {
            if (new - old).abs() < step / 2.0 { old } else { (new / step).round() * step }
        };
        self.view.with(self.from, DVec2::new(landed(old.x, new.x), landed(old.y, new.y)))
    }

    /// What it does to the bay as it was when the drag began.
    pub(super) fn command(&self, bay: &Bay, option: usize) -> Option<Command> {
        match &self.held {
            Held::Things { all, .. } => {
                let items = all.iter().filter_map(|thing| thing.item(bay, option)).collect();
                Some(Command::Move { items, by: self.place - self.from })
            }
            Held::NewCorner { run, at } => Some(Command::AddVia {
                option: bay.options.get(option)?.id.clone(),
                run: run.clone(),
                at: *at,
                via: Via::Corner(Corner { at: self.place, ..Corner::default() }),
            }),
            Held::NewPort(port) => Some(super::port::command(port, self)),
            Held::NewSolid(draft) => draft.command(self),
            Held::NewHose | Held::Frame { .. } | Held::Tape => None,
        }
    }
}

/// What a drag moves by at least: what a builder measures to.
pub(super) fn step_mm(unit: LengthUnit) -> f64 {
    match unit {
        LengthUnit::Mm => 1.0,
        LengthUnit::Inch => 25.4 / 16.0,
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

    /// Works out anew where what is held goes, and shows what that does.
    pub(super) fn replace_held(&mut self) {
        let Some(place) = self.landing() else { return };
        let (Some(drag), Some(document)) = (&mut self.drag, &mut self.document) else { return };
        drag.place = place;
        // Ids and places are those before the drag.
        let before = document.before();
        if let Some(command) = drag.command(before, self.option)
            && let Err(error) = document.preview(&command)
        {
            self.drag_abort();
            self.say(error.to_string());
        }
    }

    /// Where what is held goes: by what was typed, by what it snaps to, else by the pointer.
    fn landing(&self) -> Option<DVec3> {
        let (drag, document) = (self.drag.as_ref()?, self.document.as_ref()?);
        let unit = document.bay().show_units;
        let place = if self.drag_free {
            drag.view.with(drag.from, drag.pointer + drag.grip)
        } else {
            drag.free_place(drag.pointer, unit)
        };
        Some(drag.typed.fix(place, drag.view, unit))
    }

    /// The button is released.
    pub(super) fn finish(&mut self, gesture: &Gesture) {
        if matches!(&self.drag, Some(Drag { held: Held::NewHose, .. })) {
            self.drag_abort();
            self.drop_hose(gesture);
        } else {
            self.let_go();
        }
    }

    /// What is held stays where it is.
    pub(super) fn let_go(&mut self) {
        let Some(drag) = self.drag.take() else { return };
        match &drag.held {
            Held::Frame { adds } => return self.choose_in_frame(&drag, *adds),
            Held::Tape => {
                self.tape = Some((drag.view, drag.from, drag.place));
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
        if let (true, Some(thing)) = (is_new, drag.lead()) {
            self.choose_thing(thing.clone());
            self.made(&drag.held, &thing);
        }
    }

    /// After something was made: tools that make one thing at a time are put down.
    fn made(&mut self, held: &Held, thing: &Thing) {
        if matches!(held, Held::NewSolid(_)) {
            self.tool = super::Tool::Choose;
        }
        let place = self.document.as_ref().and_then(|d| thing.place(d.bay(), self.option));
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

    /// The coordinate that a view does not show, for something new in it: the last one used, else
    /// that of the middle of the bay.
    pub(super) fn placed_in(&self, view: View, at: DVec2) -> DVec3 {
        let bounds = self.solved.as_ref().and_then(|solved| solved.scene.bounds);
        let middle = bounds.map_or(DVec3::ZERO, |(lo, hi)| ((lo + hi) / 2.0).round());
        view.with(self.last_place.unwrap_or(middle), at)
    }
}

#[cfg(test)]
mod tests {
    use glam::{dvec2, dvec3};

    use super::*;

    fn drag(view: View) -> Drag {
        let lead = Thing::Port("p".into());
        Drag {
            held: Held::Things { all: vec![lead.clone()], lead },
            view,
            from: dvec3(10.25, 20.25, 30.25),
            grip: dvec2(2.0, -1.0),
            place: DVec3::ZERO,
            pointer: DVec2::ZERO,
            typed: Typed::default(),
        }
    }

    #[test]
    fn only_the_two_coordinates_of_the_view_change() {
        let place = |view| drag(view).free_place(dvec2(48.3, 61.4), LengthUnit::Mm);
        assert_eq!(place(View::Plan), dvec3(50.0, 60.0, 30.25));
        assert_eq!(place(View::Side), dvec3(50.0, 20.25, 60.0));
        assert_eq!(place(View::Front), dvec3(10.25, 50.0, 60.0));
    }

    #[test]
    fn a_coordinate_that_does_not_move_is_not_rounded() {
        let back = drag(View::Plan).free_place(dvec2(8.25, 41.0), LengthUnit::Mm);
        assert_eq!(back, dvec3(10.25, 40.0, 30.25));
    }

    #[test]
    fn inches_land_on_sixteenths() {
        let x = drag(View::Plan).free_place(dvec2(98.0, 51.0), LengthUnit::Inch).x;
        let sixteenths = x / 25.4 * 16.0;
        assert!((sixteenths - sixteenths.round()).abs() < 1e-9);
    }
}
