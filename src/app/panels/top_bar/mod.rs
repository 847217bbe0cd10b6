//! Title and file on the left, routings in the middle, unit and length sheet on the right.

mod menus;
mod routings;

use std::path::Path;

use eframe::egui::{Align, Button, Label, Layout, RichText, Ui};

use self::menus::{entry, named};
use super::{add_ask, bay_title, hint, soft};
use crate::app::actions::{Action, Ask};
use crate::app::seen::Seen;
use crate::app::theme::{self, Palette, size};
use crate::app::told::Notice;
use crate::document::Document;
use crate::units::{LengthUnit, shown_name, shown_path};

/// `naming`: the routing whose name is being typed.
pub(in crate::app) fn top_bar(
    ui: &mut Ui,
    seen: &Seen<'_>,
    naming: &mut Option<(String, String)>,
    notice: &mut Option<Notice>,
    actions: &mut Vec<Action>,
) {
    ui.horizontal(|ui| {
        ui.set_min_height(32.0);
        ui.scope(|ui| menus::menus(ui, seen, actions));
        if seen.work.document.is_none() {
            return;
        }
        // Where no title, however long, moves them.
        history(ui, seen, actions);
        ui.add_space(4.0);
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            sheet_button(ui, seen, theme::palette(ui), actions);
            ui.add_space(8.0);
            units(ui, seen, actions);
            ui.add_space(8.0);
            routings::routings(ui, seen, naming, actions);
            ui.add_space(4.0);
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| title(ui, seen));
        });
    });
    super::notice::notice(ui, notice, actions);
}

/// What is open and whether it is saved, in the room that the rest leaves.
fn title(ui: &mut Ui, seen: &Seen<'_>) {
    let Some(document) = seen.work.document.as_ref() else { return };
    let colours = theme::palette(ui);
    let state = file_state(seen);
    // Without room for both, what is not saved comes before what it is called.
    let is_roomy = ui.available_width() > STATE + LEAST_TITLE;
    if is_roomy {
        let title = RichText::new(bay_title(document)).size(size::HEADING);
        let room = ui.available_width() - STATE;
        ui.scope(|ui| {
            ui.set_max_width(room);
            ui.add(Label::new(title).truncate()).on_hover_text(where_it_is(document));
        });
    }
    let tip = if is_roomy {
        where_it_is(document)
    } else {
        format!("{}\n{}", bay_title(document), where_it_is(document))
    };
    ui.add(Label::new(soft(state, colours)).truncate()).on_hover_text(tip);
}

/// Room for the state of the file, points.
const STATE: f32 = 72.0;
/// A title with less room says nothing, points.
const LEAST_TITLE: f32 = 60.0;

/// The file of a bay, in full.
fn where_it_is(document: &Document) -> String {
    match document.path() {
        Some(path) => shown_path(path),
        None => "This bay has no file yet".to_owned(),
    }
}

/// A path by its file and folder.
pub(super) fn short(path: &std::path::Path) -> String {
    let name = shown_name(path);
    match path.parent().and_then(std::path::Path::file_name) {
        Some(folder) => format!("{name}  in {}", shown_path(Path::new(folder))),
        None => name,
    }
}

fn file_state(seen: &Seen<'_>) -> &'static str {
    match seen.work.document.as_ref() {
        Some(document) if document.is_changed() => "not saved",
        Some(document) if document.path().is_none() => "no file yet",
        Some(_) => "saved",
        None => "",
    }
}

fn history(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    for (ask, step) in [
        (Ask::Undo, seen.work.document.as_ref().and_then(|d| d.history().undo_label())),
        (Ask::Redo, seen.work.document.as_ref().and_then(|d| d.history().redo_label())),
    ] {
        let word = ask.spec().text;
        let tip = step.map_or_else(
            || hint(ui, ask),
            |_| {
                let key = ask.spec().keys.first().map(|key| ui.ctx().format_shortcut(key));
                format!("{} ({})", named(word, step), key.unwrap_or_default())
            },
        );
        add_ask(ui, seen, ask, Button::new(word), &tip, actions);
    }
}

fn units(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let Some(document) = seen.work.document.as_ref() else { return };
    for (unit, word, what) in [
        (LengthUnit::Mm, "mm", "millimetres, bar, °C, L/min"),
        (LengthUnit::Inch, "inch", "inches, psi, °F, US gal/min"),
    ] {
        let selected = document.bay().show_units == unit;
        let button = Button::selectable(selected, word);
        let tip = format!("Show everything in {what}; what is stored stays metric");
        if ui.add(button).on_hover_text(tip).clicked() && !selected {
            actions.push(Action::SetUnits(unit));
        }
    }
}

fn sheet_button(ui: &mut Ui, seen: &Seen<'_>, colours: &Palette, actions: &mut Vec<Action>) {
    let text = RichText::new(Ask::Sheet.spec().text).color(colours.on_accent);
    let tip = hint(ui, Ask::Sheet);
    add_ask(ui, seen, Ask::Sheet, Button::new(text).fill(colours.accent), &tip, actions);
}
