//! Putting down ports: press where the seat is, drag the way the hose leaves.

use glam::{DVec2, DVec3};

use crate::app::canvas::camera::View;
use crate::app::canvas::gesture::Gesture;
use crate::app::canvas::thing::Thing;
use crate::app::tools::Hand;
use crate::app::tools::drag::{Drag, Held};
use crate::app::work::Work;
use crate::document::{Command, fresh_id};
use crate::model::{Bay, Port, name_or};

/// Size of the first port of a bay; later ones take that of the last (our own default).
const FIRST_DASH: u32 = 6;

impl Hand {
    pub(super) fn begin_port(&mut self, work: &mut Work, gesture: &Gesture) {
        if let Some((port, third)) = self.new_port(work, gesture.view, gesture.at, gesture.free) {
            let from = port.at;
            let drag = Drag::new(Held::NewPort(Box::new(port)), gesture, from);
            work.hold(Drag { third: Some(third), ..drag });
        }
    }

    /// A click alone: the hose leaves to the right of the view until it is told otherwise.
    pub(super) fn click_port(&mut self, work: &mut Work, gesture: &Gesture) {
        self.add_port(work, gesture.view, gesture.at, gesture.free);
    }

    pub(super) fn add_port(&mut self, work: &mut Work, view: View, at: DVec2, free: bool) {
        if let Some((port, _)) = self.new_port(work, view, at, free) {
            let (id, place) = (port.id.clone(), port.at);
            work.apply(&Command::AddPort(Box::new(port)));
            work.select_thing(Thing::Port(id.clone()));
            work.selected.select_fresh(vec![Thing::Port(id.clone())]);
            work.say_what_it_is_on(&id);
            self.last_place = Some(place);
        }
    }

    /// A port at a place of a view, and where the coordinate comes from that the view does not show.
    fn new_port(&self, work: &Work, view: View, at: DVec2, free: bool) -> Option<(Port, String)> {
        let document = work.document.as_ref()?;
        let bay = document.bay();
        let (at, third) = self.landing_at(work, view, at, free);
        let [right, _] = view.axes();
        // What it is put down on, it is screwed into, and rides with.
        let on = match &third.target {
            Some(Thing::Obstacle(id)) => bay.obstacle(id),
            _ => None,
        };
        let port = Port {
            id: fresh_id("port-1", |id| bay.port(id).is_some()),
            name: fresh_name("Port", bay),
            at,
            toward: DVec3::AXES[right],
            dash: Some(bay.ports.last().and_then(|port| port.dash).unwrap_or(FIRST_DASH)),
            group: on.and_then(|on| on.group.clone()),
            on: on.map(|on| on.id.clone()),
            locked: None,
            extra: Vec::new(),
        };
        Some((port, third.words))
    }
}

impl Work {
    /// Tells what a new port is screwed into, and which group it rides on with that.
    pub(super) fn say_what_it_is_on(&mut self, port: &str) {
        let Some(bay) = self.bay() else { return };
        let Some(port) = bay.port(port) else { return };
        let Some(on) = port.on.as_deref().and_then(|on| bay.obstacle(on)) else { return };
        let name = name_or(&port.name, &port.id);
        let on = on.shown_name();
        let said = match port.group.as_deref().and_then(|group| bay.group(group)) {
            Some(group) => {
                format!("{name} is on {on} and moves with {}", name_or(&group.name, &group.id))
            }
            None => format!("{name} is on {on}"),
        };
        self.say(said);
    }
}

/// "Port 3", the first that no port is called.
fn fresh_name(word: &str, bay: &Bay) -> String {
    let taken = |name: &str| bay.ports.iter().any(|port| port.name == name);
    let mut number = bay.ports.len() + 1;
    while taken(&format!("{word} {number}")) {
        number += 1;
    }
    format!("{word} {number}")
}
