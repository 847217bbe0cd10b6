//! From a changed form to a command: tried on a copy first, so that what the bay refuses is said
//! beside the field.

use eframe::egui::{Id, Ui};

use crate::app::actions::Action;
use crate::app::widgets::Form;
use crate::document::{Command, CommandError};
use crate::model::Bay;

/// Sends what the form changed, as one step. Says whether it was sent.
pub(super) fn send(
    form: &mut Form<'_>,
    bay: &Bay,
    actions: &mut Vec<Action>,
    commands: impl FnOnce(&'static str) -> Vec<Command>,
) -> bool {
    note_refusals(form);
    let Some(label) = form.changed() else { return false };
    let mut commands = commands(label);
    let command = match (commands.len(), commands.pop()) {
        (1, Some(command)) => command,
        (_, Some(last)) => {
            commands.push(last);
            Command::Many { label, commands }
        }
        (_, None) => return false,
    };
    match command.apply(&mut bay.clone()) {
        Ok(()) => {
            actions.push(Action::Change(Box::new(command)));
            true
        }
        Err(error) => {
            form.refuse(said(&error));
            false
        }
    }
}

fn refused_id() -> Id {
    Id::unique("a value was refused")
}

fn note_refusals(form: &mut Form<'_>) {
    let has_refused = form.has_refused();
    form.whole(|ui| ui.data_mut(|data| data.insert_temp(refused_id(), has_refused)));
}

/// Whether a value that was refused stands in the form shown last.
pub(in crate::app::panels) fn has_refused(ui: &Ui) -> bool {
    ui.data(|data| data.get_temp(refused_id())).unwrap_or(false)
}

/// Why, in the words of the form and without the place in the file: the field is the place.
fn said(error: &CommandError) -> String {
    let CommandError::Refused(fault) = error else { return error.to_string() };
    let place: Vec<&str> = fault.pointer.split('/').collect();
    match place[..] {
        [.., "obstacles", _, "to"] => return "the two ends are in one place".to_owned(),
        [.., "sleeves", _, "to_mm"] => return "a sleeve ends after it begins".to_owned(),
        _ => {}
    }
    let hint = fault.hint.as_ref().map(|hint| format!("; {hint}")).unwrap_or_default();
    format!("expected: {}{hint}", fault.expected)
}
