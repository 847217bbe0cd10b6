//! The question before unsaved work would be lost.

use std::path::PathBuf;

use eframe::egui::Ui;

use super::actions::{Action, Answer};
use super::theme;
use super::widgets::{dialog, usual};

/// What had to wait.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum After {
    New,
    Open,
    OpenPath(PathBuf),
    OpenDemo(usize),
    Quit,
}

/// Asks.
pub(super) fn show(ui: &mut Ui, title: &str, actions: &mut Vec<Action>) {
    let modal = dialog(ui, "unsaved").show(ui, |ui| {
        let colours = theme::palette(ui);
        ui.set_width(380.0);
        ui.heading(format!("Save the changes to \u{201c}{title}\u{201d}?"));
        ui.colored_label(colours.soft, "Without saving they are lost.");
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            for (word, answer, tip) in [
                ("Save", Answer::Save, "Save them to the bay's file, then go on"),
                ("Discard", Answer::Discard, "Go on without them; they are lost"),
                ("Cancel", Answer::Cancel, "Stay here (Esc)"),
            ] {
                let button = ui.button(word).on_hover_text(tip);
                if answer == Answer::Save {
                    usual(&button);
                }
                if button.clicked() {
                    actions.push(Action::Unsaved(answer));
                }
            }
        });
    });
    if modal.should_close() {
        actions.push(Action::Unsaved(Answer::Cancel));
    }
}
