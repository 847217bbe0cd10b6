//! What is to be bought, and what a remake would add.

use eframe::egui::{Align, Label, Layout, RichText, Ui, vec2};

use super::title;
use crate::app::panels::soft;
use crate::app::shopping::Worked;
use crate::app::theme::{self, size};
use crate::app::words as app_words;
use crate::engine::cutting::{Line, Spare, SpareHose};
use crate::report::cutlist as words;
use crate::units::LengthUnit;

const NOT_KNOWN: &str = "not known";
/// Room for figures, at usual text size.
const FIGURES: f32 = 84.0;

pub(super) fn to_buy(ui: &mut Ui, found: &Worked) {
    title(ui, "Shopping list");
    let total = RichText::new(words::total(found.list.total)).size(size::GROUP).strong();
    ui.add(Label::new(total).wrap());
    ui.add_space(2.0);
    row(ui, |ui| head(ui, "What"), &["How much", "Each", "Price"].map(soft_cell));
    for line in &found.list.lines {
        bought(ui, line, found.unit);
    }
}

fn bought(ui: &mut Ui, line: &Line, unit: LengthUnit) {
    let name = match line.dash {
        Some(dash) => format!("{} {}", line.name, app_words::dash(dash)),
        None => line.name.clone(),
    };
    let (each, price) = if line.is_on_shelf {
        (soft_cell("on the shelf"), soft_cell(""))
    } else {
        (
            money_cell(words::each(line, unit)),
            money_cell(line.price().map(|price| format!("{price:.2}"))),
        )
    };
    let detail = words::detail(line, unit);
    row(
        ui,
        |ui| named(ui, &name, &detail),
        &[Cell::plain(words::how_much(line, unit)), each, price],
    );
}

pub(super) fn spares(ui: &mut Ui, found: &Worked) {
    title(ui, "One spare: what it adds to make one hose again, each by itself");
    row(ui, |ui| head(ui, "Hose"), &["Hose costs", "Both ends"].map(soft_cell));
    for spare in &found.remakes.spares {
        remake(ui, found, spare);
    }
    let all = words::remake_of_all(&found.remakes.of_all);
    ui.add(Label::new(RichText::new(all).size(size::SMALL + 0.5)).wrap());
    ui.add_space(6.0);
}

fn remake(ui: &mut Ui, found: &Worked, spare: &Spare) {
    let from = words::spare_hose(&found.cut_list, spare, found.unit);
    let money = |price: Option<f64>| money_cell(price.map(|price| format!("{price:.2}")));
    let hose = if spare.hose == SpareHose::Nowhere {
        Cell { text: "not available".to_owned(), tone: Tone::Unknown }
    } else {
        money(spare.hose.price())
    };
    let from = format!("from {from}");
    row(ui, |ui| named(ui, &spare.name, &from), &[hose, money(spare.ends_price)]);
}

/// How a cell is meant.
#[derive(Clone, Copy)]
enum Tone {
    Plain,
    Soft,
    Unknown,
}

struct Cell {
    text: String,
    tone: Tone,
}

impl Cell {
    fn plain(text: String) -> Self {
        Self { text, tone: Tone::Plain }
    }
}

fn soft_cell(text: &str) -> Cell {
    Cell { text: text.to_owned(), tone: Tone::Soft }
}

fn money_cell(amount: Option<String>) -> Cell {
    let unknown = || Cell { text: NOT_KNOWN.to_owned(), tone: Tone::Unknown };
    amount.map_or_else(unknown, Cell::plain)
}

fn head(ui: &mut Ui, text: &str) {
    let colours = theme::palette(ui);
    ui.label(soft(text, colours));
}

fn named(ui: &mut Ui, name: &str, detail: &str) {
    let colours = theme::palette(ui);
    ui.spacing_mut().item_spacing.y = 0.0;
    ui.add(Label::new(RichText::new(name).size(size::SMALL + 0.5)).wrap());
    if !detail.is_empty() {
        ui.add(Label::new(soft(detail, colours)).wrap());
    }
}

/// A name, and figures to the right of it, flush right.
fn row(ui: &mut Ui, name: impl FnOnce(&mut Ui), cells: &[Cell]) {
    let colours = theme::palette(ui);
    let gap = ui.spacing().item_spacing.x;
    let names = (ui.available_width() - cells.len() as f32 * (FIGURES + gap)).max(80.0);
    let row = ui.horizontal_top(|ui| {
        ui.spacing_mut().interact_size.y = size::SMALL;
        ui.allocate_ui(vec2(names, 0.0), |ui| {
            ui.set_width(names);
            ui.vertical(name);
        });
        for cell in cells {
            ui.allocate_ui(vec2(FIGURES, 0.0), |ui| {
                ui.set_width(FIGURES);
                ui.with_layout(Layout::top_down(Align::Max), |ui| {
                    let colour = match cell.tone {
                        Tone::Plain => colours.ink,
                        Tone::Soft => colours.soft,
                        Tone::Unknown => colours.warn,
                    };
                    let text = RichText::new(&cell.text).size(size::SMALL + 0.5).color(colour);
                    ui.add(Label::new(text).wrap());
                });
            });
        }
    });
    let y = row.response.rect.max.y + 2.0;
    ui.painter().hline(ui.max_rect().x_range(), y, (1.0, colours.hairline));
    ui.add_space(3.0);
}
