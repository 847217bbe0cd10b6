//! With no bay open: what this is for, and the ways to begin.

use eframe::egui::{Align, Button, Layout, RichText, ScrollArea, Ui, vec2};

use super::{hint, sheet, soft};
use crate::app::actions::{Action, Ask};
use crate::app::samples::SAMPLES;
use crate::app::seen::Seen;
use crate::app::theme::{self, size};
use crate::units::{shown_name, shown_path};

pub(in crate::app) fn invitation(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
        let space = (ui.available_height() * 0.16).clamp(16.0, 160.0);
        ui.add_space(space);
        ui.with_layout(Layout::top_down(Align::Center), |ui| {
            ui.set_max_width(560.0);
            ui.label(RichText::new("From the bay to the bench").size(30.0));
            ui.label(
                RichText::new(
                    "Draw where the hoses of an engine bay run, and read off what to cut: the \
                     length of every hose, what it is made of, and what to fix before it is cut.",
                )
                .color(colours.soft),
            );
            ui.add_space(18.0);
            sheet(colours).show(ui, |ui| {
                ui.set_width(500.0);
                ui.with_layout(Layout::top_down(Align::Min), |ui| {
                    begin(ui, actions);
                    samples(ui, actions);
                    recent(ui, seen, actions);
                });
            });
        });
    });
}

fn begin(ui: &mut Ui, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    ui.horizontal(|ui| {
        let open = RichText::new("Open a bay\u{2026}").color(colours.on_accent);
        let open = ui.add(Button::new(open).fill(colours.accent).min_size(vec2(140.0, 34.0)));
        if open.on_hover_text(hint(ui, Ask::Open)).clicked() {
            actions.push(Action::Ask(Ask::Open));
        }
        let new = ui.add(Button::new("New bay").min_size(vec2(110.0, 34.0)));
        if new.on_hover_text(hint(ui, Ask::New)).clicked() {
            actions.push(Action::Ask(Ask::New));
        }
    });
}

fn samples(ui: &mut Ui, actions: &mut Vec<Action>) {
    if SAMPLES.is_empty() {
        return;
    }
    let colours = theme::palette(ui);
    ui.add_space(10.0);
    ui.label(soft("Or open a sample; it opens as a copy, so try whatever you like", colours));
    for (index, sample) in SAMPLES.iter().enumerate() {
        if line(ui, sample.name, sample.about) {
            actions.push(Action::OpenDemo(index));
        }
    }
}

fn recent(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let paths = seen.recent.paths();
    if paths.is_empty() {
        return;
    }
    let colours = theme::palette(ui);
    ui.add_space(10.0);
    ui.label(soft("Recent", colours));
    for path in paths {
        let name = shown_name(path);
        let folder = path.parent().map(shown_path);
        if line(ui, &name, &folder.unwrap_or_default()) {
            actions.push(Action::OpenPath(path.clone()));
        }
    }
}

/// A link and what it is; says whether it was clicked.
fn line(ui: &mut Ui, name: &str, about: &str) -> bool {
    let colours = theme::palette(ui);
    ui.horizontal(|ui| {
        let link = ui
            .link(RichText::new(name).size(size::GROUP))
            .on_hover_text(format!("Open it: {about}"));
        let clicked = link.clicked();
        ui.add(eframe::egui::Label::new(soft(about, colours)).truncate());
        clicked
    })
    .inner
}
