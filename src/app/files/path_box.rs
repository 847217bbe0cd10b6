//! A box to type a path into, for desktops where no file dialog answers.

use std::path::{Path, PathBuf};

use eframe::egui::text::{CCursor, CCursorRange};
use eframe::egui::{self, Id, Key, Modal, TextEdit, Ui};

use super::dialogs::Wanted;
use crate::app::actions::Action;
use crate::app::theme;

/// The box while it is open.
#[derive(Debug, Clone)]
pub(in super::super) struct PathBox {
    pub(super) wanted: Wanted,
    text: String,
    /// Whether it is here because no dialog answered.
    no_service: bool,
    fresh: bool,
}

impl PathBox {
    pub(super) fn new(wanted: Wanted, no_service: bool) -> Self {
        let near = match &wanted {
            Wanted::Open { near }
            | Wanted::Background { near }
            | Wanted::Instead { near, .. }
            | Wanted::Mesh { near }
            | Wanted::PartsTable { near } => near.clone().unwrap_or_default(),
            Wanted::Save { near }
            | Wanted::Sheet { near }
            | Wanted::Comparison { near }
            | Wanted::ShoppingList { near }
            | Wanted::PartsExport { near }
            | Wanted::Labels { near }
            | Wanted::Drawing { near, .. }
            | Wanted::Template { near, .. } => near.clone(),
        };
        let text = std::path::absolute(&near).unwrap_or(near).display().to_string();
        Self { wanted, text, no_service, fresh: true }
    }

    pub(super) fn with(wanted: Wanted, path: &Path) -> Self {
        Self { wanted, text: path.display().to_string(), no_service: false, fresh: true }
    }

    fn path(&self) -> PathBuf {
        self.wanted.with_ending(PathBuf::from(self.text.trim()))
    }
}

/// The name of the file in a path, without its ending: it is what is mostly typed over.
fn name_in(path: &str) -> CCursorRange {
    let from = path.rfind(['/', '\\']).map_or(0, |slash| slash + 1);
    let name = path.get(from..).unwrap_or_default();
    let name = name.split_once('.').map_or(name, |(name, _)| name);
    let before = path.get(..from).unwrap_or_default().chars().count();
    let [from, to] = [before, before + name.chars().count()].map(CCursor::new);
    CCursorRange::two(from, to)
}

/// Shows the box.
pub(in super::super) fn show(ui: &mut Ui, path_box: &mut PathBox, actions: &mut Vec<Action>) {
    let modal = Modal::new(Id::unique("path box")).show(ui, |ui| {
        let colours = theme::palette(ui);
        ui.set_width(460.0);
        ui.heading(path_box.wanted.title());
        if path_box.no_service {
            ui.colored_label(
                colours.soft,
                "No file dialog answered on this desktop. Type the path.",
            );
        }
        let field = ui.add(TextEdit::singleline(&mut path_box.text).desired_width(f32::INFINITY));
        let field = field.accessible_name("Path");
        let field = field.on_hover_text("The whole path; Enter takes it");
        if std::mem::take(&mut path_box.fresh) {
            field.request_focus();
            let mut edit = TextEdit::load_state(ui, field.id).unwrap_or_default();
            let text = &path_box.text;
            // Where a file is to be found, its name goes on behind the folder.
            let end = CCursorRange::one(CCursor::new(text.chars().count()));
            let typed = if path_box.wanted.opens() { end } else { name_in(text) };
            edit.cursor.set_char_range(Some(typed));
            edit.store(ui, field.id);
        }
        let path = path_box.path();
        let opens = path_box.wanted.opens();
        let replaces = !opens && path.is_file();
        if replaces {
            ui.colored_label(colours.warn, "There is such a file already. It would be replaced.");
        }
        let word = match (opens, replaces) {
            (true, _) => "Open",
            (false, true) => "Replace",
            (false, false) => "Save",
        };
        let ready = !path_box.text.trim().is_empty();
        ui.horizontal(|ui| {
            let pressed = ui.add_enabled(ready, egui::Button::new(word));
            let pressed = pressed.on_hover_text("Take this path (Enter)").clicked();
            let entered =
                field.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter)) && !replaces;
            if ready && (pressed || entered) {
                actions.push(Action::PathGiven(path.clone()));
            }
            if ui.button("Cancel").on_hover_text("Select no file (Esc)").clicked() {
                actions.push(Action::CancelPath);
            }
        });
    });
    if modal.should_close() {
        actions.push(Action::CancelPath);
    }
}

/// While the system's dialog is open.
pub(in super::super) fn show_waiting(ui: &mut Ui, actions: &mut Vec<Action>) {
    Modal::new(Id::unique("waiting for a file dialog")).show(ui, |ui| {
        ui.set_width(320.0);
        ui.heading("Waiting for the file dialog");
        ui.label("It may be behind this window.");
        ui.horizontal(|ui| {
            let typed = ui.button("Type a path instead");
            if typed.on_hover_text("Where the dialog does not come up").clicked() {
                actions.push(Action::TypePath);
            }
            if ui.button("Cancel").on_hover_text("Select no file (Esc)").clicked() {
                actions.push(Action::CancelPath);
            }
        });
    });
}
