//! One of several.

use eframe::egui::{Button, ComboBox, RichText, Ui};

use super::DIFFERS;
use super::form::{Field, Form};
use crate::app::theme;

impl Form<'_> {
    /// A list to choose from, each with its words.
    pub(in crate::app) fn choice<T: PartialEq + Clone>(
        &mut self,
        field: &Field<'_>,
        choices: &[(T, String)],
        values: Vec<&mut T>,
    ) {
        let now = values.first().map(|first| (**first).clone());
        let now = now.filter(|now| values.iter().all(|value| **value == *now));
        let place = now.as_ref().and_then(|now| choices.iter().position(|(value, _)| value == now));
        let words = match (place, &now) {
            (Some(place), _) => choices[place].1.as_str(),
            (None, None) => DIFFERS,
            (None, Some(_)) => "not in the list",
        };
        let id = self.id_of(field);
        let picked = self.row(field, |ui| list(ui, id, field, words, place, choices));
        self.refusal(id, words);
        let Some(picked) = picked.filter(|picked| Some(*picked) != place) else { return };
        for value in values {
            *value = choices[picked].0.clone();
        }
        self.note(field.change, id, None, words.to_owned());
    }
}

fn list<T>(
    ui: &mut Ui,
    id: eframe::egui::Id,
    field: &Field<'_>,
    words: &str,
    now: Option<usize>,
    choices: &[(T, String)],
) -> Option<usize> {
    let colours = theme::palette(ui);
    let text = RichText::new(words);
    let text = if now.is_none() { text.color(colours.soft) } else { text };
    let shown = ComboBox::from_id_salt(id)
        .selected_text(text)
        .width(ui.available_width())
        .truncate()
        .show_ui(ui, |ui| {
            let mut picked = None;
            for (index, (_, words)) in choices.iter().enumerate() {
                if ui.add(Button::selectable(now == Some(index), words)).clicked() {
                    picked = Some(index);
                }
            }
            picked
        });
    shown.response.accessible_name(field.name()).on_hover_text(format!("{}\n\n{words}", field.tip));
    shown.inner.flatten()
}
