//! What is in the hand: something held with the pointer, a hose that is begun; and what that does to
//! the bay.

use glam::{DVec2, DVec3};

use crate::app::actions::ObstacleKind;
use crate::app::canvas::camera::View;
use crate::app::canvas::gesture::Gesture;
use crate::app::canvas::snap::Snapped;
use crate::app::canvas::thing::Thing;
use crate::document::Command;
use crate::model::{Bay, Corner, Nature, Obstacle, Port, Shape, Via};
use crate::units::{Length, LengthUnit};

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
            Held::NewPort(port) => Some(port_command(port, self)),
            Held::NewObstacle(draft) => draft.command(self),
            Held::NewHose | Held::Frame { .. } | Held::Measure => None,
        }
    }
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

/// An obstacle that is being drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct ObstacleDraft {
    /// Its id.
    pub id: String,
    pub(super) name: String,
    pub(super) kind: ObstacleKind,
}

impl ObstacleDraft {
    /// The obstacle as far as it is drawn; none while it has no extent.
    pub(super) fn command(&self, drag: &Drag) -> Option<Command> {
        let shape = self.shape(drag)?;
        Some(Command::AddObstacle(Box::new(Obstacle {
            id: self.id.clone(),
            name: self.name.clone(),
            nature: Nature::Plain,
            min_clearance_mm: None,
            group: None,
            shape,
            locked: None,
            extra: Vec::new(),
        })))
    }

    fn shape(&self, drag: &Drag) -> Option<Shape> {
        let (from, to) = (drag.from, drag.place);
        let drawn = drag.view.project(to) - drag.view.project(from);
        match self.kind {
            ObstacleKind::Box => {
                // As deep as it is narrow, about the coordinate that this view does not show.
                let depth = drag.view.to_viewer().abs() * drawn.abs().min_element() / 2.0;
                let (min, max) = (from.min(to) - depth, from.max(to) + depth);
                (drawn.abs().min_element() > 0.0).then_some(Shape::Box { min, max })
            }
            ObstacleKind::Cylinder => {
                (from != to).then_some(Shape::Cylinder { from, to, radius: CYLINDER_RADIUS_MM })
            }
            ObstacleKind::Sphere => {
                let radius = from.distance(to);
                (radius > 0.0).then_some(Shape::Sphere { at: from, radius })
            }
        }
    }

    /// Its figures so far, for the pointer.
    pub(super) fn extent(&self, drag: &Drag) -> Option<DVec3> {
        let (lo, hi) = self.shape(drag)?.bounds();
        Some(hi - lo)
    }
}

/// Radius of a cylinder before it is told (our own default).
const CYLINDER_RADIUS_MM: f64 = 30.0;

/// The port, with the direction that is dragged out: along an axis where it is nearly so.
fn port_command(port: &Port, drag: &Drag) -> Command {
    let way = drag.pointer - drag.view.project(port.at);
    let toward = if way.length() > 1e-6 { straightened(way) } else { DVec2::X };
    let toward = drag.view.with(DVec3::ZERO, toward);
    Command::AddPort(Box::new(Port { toward, ..port.clone() }))
}

/// In steps of 15°, which is as fine as a hand draws.
fn straightened(way: DVec2) -> DVec2 {
    let step = 15.0_f64;
    let angle = (way.y.atan2(way.x).to_degrees() / step).round() * step;
    let (sin, cos) = crate::geom::sin_cos_deg(angle);
    DVec2::new(cos, sin)
}

/// A hose that is begun: its first port, and the corners clicked so far.
#[derive(Debug, Clone, PartialEq)]
pub struct Sketch {
    /// Id of the port it begins on.
    pub port: String,
    /// Its corners.
    pub corners: Vec<DVec3>,
    /// Where the next corner would be.
    pub towards: DVec3,
    /// In which view, and what decided it.
    pub landed: Option<(View, Snapped)>,
}

/// What has been typed for the coordinate to the right and the one up the screen.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Typed {
    text: [String; 2],
    /// Which is being typed.
    at: usize,
}

impl Typed {
    /// Whether anything has been typed.
    pub fn is_empty(&self) -> bool {
        self.text.iter().all(String::is_empty)
    }

    /// More text for the coordinate being typed.
    pub fn push(&mut self, text: &str) {
        self.text[self.at].extend(text.chars().filter(|c| !c.is_control()));
    }

    /// Takes back the last character.
    pub fn back(&mut self) {
        self.text[self.at].pop();
    }

    /// Goes on to the other coordinate.
    pub fn next(&mut self) {
        self.at = 1 - self.at;
    }

    /// What is typed for one of the two, and whether it is the one being typed.
    pub fn of(&self, which: usize) -> (&str, bool) {
        (&self.text[which], self.at == which && !self.is_empty())
    }

    /// The two coordinates as far as they are typed and understood, mm.
    pub fn values(&self, unit: LengthUnit) -> [Option<f64>; 2] {
        [0, 1].map(|i| Length::parse(&self.text[i], unit).ok().map(Length::mm))
    }

    /// Why what is typed is not understood.
    pub fn trouble(&self, unit: LengthUnit) -> Option<String> {
        let typed = self.text.iter().filter(|text| !text.is_empty());
        typed.filter_map(|text| Length::parse(text, unit).err()).map(|e| e.to_string()).next()
    }

    /// A place with the typed coordinates in it.
    pub(super) fn fix(&self, place: DVec3, view: View, unit: LengthUnit) -> DVec3 {
        let mut in_view = view.project(place);
        for (i, value) in self.values(unit).into_iter().enumerate() {
            if let Some(mm) = value {
                in_view[i] = mm;
            }
        }
        view.with(place, in_view)
    }
}

/// The lines of a measurement.
pub(in crate::app) fn measure_lines(from: DVec3, to: DVec3, unit: LengthUnit) -> Vec<String> {
    let by = to - from;
    let [x, y, z] = by.to_array().map(|mm| Length::from_mm(mm).number(unit));
    vec![Length::from_mm(by.length()).show(unit), format!("X {x}   Y {y}   Z {z}")]
}
