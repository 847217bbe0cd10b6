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
    "Centre-line radius at this corner; empty: that of the hose",
    "Change radius of corner",
);
const CLAMP: Field<'_> = Field::new("Clamp", "The middle of the clamp", "Move clamp");
const ALONG: Field<'_> =
    Field::new("Hose runs", "The way the hose goes through, from A to B", "Turn clamp");
const GRIP: Field<'_> = Field::new(
    "Grip",
    "The whole length gripped by the clamp; empty: twice the hose's OD",
    "Change grip of clamp",
);
const STRAIGHT: Field<'_> = Field::new(
    "Straight",
    "Straight length from the middle of the clamp to the corner on either side; empty: found for the best bend",
    "Change straight of clamp",
);

pub(super) fn show(
    ui: &mut Ui,
    scene: &Scene<'_>,
    run: &str,
    via: usize,
    actions: &mut Vec<Action>,
) {
    let bay = scene.bay;
    let Some(routing) = bay.routings.get(scene.routing) else { return };
    let Some(index) = routing.runs.iter().position(|other| other.id == run) else { return };
    let Some(mut to) = routing.runs[index].via.get(via).cloned() else { return };
    let solved = scene.solved.answer.solution.run(index);
    let mut form = Form::new(ui, Id::unique(("via", &routing.id, run, via)), bay.show_units);
    match &mut to {
        Via::Corner(corner) => {
            corner_fields(&mut form, corner, routing.runs[index].radius_mm, solved);
        }
        Via::Clamp(clamp) => clamp_fields(&mut form, clamp, via, solved),
    }
    send(&mut form, bay, actions, |label| {
        vec![Command::SetVia { routing: routing.id.clone(), run: run.to_owned(), via, to, label }]
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
        None => hint(form, "minimum:", solved.map(|solved| solved.radius_limit_mm)),
    };
    let length = form.length();
    form.maybe(&RADIUS, length, Range::NotNegative, &of_hose, vec![&mut corner.radius_mm]);
}

fn clamp_fields(form: &mut Form<'_>, clamp: &mut Clamp, via: usize, solved: Option<&RunSolution>) {
    let mark = solved.and_then(|solved| solved.clamps.iter().find(|mark| mark.via == via));
    form.place(&CLAMP, vec![&mut clamp.at]);
    form.direction(&ALONG, vec![&mut clamp.along]);
    let length = form.length();
    let width = hint(form, "hose:", mark.map(|mark| 2.0 * mark.half_grip_mm));
    form.maybe(&GRIP, length, Range::NotNegative, &width, vec![&mut clamp.grip_mm]);
    let straight = hint(form, "found:", mark.map(|mark| mark.straight_mm));
    form.maybe(&STRAIGHT, length, Range::NotNegative, &straight, vec![&mut clamp.straight_mm]);
}
