//! What the program is, its version and its licences.

use eframe::egui::{Label, RichText, Ui};

use super::actions::Action;
use super::theme::{self, size};
use super::widgets::{dialog, usual};

pub(super) fn show(ui: &mut Ui, actions: &mut Vec<Action>) {
    let modal = dialog(ui, "about").show(ui, |ui| {
        let colours = theme::palette(ui);
        ui.set_width(440.0);
        ui.label(RichText::new("Hosewright").size(26.0));
        ui.label(RichText::new(format!("Version {}", env!("CARGO_PKG_VERSION"))).color(colours.soft));
        ui.add_space(6.0);
        ui.label(concat!(env!("CARGO_PKG_DESCRIPTION"), "."));
        ui.add_space(6.0);
        for line in [
            "Its figures are for planning: check every length on the bench before you cut, and every limit in the data sheet of the hose's manufacturer.",
            concat!(
                "Free under the licence ",
                env!("CARGO_PKG_LICENSE"),
                "; the text is beside the program in LICENSE. The letters are DejaVu Sans, under the Bitstream Vera licence."
            ),
        ] {
            ui.add(Label::new(RichText::new(line).color(colours.soft).size(size::SMALL)).wrap());
        }
        ui.add_space(8.0);
        let close = ui.button("Close").on_hover_text("Back to the drawing (Enter, Esc)");
        usual(&close);
        close.clicked()
    });
    if modal.inner || modal.should_close() {
        actions.push(Action::ClosePage);
    }
}
