//! A corner or a clamp of a hose.

use eframe::egui::{Id, Ui};

use super::Scene;
use super::send::send;
use crate::app::actions::Action;
use crate::app::widgets::{Field, Form, Range};
use crate::document::Command;
use crate::engine::RunSolution;
use crate::model::{Clamp, Corner, Via};
use crate::units::Length;

const CORNER: Field<'_> = Field::new("Corner", "Where the two straights would meet", "Move corner");
const RADIUS: Field<'_> = Field::new(
    "Bend radius",
    "The radius wanted at this corner, to the centre line; empty: that of the hose",
    "Change radius of corner",
);
const CLAMP: Field<'_> = Field::new("Clamp", "The middle of the clamp", "Move clamp");
const ALONG: Field<'_> =
    Field::new("Hose runs", "The way the hose goes through, from A to B", "Turn clamp");
const HALF_WIDTH: Field<'_> = Field::new(
    "Half width",
    "Half the length that the clamp grips; empty: as long as the hose is thick",
    "Change width of clamp",
);
const LEAD: Field<'_> = Field::new(
    "Lead",
    "From the middle of the clamp to the corner on either side; empty: found for the best bend",
    "Change lead of clamp",
);

pub(super) fn show(
    ui: &mut Ui,
    scene: &Scene<'_>,
    run: &str,
    via: usize,
    actions: &mut Vec<Action>,
) {
    let bay = scene.bay;
    let Some(option) = bay.options.get(scene.option) else { return };
    let Some(index) = option.runs.iter().position(|other| other.id == run) else { return };
    let Some(mut to) = option.runs[index].via.get(via).cloned() else { return };
    let solved = scene.solved.routing.run(index);
    let mut form = Form::new(ui, Id::unique(("via", &option.id, run, via)), bay.show_units);
    match &mut to {
        Via::Corner(corner) => {
            corner_fields(&mut form, corner, option.runs[index].radius_mm, solved);
        }
        Via::Clamp(clamp) => clamp_fields(&mut form, clamp, via, solved),
    }
    send(&mut form, bay, actions, |label| {
        vec![Command::SetVia { option: option.id.clone(), run: run.to_owned(), via, to, label }]
    });
}

fn hint(form: &Form<'_>, word: &str, mm: Option<f64>) -> String {
    mm.map(|mm| format!("{word} {}", Length::from_mm(mm).show(form.units()))).unwrap_or_default()
}

fn corner_fields(
    form: &mut Form<'_>,
    corner: &mut Corner,
    wanted_mm: Option<f64>,
    solved: Option<&RunSolution>,
) {
    form.place(&CORNER, vec![&mut corner.at]);
    let of_hose = match wanted_mm {
        Some(_) => hint(form, "hose:", wanted_mm),
        None => hint(form, "limit:", solved.map(|solved| solved.radius_limit_mm)),
    };
    let length = form.length();
    form.maybe(&RADIUS, length, Range::NotNegative, &of_hose, vec![&mut corner.radius_mm]);
}

fn clamp_fields(form: &mut Form<'_>, clamp: &mut Clamp, via: usize, solved: Option<&RunSolution>) {
    let mark = solved.and_then(|solved| solved.clamps.iter().find(|mark| mark.via == via));
    form.place(&CLAMP, vec![&mut clamp.at]);
    form.direction(&ALONG, vec![&mut clamp.along]);
    let length = form.length();
    let width = hint(form, "hose:", mark.map(|mark| mark.half_width_mm));
    form.maybe(&HALF_WIDTH, length, Range::NotNegative, &width, vec![&mut clamp.half_width_mm]);
    let lead = hint(form, "found:", mark.map(|mark| mark.lead_mm));
    form.maybe(&LEAD, length, Range::NotNegative, &lead, vec![&mut clamp.lead_mm]);
}
