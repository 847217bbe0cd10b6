//! The question before a file is saved over that somebody else has changed.

use std::path::Path;

use eframe::egui::{Label, RichText, Ui};

use super::Files;
use crate::app::actions::{Action, SaveOver};
use crate::app::theme;
use crate::app::unsaved::After;
use crate::app::widgets::{dialog, usual};
use crate::app::work::Work;
use crate::document::file::Stamp;
use crate::units::shown_name;

impl Files {
    /// Whether the file is not as this window last read or wrote it. One that is gone harms nobody.
    pub(super) fn was_changed_by_another(&self, path: &Path) -> bool {
        match (self.stamp, Stamp::of_file(path)) {
            (Some(known), Some(now)) => known != now,
            _ => false,
        }
    }

    /// The answer; tells what to go on with.
    pub(in super::super) fn save_over(
        &mut self,
        work: &mut Work,
        answer: SaveOver,
    ) -> Option<After> {
        let path = self.disk_change.take()?;
        match answer {
            SaveOver::Replace => return self.save_to(work, path),
            SaveOver::Elsewhere => self.save_as(work),
            SaveOver::Cancel => self.after_save = None,
        }
        None
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
                let button = ui.button(word).on_hover_text(tip);
                if answer == SaveOver::Elsewhere {
                    usual(&button);
                }
                if button.clicked() {
                    actions.push(Action::SaveOver(answer));
                }
            }
        });
    });
    if modal.should_close() {
        actions.push(Action::SaveOver(SaveOver::Cancel));
    }
}
