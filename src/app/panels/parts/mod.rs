//! The builder's own parts, in the place of lists and card: a list to look through, or one part to type.

mod clamp;
mod draft;
mod end;
mod hose;
mod length;
mod line;
mod list;
mod money;
mod size;

use eframe::egui::{
    Align, Button, Label, Layout, Margin, RichText, ScrollArea, TextEdit, Ui, vec2,
};

use super::{ask_button, sheet, soft};
use crate::app::actions::{Action, Ask, PartsAct};
use crate::app::seen::Seen;
use crate::app::theme::{self, size as text_size};
use crate::model::StockList;
use crate::units::shown_path;

pub(in crate::app) fn parts(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    let margin = Margin { left: 14, right: 2, top: 12, bottom: 12 };
    sheet(colours).inner_margin(margin).show(ui, |ui| {
        ui.set_min_size(ui.available_size());
        heading(ui, seen, actions);
        if !seen.parts.library.faults().is_empty() {
            return damaged(ui, seen, actions);
        }
        match &seen.parts.draft {
            Some(open) => draft::show(ui, seen, open, actions),
            None => lists(ui, seen, actions),
        }
    });
}

fn heading(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    ui.horizontal(|ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.add_space(12.0);
            if ui.button("Close panel").on_hover_text("Back to the hose's card (Shift+P)").clicked()
            {
                actions.push(Action::Ask(Ask::Parts));
            }
            if let Some(last) = seen.parts.library.last_change() {
                let tip = format!("Take back: {last}");
                if ui.button("Put back").on_hover_text(tip).clicked() {
                    actions.push(Action::Parts(PartsAct::PutBack));
                }
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                let title = RichText::new("Parts library").size(text_size::HEADING);
                let title = ui.add(Label::new(title).truncate());
                let path = seen.parts.library.path().map(shown_path).unwrap_or_default();
                title.on_hover_text(format!("Your own parts, for all bays. Kept in {path}"));
            });
        });
    });
}

/// The file cannot be read: it is not written over.
fn damaged(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    ui.add_space(6.0);
    ScrollArea::vertical().auto_shrink([false, true]).max_height(400.0).show(ui, |ui| {
        for line in seen.parts.library.faults() {
            ui.add(Label::new(RichText::new(line).color(colours.fail)).wrap().selectable(true));
        }
    });
    ui.add_space(6.0);
    ui.add(
        Label::new(soft("Nothing is written over. Fix the file, or move it away.", colours)).wrap(),
    );
    if ui.button("Read again").on_hover_text("Read the file again").clicked() {
        actions.push(Action::Parts(PartsAct::ReadAgain));
    }
}

fn lists(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let now = seen.parts.list;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        for (list, _, title) in StockList::ALL {
            let tab = ui.add(Button::selectable(list == now, title));
            if tab.on_hover_text(tip(list)).clicked() {
                actions.push(Action::Parts(PartsAct::List(list)));
            }
        }
    });
    ui.horizontal(|ui| {
        let text = format!("Add {} {}", article(now), now.one());
        if ui.button(text).on_hover_text("Type its figures, then save").clicked() {
            actions.push(Action::Parts(PartsAct::New));
        }
        ask_button(ui, seen, Ask::PartsImport, actions);
        ask_button(ui, seen, Ask::PartsExport, actions);
    });
    let mut typed = seen.parts.search.clone();
    let width = ui.available_width() - 12.0;
    let search = TextEdit::singleline(&mut typed).hint_text("Find").min_size(vec2(width, 0.0));
    let search = ui.add(search).accessible_name("Find a part");
    if search.on_hover_text("Part of a name, a manufacturer, a size").changed() {
        actions.push(Action::Parts(PartsAct::Search(typed)));
    }
    ui.add_space(2.0);
    ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
        ui.set_max_width(ui.available_width() - 12.0);
        list::show(ui, seen, actions);
    });
}

fn tip(list: StockList) -> &'static str {
    match list {
        StockList::Hoses => "Hoses with their sizes, bend radii and ratings",
        StockList::Ends => "End fittings of every angle, measured or from a table",
        StockList::Clamps => "Clamps, and the hoses that each holds",
        StockList::Lengths => "Hose that you have on the shelf or can buy",
    }
}

fn article(list: StockList) -> &'static str {
    if list == StockList::Ends { "an" } else { "a" }
}
