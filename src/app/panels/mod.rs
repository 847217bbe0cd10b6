//! Everything round the drawing. A panel reads the state and tells what is asked for.

mod bench;
mod card;
mod clock_face;
mod compare;
mod finding;
mod findings;
mod hoses;
mod invitation;
mod notice;
mod parts;
mod properties;
mod rename;
mod shopping;
mod tools;
mod top_bar;

pub(super) use bench::{bench, height as bench_height};
pub(super) use card::card;
pub(super) use compare::compare;
pub(super) use hoses::{hoses, hoses_height};
pub(super) use invitation::invitation;
pub(super) use parts::parts;
pub(super) use rename::rename;
pub(super) use shopping::shopping;
pub(super) use tools::tools;
pub(super) use top_bar::top_bar;

use eframe::egui::{self, Button, CornerRadius, Frame, Margin, Response, RichText, Stroke, Ui};

use super::actions::{Action, Ask};
use super::theme::{self, Palette, size};
use crate::app::seen::Seen;
use crate::app::told::Trouble;
use crate::app::widgets::usual;
use crate::document::Document;
use crate::units::shown_name;

/// What a bay is called: its title, else its file.
pub(super) fn bay_title(document: &Document) -> String {
    let title = document.bay().title.trim();
    if !title.is_empty() {
        return title.to_owned();
    }
    document.path().map_or_else(|| "Bay without a title".to_owned(), shown_name)
}

/// A sheet of paper to put things on.
pub(super) fn sheet(colours: &Palette) -> Frame {
    Frame::new()
        .fill(colours.sheet)
        .stroke(Stroke::new(1.0, colours.hairline))
        .corner_radius(CornerRadius::same(4))
        .inner_margin(Margin::symmetric(14, 12))
}

pub(super) fn soft(text: impl Into<String>, colours: &Palette) -> RichText {
    RichText::new(text).color(colours.soft).size(size::SMALL)
}

/// A request as a button, with its tooltip and its key.
fn ask_button(ui: &mut Ui, seen: &Seen<'_>, ask: Ask, actions: &mut Vec<Action>) {
    let tip = hint(ui, ask);
    add_ask(ui, seen, ask, Button::new(ask.spec().text), &tip, actions);
}

/// Any button for a request; where it makes no sense just now it says why.
fn add_ask(
    ui: &mut Ui,
    seen: &Seen<'_>,
    ask: Ask,
    button: Button<'_>,
    tip: &str,
    actions: &mut Vec<Action>,
) -> Response {
    let why_not = seen.why_not(ask);
    let response = ui.add_enabled(why_not.is_none(), button).on_hover_text(tip);
    let response = match why_not {
        Some(why) => response.on_disabled_hover_text(format!("{tip}\n\nNot now: {why}")),
        None => response,
    };
    if response.clicked() {
        actions.push(Action::Ask(ask));
    }
    response
}

/// What a request does, and its key.
fn hint(ui: &Ui, ask: Ask) -> String {
    let spec = ask.spec();
    match spec.keys.first() {
        Some(key) => format!("{} ({})", spec.tooltip, ui.ctx().format_shortcut(key)),
        None => spec.tooltip.to_owned(),
    }
}

/// Something went wrong: what, why, and what is still as it was.
pub(super) fn trouble(ui: &mut Ui, trouble: &Trouble, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    ui.set_width(560.0);
    ui.heading(&trouble.title);
    ui.add_space(4.0);
    egui::ScrollArea::vertical().max_height(320.0).auto_shrink([false, true]).show(ui, |ui| {
        for line in &trouble.lines {
            ui.horizontal_top(|ui| {
                theme::icons::show(ui, theme::icons::State::Fail, colours);
                ui.add(egui::Label::new(line).wrap().selectable(true));
            });
        }
    });
    ui.add_space(4.0);
    ui.label(soft(trouble.comfort, colours));
    ui.horizontal(|ui| {
        let close = ui.button("Close").on_hover_text("Back to the drawing (Enter, Esc)");
        usual(&close);
        if close.clicked() {
            actions.push(Action::CloseTrouble);
        }
        if ui.button("Copy").on_hover_text("Copy these lines").clicked() {
            ui.copy_text(trouble.lines.join("\n"));
        }
    });
}
