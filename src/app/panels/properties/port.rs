//! A port, or several.

use eframe::egui::{Id, Ui};

use super::send::send;
use super::{Scene, name_or_id};
use crate::app::actions::Action;
use crate::app::canvas::thing::Thing;
use crate::app::widgets::{Field, Form, Range, all};
use crate::document::Command;
use crate::model::{Bay, Port};
use crate::units::Measure;

const NAME: Field<'_> = Field::new("Name", "What the port is called", "Rename port");
const ID: Field<'_> = Field::new(
    "Id",
    "What the file calls it, and what hoses refer to; they follow",
    "Change id of port",
);
const SEAT: Field<'_> = Field::new(
    "Seat",
    "The centre of the sealing seat, where lengths are measured to",
    "Move port",
);
const POINTS: Field<'_> =
    Field::new("Points", "The way a straight end's hose leaves the port", "Turn port");
const DASH: Field<'_> = Field::new(
    "Size",
    "Its dash number; not checked where it is left empty",
    "Change size of port",
);
const GROUP: Field<'_> =
    Field::new("Moves with", "The moving group that the port is on", "Put port on group");
const ON: Field<'_> = Field::new(
    "Screwed into",
    "The obstacle that the port is screwed into: a hose may be near it at this end",
    "Screw port into obstacle",
);

pub(super) fn show(ui: &mut Ui, scene: &Scene<'_>, ids: &[String], actions: &mut Vec<Action>) {
    let bay = scene.bay;
    let mut ports: Vec<Port> = ids.iter().filter_map(|id| bay.port(id).cloned()).collect();
    if ports.len() != ids.len() {
        return;
    }
    let mut form = Form::new(ui, Id::unique(("port", ids)), bay.show_units);
    if ports.len() == 1 {
        form.text(&NAME, all(&mut ports, |port| &mut port.name));
    }
    form.place(&SEAT, all(&mut ports, |port| &mut port.at));
    form.direction(&POINTS, all(&mut ports, |port| &mut port.toward));
    dash(&mut form, &mut ports);
    form.choice(&GROUP, &groups(bay), all(&mut ports, |port| &mut port.group));
    form.choice(&ON, &obstacles(bay), all(&mut ports, |port| &mut port.on));
    if ports.len() == 1 {
        form.text(&ID, all(&mut ports, |port| &mut port.id));
    }
    let renamed = match (ids, &ports[..]) {
        ([old], [port]) if *old != port.id => Some(Thing::Port(port.id.clone())),
        _ => None,
    };
    let set = |label| {
        let set = |(id, port): (&String, Port)| Command::SetPort {
            id: id.clone(),
            port: Box::new(port),
            label,
        };
        ids.iter().zip(ports).map(set).collect()
    };
    if send(&mut form, bay, actions, set) {
        actions.extend(renamed.map(Action::Select));
    }
}

fn dash(form: &mut Form<'_>, ports: &mut [Port]) {
    let mut dashes: Vec<Option<f64>> = ports.iter().map(|port| port.dash.map(f64::from)).collect();
    form.maybe(&DASH, Measure::Dash, Range::Any, "not checked", dashes.iter_mut().collect());
    for (port, dash) in ports.iter_mut().zip(dashes) {
        port.dash = dash.map(|dash| dash as u32);
    }
}

/// The groups that something can ride on.
pub(super) fn groups(bay: &Bay) -> Vec<(Option<String>, String)> {
    let none = (None, "nothing: fixed to the bay".to_owned());
    let group = |group: &crate::model::MovingGroup| {
        (Some(group.id.clone()), name_or_id(&group.name, &group.id).to_owned())
    };
    std::iter::once(none).chain(bay.groups.iter().map(group)).collect()
}

fn obstacles(bay: &Bay) -> Vec<(Option<String>, String)> {
    let none = (None, "nothing".to_owned());
    let obstacle = |obstacle: &crate::model::Obstacle| {
        (Some(obstacle.id.clone()), name_or_id(&obstacle.name, &obstacle.id).to_owned())
    };
    std::iter::once(none).chain(bay.obstacles.iter().map(obstacle)).collect()
}
