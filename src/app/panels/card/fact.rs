//! A line of a card: a name, what stands small below it, a value and where that is from.

use eframe::egui::{Align, Color32, Label, Layout, RichText, TextStyle, Ui, vec2};

use crate::app::panels::soft;
use crate::app::theme::{self, Palette, size};
use crate::checks::{Severity, severity_past_limit};
use crate::engine::RunSolution;
use crate::units::{EPS_MM, unbroken};

/// A plain one.
pub(super) fn fact(ui: &mut Ui, name: &str, value: &str, source: Option<(&str, &str)>) {
    let ink = theme::palette(ui).ink;
    fact_in(ui, [name, ""], value, source, ink);
}

/// A fact; what its name needs said besides stands small below it.
pub(super) fn fact_in(
    ui: &mut Ui,
    [name, besides]: [&str; 2],
    value: &str,
    source: Option<(&str, &str)>,
    colour: Color32,
) {
    let colours = theme::palette(ui);
    let said = value;
    let value = RichText::new(unbroken(said)).size(size::SMALL + 0.5).color(colour);
    let name = RichText::new(name).size(size::SMALL + 0.5).color(colours.soft);
    let rows = ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        let width = ui.available_width();
        ui.horizontal_top(|ui| {
            ui.allocate_ui(vec2(width * 0.54, 0.0), |ui| {
                ui.set_width(width * 0.54);
                ui.add(Label::new(name).wrap());
            });
            ui.with_layout(Layout::top_down(Align::Max), |ui| {
                ui.add(Label::new(value).wrap()).accessible_name(said);
            });
        });
        if !besides.is_empty() || source.is_some() {
            below(ui, besides, source, colours);
        }
    });
    let y = rows.response.rect.max.y + 3.0;
    ui.painter().hline(ui.max_rect().x_range(), y, (1.0, colours.hairline));
    ui.add_space(3.0);
}

/// What is said besides, in all the room that the word for the source leaves.
fn below(ui: &mut Ui, besides: &str, source: Option<(&str, &str)>, colours: &Palette) {
    let row = Layout::right_to_left(Align::Min);
    let height = ui.text_style_height(&TextStyle::Small);
    ui.allocate_ui_with_layout(vec2(ui.available_width(), height), row, |ui| {
        if let Some((word, whole)) = source {
            ui.label(soft(word, colours)).on_hover_text(whole);
        }
        ui.with_layout(Layout::left_to_right(Align::Min), |ui| {
            if !besides.is_empty() {
                ui.add(Label::new(soft(besides, colours)).truncate());
            }
        });
    });
}

/// The colour of a radius against its limit, by how bad a miss of it is.
pub(super) fn radius_colour(
    colours: &Palette,
    radius_mm: Option<f64>,
    solved: &RunSolution,
) -> Color32 {
    let limit_mm = solved.radius_limit_mm;
    match radius_mm.filter(|radius| *radius < limit_mm - EPS_MM) {
        None => colours.ink,
        Some(radius) => {
            match severity_past_limit(radius, limit_mm, &solved.hose.radius_limit_source) {
                Severity::Fail => colours.fail,
                _ => colours.warn,
            }
        }
    }
}
