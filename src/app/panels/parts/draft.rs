//! One part that is typed: its fields, what it still lacks, and how the bay's own copy differs.

use eframe::egui::{Align, Button, Id, Label, Layout, RichText, ScrollArea, Ui};

use super::{clamp, end, hose, length, list, soft};
use crate::app::actions::{Action, PartsAct};
use crate::app::parts::Draft;
use crate::app::seen::Seen;
use crate::app::theme::{self, size};
use crate::app::widgets::Form;
use crate::document::Command;
use crate::document::parts::differences;
use crate::model::{Bay, StockEntry};
use crate::units::LengthUnit;

pub(super) fn show(ui: &mut Ui, seen: &Seen<'_>, draft: &Draft, actions: &mut Vec<Action>) {
    let Some(document) = &seen.work.document else { return };
    let bay = document.bay();
    heading(ui, seen, draft, bay.show_units, actions);
    faults(ui, draft);
    if let (Some(from), false) = (&draft.from, draft.is_changed()) {
        in_bay(ui, bay, from, actions);
    }
    ui.add_space(4.0);
    ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
        ui.set_max_width(ui.available_width() - 12.0);
        ui.push_id(Id::unique("part"), |ui| fields(ui, seen, draft, bay, actions));
    });
}

fn heading(
    ui: &mut Ui,
    seen: &Seen<'_>,
    draft: &Draft,
    units: LengthUnit,
    actions: &mut Vec<Action>,
) {
    ui.horizontal(|ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.add_space(12.0);
            buttons(ui, draft, actions);
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                let title = match &draft.from {
                    Some(from) => list::title(from, seen.parts.library.stock(), units),
                    None => format!("New {}", draft.part.list().one()),
                };
                ui.add(Label::new(RichText::new(title).size(size::GROUP + 1.0)).truncate());
            });
        });
    });
}

fn buttons(ui: &mut Ui, draft: &Draft, actions: &mut Vec<Action>) {
    let mut act = |act: PartsAct| actions.push(Action::Parts(act));
    let is_changed = draft.is_changed();
    if is_changed {
        if ui.button("Cancel").on_hover_text("Leave the library as it is").clicked() {
            act(PartsAct::Cancel);
        }
        let save = ui.add_enabled(draft.faults.is_empty(), Button::new("Save"));
        let save = save.on_hover_text("Keep it in the parts library");
        if save.on_disabled_hover_text("First fill in what is named below").clicked() {
            act(PartsAct::Save);
        }
        return;
    }
    if ui.button("All parts").on_hover_text("Back to the list").clicked() {
        act(PartsAct::Cancel);
    }
    if let Some(from) = &draft.from {
        if ui
            .button("Delete")
            .on_hover_text("Take it out of the library; bays keep theirs")
            .clicked()
        {
            act(PartsAct::Delete(from.clone()));
        }
        if ui.button("Copy").on_hover_text("Begin another part with these figures").clicked() {
            act(PartsAct::Copy(from.clone()));
        }
    }
}

fn faults(ui: &mut Ui, draft: &Draft) {
    const MOST: usize = 6;
    let colours = theme::palette(ui);
    for fault in draft.faults.iter().take(MOST) {
        // What was not typed yet is no mistake.
        let colour = if fault.ends_with(": missing") { colours.warn } else { colours.fail };
        let text = RichText::new(format!("\u{25a0} {fault}")).size(size::SMALL).color(colour);
        ui.add(Label::new(text).wrap());
    }
    if draft.faults.len() > MOST {
        ui.label(soft(format!("and {} more", draft.faults.len() - MOST), colours));
    }
}

/// The bay's copy of it: none yet, the same, or what differs; to be taken over either way.
fn in_bay(ui: &mut Ui, bay: &Bay, part: &StockEntry, actions: &mut Vec<Action>) {
    const MOST: usize = 8;
    let colours = theme::palette(ui);
    let into_bay = |ui: &mut Ui, text: &str, actions: &mut Vec<Action>| {
        if ui.button(text).on_hover_text("One step, which Undo takes back").clicked() {
            actions.push(Action::Change(Box::new(Command::PutInStock(part.clone()))));
        }
    };
    let Some(other) = part.counterpart(&bay.stock) else {
        ui.horizontal(|ui| {
            into_bay(ui, "Put into this bay", actions);
            ui.label(soft("not in this bay yet", colours));
        });
        return;
    };
    if other == *part {
        ui.label(soft("This bay has the same figures", colours));
        return;
    }
    let here = ((part, "here"), (&other, "in the bay"));
    let lines = differences(here.0, here.1, bay.show_units);
    let title = RichText::new("This bay has other figures").color(colours.warn);
    ui.label(title);
    for said in lines.iter().take(MOST) {
        ui.add(Label::new(RichText::new(said).size(size::SMALL + 0.5)).wrap());
    }
    if lines.len() > MOST {
        ui.label(soft(format!("and {} more", lines.len() - MOST), colours));
    }
    ui.horizontal(|ui| {
        into_bay(ui, "Put into this bay", actions);
        let take = ui.button("Keep in library");
        let take =
            take.on_hover_text("Take the bay's figures into the library; Put back undoes it");
        if take.clicked() {
            actions.push(Action::Parts(PartsAct::FromBay(other)));
        }
    });
}

fn fields(ui: &mut Ui, seen: &Seen<'_>, draft: &Draft, bay: &Bay, actions: &mut Vec<Action>) {
    let mut part = draft.part.clone();
    let is_new = draft.from.is_none();
    let mut form = Form::new(ui, Id::unique(("part", part.list().one())), bay.show_units);
    match &mut part {
        StockEntry::Hose(hose) => hose::fields(&mut form, hose, is_new),
        StockEntry::End(end) => end::fields(&mut form, end, is_new),
        StockEntry::Clamp(one) => clamp::fields(&mut form, one),
        StockEntry::Length(one) => length::fields(&mut form, one, seen.parts.library.stock()),
    }
    if form.changed().is_some() && part != draft.part {
        actions.push(Action::Parts(PartsAct::Typed(part)));
    }
}
