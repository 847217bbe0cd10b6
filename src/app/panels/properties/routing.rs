//! The routing in view.

use eframe::egui::{Id, Ui};

use super::Scene;
use super::send::send;
use crate::app::actions::Action;
use crate::app::widgets::{Field, Form, Range};
use crate::document::Command;
use crate::model::Routing;
use crate::units::Length;

const NAME: Field<'_> =
    Field::new("Name", "What this routing of the whole bay is called", "Change routing");
const ID: Field<'_> = Field::new("Id", "What the file calls it", "Change routing");
const GAP: Field<'_> = Field::new(
    "Hose clearance",
    "Minimum clearance between hoses; empty: the usual one, common practice",
    "Change routing",
);

pub(super) fn show(ui: &mut Ui, scene: &Scene<'_>, actions: &mut Vec<Action>) {
    let bay = scene.bay;
    let Some(routing) = bay.routings.get(scene.routing) else { return };
    let (mut name, mut new_id) = (routing.name.clone(), routing.id.clone());
    let mut hose_clearance_mm = routing.hose_clearance_mm;
    let mut form = Form::new(ui, Id::unique(("routing", &routing.id)), bay.show_units);
    form.text(&NAME, vec![&mut name]);
    let usual = Length::from_mm(Routing::DEFAULT_HOSE_CLEARANCE_MM).show(bay.show_units);
    let length = form.length();
    let hint = format!("usual: {usual}");
    form.maybe(&GAP, length, Range::NotNegative, &hint, vec![&mut hose_clearance_mm]);
    if hose_clearance_mm.is_none() {
        form.remark("common practice: not touching");
    }
    form.text(&ID, vec![&mut new_id]);
    send(&mut form, bay, actions, |_| {
        vec![Command::SetRouting { id: routing.id.clone(), new_id, name, hose_clearance_mm }]
    });
}
