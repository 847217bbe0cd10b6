//! Text: a name, or notes of several lines.

use eframe::egui;

use super::DIFFERS;
use super::entry::Entry;
use super::form::{Field, Form};

impl Form<'_> {
    /// A line of text.
    pub(in crate::app) fn text(&mut self, field: &Field<'_>, values: Vec<&mut String>) {
        let first = values.first().map(|value| (**value).clone()).unwrap_or_default();
        let same = values.iter().all(|value| **value == first);
        let typed = if same { first } else { String::new() };
        let id = self.id_of(field);
        let given = self.row(field, |ui| {
            let entry = Entry {
                id,
                name: field.name(),
                tip: field.tip,
                shown: &typed,
                typed: &typed,
                prefix: "",
                suffix: "",
                hint: if same { "" } else { DIFFERS },
                width: ui.available_width(),
                is_narrow: false,
                steps: false,
            };
            entry.show(ui)
        });
        let mut given = given;
        let wrong = given.wrong().map(|wrong| wrong.said.clone());
        let text = given.text.take();
        if text.is_some() {
            given.taken(self.ui());
        } else {
            given.keep(self.ui());
        }
        if let Some(text) = text {
            let trimmed = text.trim().to_owned();
            for value in values {
                value.clone_from(&trimmed);
            }
            self.note(field.change, id, Some(text), typed);
        } else if let Some(wrong) = wrong {
            self.wrong(&wrong);
        }
    }

    /// Several lines of text.
    pub(in crate::app) fn notes(&mut self, field: &Field<'_>, value: &mut String) {
        let id = self.id_of(field);
        self.caption(field, "");
        let mut text =
            self.ui().data(|data| data.get_temp::<String>(id)).unwrap_or_else(|| value.clone());
        let edit = egui::TextEdit::multiline(&mut text)
            .id(id.with("edit"))
            .desired_rows(3)
            .margin(egui::Margin::symmetric(6, 4))
            .event_filter(egui::EventFilter {
                escape: true,
                horizontal_arrows: true,
                vertical_arrows: true,
                tab: false,
            })
            .desired_width(f32::INFINITY)
            .show(self.ui());
        let response =
            edit.response.response.accessible_name(field.name()).on_hover_text(field.tip);
        let escape = response.has_focus()
            && self
                .ui()
                .input_mut(|input| input.consume_key(egui::Modifiers::NONE, egui::Key::Escape));
        if escape {
            self.ui().data_mut(|data| data.remove_temp::<String>(id));
            response.surrender_focus();
        } else if response.has_focus() {
            self.ui().data_mut(|data| data.insert_temp(id, text));
        } else if response.lost_focus() || response.changed() {
            self.ui().data_mut(|data| data.remove_temp::<String>(id));
            if text != *value {
                self.note(field.change, id, None, String::new());
                *value = text;
            }
        }
    }
}
