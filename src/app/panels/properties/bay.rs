//! The bay itself, and all that is in it.

use eframe::egui::{Button, Id, Ui};

use super::send::send;
use super::{Scene, name_or_id};
use crate::app::actions::Action;
use crate::app::canvas::thing::Thing;
use crate::app::widgets::{Field, Form};
use crate::document::Command;
use crate::units::LengthUnit;

const TITLE: Field<'_> = Field::new("Title", "Stands at the top of window and sheet", "Rename bay");
const NOTES: Field<'_> = Field::new("Notes", "Your own notes; kept in the file", "Change notes");
const UNITS: Field<'_> = Field::new(
    "Units",
    "What everything is shown in, and what a number without a unit means; stored numbers stay metric",
    "Show in other units",
);

pub(super) fn show(ui: &mut Ui, scene: &Scene<'_>, actions: &mut Vec<Action>) {
    let bay = scene.bay;
    let (mut title, mut notes) = (bay.title.clone(), bay.notes.clone());
    let mut unit = bay.show_units;
    let mut form = Form::new(ui, Id::unique("bay"), bay.show_units);
    form.text(&TITLE, vec![&mut title]);
    let units = [(LengthUnit::Inch, "inch".to_owned()), (LengthUnit::Mm, "mm".to_owned())];
    form.choice(&UNITS, &units, vec![&mut unit]);
    lists(&mut form, scene, actions);
    form.notes(&NOTES, &mut notes);
    send(&mut form, bay, actions, |_| {
        if title != bay.title {
            vec![Command::SetTitle(title)]
        } else if notes != bay.notes {
            vec![Command::SetNotes(notes)]
        } else {
            vec![Command::SetUnits(unit)]
        }
    });
}

/// Everything that has figures of its own, by name: what no view shows can be reached here.
fn lists(form: &mut Form<'_>, scene: &Scene<'_>, actions: &mut Vec<Action>) {
    let bay = scene.bay;
    let entry = |name: &str, id: &str, thing: Thing| (name_or_id(name, id).to_owned(), thing);
    let ports = bay.ports.iter().map(|p| entry(&p.name, &p.id, Thing::Port(p.id.clone())));
    let obstacles =
        bay.obstacles.iter().map(|s| entry(&s.name, &s.id, Thing::Obstacle(s.id.clone())));
    let groups = bay.groups.iter().map(|b| entry(&b.name, &b.id, Thing::MovingGroup(b.id.clone())));
    list(form, ("Groups", "group"), groups.collect(), actions);
    list(form, ("Obstacles", "obstacle"), obstacles.collect(), actions);
    list(form, ("Ports", "port"), ports.collect(), actions);
}

fn list(
    form: &mut Form<'_>,
    (title, kind): (&str, &str),
    things: Vec<(String, Thing)>,
    actions: &mut Vec<Action>,
) {
    let count = things.len().to_string();
    form.section(title, &count, false, |form| {
        form.whole(|ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            for (name, thing) in things {
                let button = ui.add(Button::new(&name).frame(false));
                let button = button.on_hover_text("Show its figures");
                if button.accessible_name(format!("Select {kind} {name}")).clicked() {
                    actions.push(Action::Select(thing));
                }
            }
        });
    });
}
