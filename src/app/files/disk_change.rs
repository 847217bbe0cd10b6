//! The question before a file is saved over that somebody else has changed.

use std::path::Path;

use eframe::egui::{Label, RichText, Ui};

use crate::app::App;
use crate::app::actions::{Action, Ask, SaveOver};
use crate::app::over::dialog;
use crate::app::theme;
use crate::document::file::Stamp;
use crate::units::shown_name;

impl App {
    /// Whether the file is not as this window last read or wrote it. One that is gone harms nobody.
    pub(super) fn was_changed_by_another(&self, path: &Path) -> bool {
        match (self.over.stamp, Stamp::of_file(path)) {
            (Some(known), Some(now)) => known != now,
            _ => false,
        }
    }

    pub(in super::super) fn save_over(&mut self, answer: SaveOver) {
        let Some(path) = self.over.disk_change.take() else { return };
        match answer {
            SaveOver::Replace => self.save_to(path),
            SaveOver::Elsewhere => self.ask(Ask::SaveAs),
            SaveOver::Cancel => self.after_save = None,
        }
    }
}

/// Asks.
pub(in super::super) fn show_disk_change(ui: &mut Ui, path: &Path, actions: &mut Vec<Action>) {
    let modal = dialog(ui, "changed on disk").show(ui, |ui| {
        let colours = theme::palette(ui);
        ui.set_width(440.0);
        let name = shown_name(path);
        ui.heading(format!("{name} was changed by another program"));
        let told = "Since this window opened it, another program or window has written to the file. \
                    Saving over it loses what was written there.";
        ui.add(Label::new(RichText::new(told).color(colours.soft)).wrap());
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            let answers = [
                ("Save as\u{2026}", SaveOver::Elsewhere, "Keep both: save to another file"),
                ("Save over it", SaveOver::Replace, "What the other program wrote is lost"),
                ("Cancel", SaveOver::Cancel, "Do not save now (Esc)"),
            ];
            for (word, answer, tip) in answers {
                if ui.button(word).on_hover_text(tip).clicked() {
                    actions.push(Action::SaveOver(answer));
                }
            }
        });
    });
    if modal.should_close() {
        actions.push(Action::SaveOver(SaveOver::Cancel));
    }
}
