//! A group and how it moves.

use eframe::egui::{Id, Ui};
use glam::DVec3;

use super::Scene;
use super::send::send;
use crate::app::actions::Action;
use crate::app::canvas::thing::Thing;
use crate::app::widgets::{Field, Form, Range};
use crate::document::Command;
use crate::model::{Extra, Motion, MovingGroup};
use crate::units::Measure;

const NAME: Field<'_> = Field::new("Name", "What the group is called", "Rename group");
const ID: Field<'_> = Field::new(
    "Id",
    "What the file calls it; ports and obstacles that ride on it follow",
    "Change id of group",
);
const ADD_PIVOT: Field<'_> = Field::new(
    "Add a pivoting motion",
    "Turns about a line, to and fro; starts with 3° either way, a guess: measure yours",
    "Add pivoting motion",
);
const ADD_SLIDE: Field<'_> = Field::new(
    "Add a sliding motion",
    "Moves along a straight line; starts with a little way up, a guess: measure yours",
    "Add sliding motion",
);
const ABOUT: &str = "A point on the line that the group turns about";
const AXIS: &str = "The direction of that line";
const FROM_DEG: &str = "One end of the pivoting; 0 is as drawn";
const TO_DEG: &str = "The other end of the pivoting";
const FROM: &str = "How far the group is from where it is drawn, at one end";
const TO: &str = "How far at the other end";

pub(super) fn show(ui: &mut Ui, scene: &Scene<'_>, id: &str, actions: &mut Vec<Action>) {
    let bay = scene.bay;
    let Some(mut group) = bay.group(id).cloned() else { return };
    let mut form = Form::new(ui, Id::unique(("group", id)), bay.show_units);
    form.text(&NAME, vec![&mut group.name]);
    form.text(&ID, vec![&mut group.id]);
    moves(&mut form, &mut group);
    let renamed = (group.id != id).then(|| Thing::MovingGroup(group.id.clone()));
    let set = |label| vec![Command::SetGroup { id: id.to_owned(), group: Box::new(group), label }];
    if send(&mut form, bay, actions, set) {
        actions.extend(renamed.map(Action::Select));
    }
}

fn moves(form: &mut Form<'_>, group: &mut MovingGroup) {
    let mut removed = None;
    for (index, motion) in group.moves.iter_mut().enumerate() {
        let number = index + 1;
        let title = format!("Motion {number}");
        let kind = match motion {
            Motion::Pivot { .. } => "pivots",
            Motion::Slide { .. } => "slides",
        };
        form.section(&title, kind, true, |form| {
            motion_fields(form, motion, number);
            let name = format!("Remove motion {number}");
            let field = Field::new(&name, "Remove this motion", "Remove motion");
            if form.button("Remove", &field) {
                removed = Some(index);
            }
        });
    }
    if let Some(index) = removed {
        group.moves.remove(index);
    }
    if form.button("Add pivoting", &ADD_PIVOT) {
        group.moves.push(pivot(Extra::new()));
    }
    if form.button("Add sliding", &ADD_SLIDE) {
        group.moves.push(shift(Extra::new()));
    }
}

/// A guess to begin with.
fn pivot(extra: Extra) -> Motion {
    Motion::Pivot { about: DVec3::ZERO, axis: DVec3::X, from_deg: -3.0, to_deg: 3.0, extra }
}

/// A guess to begin with.
fn shift(extra: Extra) -> Motion {
    Motion::Slide { from: DVec3::ZERO, to: DVec3::new(0.0, 0.0, 10.0), extra }
}

fn motion_fields(form: &mut Form<'_>, motion: &mut Motion, number: usize) {
    let of = |name: &str| format!("{name} of motion {number}");
    let (kind_name, about_name, axis_name) = (of("Kind"), of("About"), of("Axis"));
    let (from_name, to_name) = (of("From"), of("To"));
    let was_pivot = matches!(motion, Motion::Pivot { .. });
    let mut is_pivot = was_pivot;
    let kind = Field::new("Kind", "How it moves", "Change kind of motion").named(&kind_name);
    let kinds =
        [(true, "pivots about a line".to_owned()), (false, "slides along a line".to_owned())];
    form.choice(&kind, &kinds, vec![&mut is_pivot]);
    if is_pivot != was_pivot {
        let (Motion::Pivot { extra, .. } | Motion::Slide { extra, .. }) = motion;
        let extra = std::mem::take(extra);
        *motion = if is_pivot { pivot(extra) } else { shift(extra) };
        return;
    }
    let named = |label, tip, name| Field::new(label, tip, "Change motion").named(name);
    match motion {
        Motion::Pivot { about, axis, from_deg, to_deg, .. } => {
            form.place(&named("About", ABOUT, &about_name), vec![about]);
            form.direction(&named("Axis", AXIS, &axis_name), vec![axis]);
            let from = named("From", FROM_DEG, &from_name);
            form.figure(&from, Measure::Angle, Range::Any, vec![from_deg]);
            form.figure(&named("To", TO_DEG, &to_name), Measure::Angle, Range::Any, vec![to_deg]);
        }
        Motion::Slide { from, to, .. } => {
            form.place(&named("From", FROM, &from_name), vec![from]);
            form.place(&named("To", TO, &to_name), vec![to]);
        }
    }
}
