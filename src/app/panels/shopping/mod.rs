//! The shopping list and the cut list, in the place of lists and card.

mod bars;
mod list;

use eframe::egui::{Align, Id, Label, Layout, Margin, RichText, ScrollArea, Ui};

use super::{ask_button, sheet, soft};
use crate::app::actions::{Action, Ask};
use crate::app::seen::Seen;
use crate::app::shopping::Worked;
use crate::app::theme::{self, size};
use crate::app::widgets::Loose;
use crate::engine::cutting::{KERF_SOURCE, TRIM_SOURCE, default_kerf_mm};
use crate::model::name_or;
use crate::report::cutlist as words;
use crate::units::{Length, LengthUnit, Measure};

pub(in crate::app) fn shopping(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    let margin = Margin { left: 14, right: 2, top: 12, bottom: 12 };
    sheet(colours).inner_margin(margin).show(ui, |ui| {
        ui.set_min_size(ui.available_size());
        heading(ui, seen, actions);
        allowances(ui, seen, actions);
        // What is done in a moment has no progress to tell.
        let job = seen.shopping.job().filter(|job| job.progress().1.is_some());
        if let Some(job) = job
            && job.line(ui)
        {
            job.stop();
        }
        let Some(found) = seen.shopping.found() else {
            ui.label(soft("Being calculated\u{2026}", colours));
            return;
        };
        ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
            ui.set_max_width(ui.available_width() - 12.0);
            if !seen.shopping.is_fresh() {
                ui.label(soft("Out of date; being calculated", colours));
            }
            faults(ui, seen);
            if found.routing.runs.is_empty() {
                ui.label("No hoses in this routing");
                return;
            }
            worked(ui, found);
        });
    });
}

fn heading(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    ui.horizontal(|ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.add_space(12.0);
            if ui.button("Close panel").on_hover_text("Back to the hose's card (Shift+B)").clicked()
            {
                actions.push(Action::Ask(Ask::Shopping));
            }
            ask_button(ui, seen, Ask::ShoppingCsv, actions);
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                let title = RichText::new("Shopping and cutting").size(size::HEADING);
                ui.add(Label::new(title).truncate());
            });
        });
    });
    let routing = seen
        .work
        .document
        .as_ref()
        .and_then(|document| document.bay().routings.get(seen.work.routing));
    if let Some(routing) = routing {
        let colours = theme::palette(ui);
        let text = format!("Of the routing in view: {}", name_or(&routing.name, &routing.id));
        ui.add(Label::new(soft(text, colours)).truncate());
    }
}

/// Kerf and trim, each with why it is wrong beside it.
fn allowances(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let allowed = seen.shopping.allowances;
    let unit =
        seen.work.document.as_ref().map_or(LengthUnit::Mm, |document| document.bay().show_units);
    let default_kerf = Length::from_mm(default_kerf_mm(unit));
    let kerf = default_kerf.number(unit);
    let kerf_tip = format!(
        "What one cut takes away: the width of the wheel. Empty: {} ({KERF_SOURCE}). Kept until \
         another bay is opened",
        default_kerf.show(unit)
    );
    let trim_tip = format!(
        "What each piece is cut longer, so that its ends can be dressed. Empty: as far as a cut of \
         its bore may be out of square ({TRIM_SOURCE}). Kept until another bay is opened"
    );
    let mut wrong = Vec::new();
    let mut new = allowed;
    ui.horizontal(|ui| {
        let field = ("Kerf", kerf_tip.as_str(), kerf.as_str());
        allowance(ui, unit, field, &mut new.kerf_mm, &mut wrong);
        ui.add_space(12.0);
        let field = ("Trim", trim_tip.as_str(), "by bore");
        allowance(ui, unit, field, &mut new.trim_mm, &mut wrong);
    });
    if new != allowed {
        actions.push(Action::Allow(new));
    }
    let colours = theme::palette(ui);
    for said in wrong {
        ui.add(Label::new(RichText::new(said).size(size::SMALL).color(colours.fail)).wrap());
    }
    ui.add_space(4.0);
}

fn allowance(
    ui: &mut Ui,
    unit: LengthUnit,
    (name, tip, hint): (&str, &str, &str),
    mm: &mut Option<f64>,
    wrong: &mut Vec<String>,
) {
    ui.label(name).on_hover_text(tip);
    let measure = Measure::Length(unit);
    let id = Id::unique(("cut list", name));
    let said = Loose { id, name, tip, measure, hint, width: 110.0 }.show(ui, mm);
    wrong.extend(said.map(|said| format!("{name}: {said}")));
}

/// Faults that forbid cutting yet.
fn faults(ui: &mut Ui, seen: &Seen<'_>) {
    let verdict =
        seen.work.solved.as_ref().map(|solved| solved.answer.told.verdict).unwrap_or_default();
    if verdict.faults > 0 {
        let text = verdict.stop();
        let colours = theme::palette(ui);
        ui.label(RichText::new(text).size(size::GROUP).color(colours.fail));
    }
}

fn worked(ui: &mut Ui, found: &Worked) {
    let colours = theme::palette(ui);
    list::to_buy(ui, found);
    for kind in &found.cut_list.kinds {
        bars::kind(ui, kind, found.unit);
    }
    for run in &found.cut_list.left_out {
        let text = format!("Left out: {run}, which cannot be calculated");
        ui.label(RichText::new(text).color(colours.fail));
    }
    list::spares(ui, found);
    ui.add(Label::new(soft(words::NOT_COUNTED, colours)).wrap());
}

/// The title of a part.
fn title(ui: &mut Ui, text: &str) {
    let colours = theme::palette(ui);
    ui.add_space(8.0);
    ui.label(RichText::new(text).size(size::GROUP).color(colours.accent_text));
    let y = ui.cursor().min.y;
    ui.painter().hline(ui.max_rect().x_range(), y, (1.0, colours.hairline));
    ui.add_space(4.0);
}
