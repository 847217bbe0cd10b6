//! The menus: every request of the table, in its group.

use eframe::egui::{Button, RichText, Ui, containers::menu::MenuButton};

use super::add_ask;
use super::short;
use crate::app::actions::{Action, Appearance, Ask};
use crate::app::canvas::panes::Pane;
use crate::app::groups::Group;
use crate::app::key_list::key_words;
use crate::app::samples::SAMPLES;
use crate::app::seen::Seen;
use crate::app::settings::Look;
use crate::document::History;
use crate::units::shown_path;

/// What the menus say they have; the rest of a group stands below in its own order.
const TIPS: [(Group, &str); 6] = [
    (Group::File, "Open, save, write the length sheet, labels, templates and drawings, quit"),
    (Group::Edit, "Undo, redo, copy, mirror, delete, select"),
    (Group::Add, "Ports, hoses, clamps, obstacles, groups, photos, meshes"),
    (Group::View, "What is shown and how: views, findings, light and dark, size of text"),
    (Group::Routings, "Compare, copy, name, order and delete routings"),
    (Group::Help, "Find a command, keys and gestures, about"),
];

pub(super) fn menus(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    ui.spacing_mut().item_spacing.x = 2.0;
    for (group, title) in Group::ALL {
        let tip = TIPS.iter().find(|(of, _)| *of == group).map_or("", |(_, tip)| tip);
        // The routings have their menu beside their buttons; with no bay nothing can be made.
        if group == Group::Routings
            || (group == Group::Add && seen.work.document.as_ref().is_none())
        {
            continue;
        }
        let button = Button::new(RichText::new(title)).frame_when_inactive(false);
        let menu = MenuButton::from_button(button).ui(ui, |ui| {
            ui.set_min_width(240.0);
            fill(ui, seen, group, actions);
        });
        menu.0.on_hover_text(tip);
    }
}

fn fill(ui: &mut Ui, seen: &Seen<'_>, group: Group, actions: &mut Vec<Action>) {
    for spec in group.requests() {
        match spec.ask {
            // What can only be done by its key has no use in a menu.
            Ask::Escape => continue,
            // In a menu of their own: a low screen has no room for all of them.
            Ask::View(Pane::Plan) => {
                let menu = ui.menu_button("Which views", |ui| views(ui, seen, actions));
                menu.response.on_hover_text("One view large, or some of them, or all");
                continue;
            }
            ask if is_of_views(ask) => continue,
            Ask::Save => lists(ui, seen, actions),
            Ask::Quit | Ask::NextFinding | Ask::TextLarger | Ask::Delete | Ask::About => {
                ui.separator();
            }
            _ => {}
        }
        worded(ui, seen, spec.ask, actions);
    }
    if group == Group::View {
        ui.separator();
        look(ui, seen, actions);
    }
}

fn is_of_views(ask: Ask) -> bool {
    matches!(ask, Ask::View(_) | Ask::ShowView(_) | Ask::AllViews)
}

fn views(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    for spec in Group::View.requests().filter(|spec| is_of_views(spec.ask)) {
        worded(ui, seen, spec.ask, actions);
    }
}

fn worded(ui: &mut Ui, seen: &Seen<'_>, ask: Ask, actions: &mut Vec<Action>) {
    let text = words_of(seen, ask).unwrap_or_else(|| ask.spec().text.to_owned());
    entry(ui, seen, ask, &text, actions);
}

/// "Undo move corner".
pub(super) fn named(word: &str, step: Option<&str>) -> String {
    step.map_or_else(|| word.to_owned(), |step| format!("{word} {}", lower_first(step)))
}

fn lower_first(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}

fn words_of(seen: &Seen<'_>, ask: Ask) -> Option<String> {
    let history = seen.work.document.as_ref().map(crate::document::Document::history);
    let on = |on: bool, text: &str| Some(if on { format!("\u{2713} {text}") } else { text.into() });
    match ask {
        Ask::Undo => Some(named("Undo", history.and_then(History::undo_label))),
        Ask::Redo => Some(named("Redo", history.and_then(History::redo_label))),
        Ask::LinkViews => on(seen.work.canvas.cameras.linked(), ask.spec().text),
        Ask::ToggleInstalled => on(seen.work.canvas.installed, ask.spec().text),
        Ask::HighContrast => on(seen.settings.high_contrast, ask.spec().text),
        _ => None,
    }
}

pub(super) fn entry(ui: &mut Ui, seen: &Seen<'_>, ask: Ask, text: &str, actions: &mut Vec<Action>) {
    let mut button = Button::new(text);
    if let Some(key) = ask.spec().keys.first() {
        button = button.shortcut_text(key_words(ui.ctx(), *key));
    }
    if add_ask(ui, seen, ask, button, ask.spec().tooltip, actions).clicked() {
        ui.close();
    }
}

fn lists(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let recent = seen.recent.paths();
    ui.add_enabled_ui(!recent.is_empty(), |ui| {
        let menu = ui.menu_button("Open recent", |ui| {
            for path in recent {
                // One that is gone is shown, but cannot be opened.
                let there = path.exists();
                let button = ui.add_enabled(there, Button::new(short(path)));
                let place = shown_path(path);
                let gone = format!("{place} is no longer there");
                let button = button.on_hover_text(place.clone()).on_disabled_hover_text(gone);
                if button.clicked() {
                    actions.push(Action::OpenPath(path.clone()));
                    ui.close();
                }
            }
            ui.separator();
            if ui
                .button("Clear recent")
                .on_hover_text("Empty this list; no file is touched")
                .clicked()
            {
                actions.push(Action::ForgetRecent);
                ui.close();
            }
        });
        menu.response.on_hover_text("The bays opened last");
    });
    if !SAMPLES.is_empty() {
        let menu = ui.menu_button("Open a sample", |ui| {
            for (index, sample) in SAMPLES.iter().enumerate() {
                if ui.button(sample.name).on_hover_text(sample.about).clicked() {
                    actions.push(Action::OpenDemo(index));
                    ui.close();
                }
            }
        });
        menu.response.on_hover_text("Invented bays to try things on");
    }
    ui.separator();
}

fn look(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    for (look, _, word) in Look::ALL {
        let button = ui.radio(seen.settings.look == look, word);
        if button.on_hover_text(look.about()).clicked() {
            actions.push(Action::Appearance(Appearance::Look(look)));
            ui.close();
        }
    }
}
