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
const BODY: Field<'_> =
    Field::new("Rides on", "The body that the port moves with", "Put port on body");
const ON: Field<'_> = Field::new(
    "Screwed into",
    "The solid that the port belongs to: a hose may be near it at this end",
    "Screw port into solid",
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
    form.choice(&BODY, &bodies(bay), all(&mut ports, |port| &mut port.body));
    form.choice(&ON, &solids(bay), all(&mut ports, |port| &mut port.on));
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

/// The bodies that something can ride on.
pub(super) fn bodies(bay: &Bay) -> Vec<(Option<String>, String)> {
    let none = (None, "nothing: fixed to the bay".to_owned());
    let body = |body: &crate::model::Body| {
        (Some(body.id.clone()), name_or_id(&body.name, &body.id).to_owned())
    };
    std::iter::once(none).chain(bay.bodies.iter().map(body)).collect()
}

fn solids(bay: &Bay) -> Vec<(Option<String>, String)> {
    let none = (None, "nothing".to_owned());
    let solid = |solid: &crate::model::Solid| {
        (Some(solid.id.clone()), name_or_id(&solid.name, &solid.id).to_owned())
    };
    std::iter::once(none).chain(bay.solids.iter().map(solid)).collect()
}
