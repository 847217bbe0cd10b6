//! A line of figures, flush right under their headings.

use eframe::egui::{Align, Label, Layout, RichText, Ui, vec2};

use crate::app::theme::{self, size};

/// Room for figures, at usual text size.
const FIGURES: f32 = 78.0;

/// Words on the left and figures to the right of them; `is_head`: they are headings.
pub(super) fn line(ui: &mut Ui, name: &str, cells: &[String], is_head: bool) {
    let colours = theme::palette(ui);
    let colour = if is_head { colours.soft } else { colours.ink };
    let text = |text: &str| RichText::new(text).size(size::SMALL + 0.5).color(colour);
    let gap = 3.0;
    let names = (ui.available_width() - cells.len() as f32 * (FIGURES + gap)).max(48.0);
    ui.horizontal_top(|ui| {
        ui.spacing_mut().interact_size.y = size::SMALL;
        ui.spacing_mut().item_spacing.x = gap;
        ui.allocate_ui(vec2(names, 0.0), |ui| {
            ui.set_width(names);
            ui.add(Label::new(text(name)).truncate());
        });
        for cell in cells {
            ui.allocate_ui(vec2(FIGURES, 0.0), |ui| {
                ui.set_width(FIGURES);
                ui.with_layout(Layout::top_down(Align::Max), |ui| {
                    ui.add(Label::new(text(cell)).truncate());
                });
            });
        }
    });
}
