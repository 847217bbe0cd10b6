//! Putting down ports: press where the seat is, drag the way the hose leaves.

use glam::{DVec2, DVec3};

use crate::app::canvas::camera::View;
use crate::app::canvas::gesture::Gesture;
use crate::app::tools::Hand;
use crate::app::tools::drag::{Drag, Held};
use crate::app::work::Work;
use crate::document::{Command, fresh_id};
use crate::model::{Bay, Port};

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
            work.select_thing(crate::app::canvas::thing::Thing::Port(id));
            self.last_place = Some(place);
        }
    }

    /// A port at a place of a view, and where the coordinate comes from that the view does not show.
    fn new_port(&self, work: &Work, view: View, at: DVec2, free: bool) -> Option<(Port, String)> {
        let document = work.document.as_ref()?;
        let bay = document.bay();
        let (at, third) = self.landing_at(work, view, at, free);
        let [right, _] = view.axes();
        let port = Port {
            id: fresh_id("port-1", |id| bay.port(id).is_some()),
            name: fresh_name("Port", bay),
            at,
            toward: DVec3::AXES[right],
            dash: Some(bay.ports.last().and_then(|port| port.dash).unwrap_or(FIRST_DASH)),
            group: None,
            on: None,
            extra: Vec::new(),
        };
        Some((port, third.words))
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
