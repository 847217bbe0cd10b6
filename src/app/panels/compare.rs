//! Routings side by side, in the place of lists and card: the sentence, the figures, hose by hose.

use eframe::egui::{
    Align, Button, CornerRadius, Frame, Label, Layout, Margin, RichText, ScrollArea, Ui, vec2,
};

use super::{add_ask, hint, sheet, soft};
use crate::app::actions::{Action, Ask};
use crate::app::seen::Seen;
use crate::app::theme::{self, size};
use crate::app::words;
use crate::model::routing_letter;
use crate::report::compare::{Cell, Comparison, Row, RunRow};
use crate::report::verdict::Verdict;

/// Share of the width that the names of the figures take.
const NAMES: f32 = 0.3;

pub(in crate::app) fn compare(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    let margin = Margin { left: 14, right: 2, top: 12, bottom: 12 };
    sheet(colours).inner_margin(margin).show(ui, |ui| {
        ui.set_min_size(ui.available_size());
        heading(ui, seen, actions);
        choice(ui, seen, actions);
        let Some(found) = seen.compare.found() else {
            ui.label(soft(waiting(seen), colours));
            return;
        };
        ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
            ui.set_max_width(ui.available_width() - 12.0);
            if !seen.compare.is_fresh() {
                ui.label(soft("Out of date; being calculated", colours));
            }
            sentence(ui, found);
            figures(ui, found);
            hoses(ui, seen, found, actions);
            for remark in &found.remarks {
                ui.add(Label::new(soft(remark, colours)).wrap());
            }
        });
    });
}

fn waiting(seen: &Seen<'_>) -> &'static str {
    let Some(document) = seen.work.document.as_ref() else { return "" };
    let bay = document.bay();
    let count = (0..bay.routings.len()).filter(|place| seen.compare.takes(bay, *place)).count();
    if count < 2 { "Select two routings or more above" } else { "Being calculated\u{2026}" }
}

fn heading(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    ui.horizontal(|ui| {
        ui.label(RichText::new("Routings side by side").size(size::HEADING));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.add_space(12.0);
            if ui.button("Close panel").on_hover_text("Back to the hose's card (Shift+O)").clicked()
            {
                actions.push(Action::Ask(Ask::Compare));
            }
            let tip = hint(ui, Ask::ComparePage);
            add_ask(ui, seen, Ask::ComparePage, Button::new("Page\u{2026}"), &tip, actions);
        });
    });
}

/// Which routings are compared, where there are more than two.
fn choice(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let Some(document) = seen.work.document.as_ref().filter(|d| d.bay().routings.len() > 2) else {
        return;
    };
    let bay = document.bay();
    ui.horizontal_wrapped(|ui| {
        for (place, routing) in bay.routings.iter().enumerate() {
            let taken = seen.compare.takes(bay, place);
            let name = crate::app::routings::routing_name(routing);
            let text = format!("{} {}", routing_letter(place), words::at_most(name, 16));
            let button = ui.add(Button::selectable(taken, text).frame_when_inactive(true));
            let tip = if taken { "Leave it out" } else { "Compare it" };
            let letter = routing_letter(place);
            let button = button.accessible_name(format!("Compare routing {letter}"));
            if button.on_hover_text(format!("{name}. {tip}")).clicked() {
                actions.push(Action::CompareRouting(routing.id.clone()));
            }
        }
    });
}

fn sentence(ui: &mut Ui, found: &Comparison) {
    let colours = theme::palette(ui);
    let frame = Frame::new()
        .fill(colours.accent_faint)
        .corner_radius(CornerRadius::same(3))
        .inner_margin(Margin::symmetric(12, 9));
    frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.add(
            Label::new(RichText::new(&found.sentence).size(size::GROUP)).wrap().selectable(true),
        );
    });
    ui.add_space(8.0);
}

/// A line of one name and a cell for each routing.
fn line(
    ui: &mut Ui,
    count: usize,
    name: impl FnOnce(&mut Ui),
    mut cell: impl FnMut(&mut Ui, usize),
) {
    let colours = theme::palette(ui);
    let width = ui.available_width();
    let names = (width * NAMES).round();
    let room = ((width - names) / count.max(1) as f32 - ui.spacing().item_spacing.x).max(60.0);
    let row = ui.horizontal_top(|ui| {
        // Words alone: a line is as high as they are.
        ui.spacing_mut().interact_size.y = size::SMALL;
        ui.allocate_ui(vec2(names, 0.0), |ui| {
            ui.set_width(names);
            ui.vertical(name);
        });
        for place in 0..count {
            ui.allocate_ui(vec2(room, 0.0), |ui| {
                ui.set_width(room);
                ui.vertical(|ui| {
                    ui.spacing_mut().item_spacing.y = 0.0;
                    cell(ui, place);
                });
            });
        }
    });
    let y = row.response.rect.max.y + 2.0;
    ui.painter().hline(ui.max_rect().x_range(), y, (1.0, colours.hairline));
    ui.add_space(3.0);
}

fn heads(ui: &mut Ui, found: &Comparison, first: &str) {
    let colours = theme::palette(ui);
    line(
        ui,
        found.routings.len(),
        |ui| {
            ui.label(RichText::new(first).size(size::GROUP).color(colours.accent_text));
        },
        |ui, place| {
            let one = &found.routings[place];
            let text = RichText::new(format!("{}  {}", one.letter, one.short)).size(size::GROUP);
            ui.add(Label::new(text).truncate()).on_hover_text(&one.name);
        },
    );
}

fn figures(ui: &mut Ui, found: &Comparison) {
    heads(ui, found, "Figures");
    for row in &found.rows {
        figure(ui, row);
    }
    ui.add_space(8.0);
}

fn figure(ui: &mut Ui, row: &Row) {
    let colours = theme::palette(ui);
    let name = row.label.as_str();
    line(
        ui,
        row.cells.len(),
        |ui| {
            let text = RichText::new(name).size(size::SMALL + 0.5).color(colours.soft);
            ui.add(Label::new(text).wrap());
        },
        |ui, place| value(ui, &row.cells[place]),
    );
}

fn value(ui: &mut Ui, cell: &Cell) {
    let colours = theme::palette(ui);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        ui.label(RichText::new(&cell.text).size(size::SMALL + 0.5));
        if !cell.word.is_empty() {
            let colour = if cell.is_better() { colours.good } else { colours.soft };
            ui.label(RichText::new(cell.word).size(size::SMALL).color(colour));
        }
    });
    if !cell.detail.is_empty() {
        let detail = ui.add(Label::new(soft(&cell.detail, colours)).truncate());
        detail.on_hover_text(&cell.detail);
    }
}

fn hoses(ui: &mut Ui, seen: &Seen<'_>, found: &Comparison, actions: &mut Vec<Action>) {
    heads(ui, found, "Hose by hose");
    for run in &found.runs {
        hose(ui, seen, run, actions);
    }
    ui.add_space(8.0);
}

fn hose(ui: &mut Ui, seen: &Seen<'_>, run: &RunRow, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    let selected = seen.work.selected.run.as_deref() == Some(run.id.as_str());
    line(
        ui,
        run.cells.len(),
        |ui| {
            let button =
                Button::selectable(selected, RichText::new(&run.name).size(size::SMALL + 0.5));
            let button = ui.add(button.wrap());
            let button = button.accessible_name(format!("Compared hose {}", run.name));
            if button.on_hover_text("Select this hose in the views").clicked() {
                actions.push(Action::SelectCompared(run.id.clone()));
            }
        },
        |ui, place| {
            let Some(cell) = &run.cells[place] else {
                ui.label(soft("none", colours));
                return;
            };
            ui.label(RichText::new(&cell.cut).size(size::SMALL + 0.5));
            if cell.counts.faults > 0 {
                let verdict = Verdict { faults: cell.counts.faults, ..Verdict::default() };
                let text = verdict.in_short();
                ui.label(RichText::new(text).size(size::SMALL).color(colours.fail));
            }
        },
    );
    let differences = run.differences_in_words();
    ui.add(Label::new(soft(differences, colours)).wrap());
    ui.add_space(4.0);
}
