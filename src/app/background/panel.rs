//! The panel: the photos and outlines of the bay, and the figures of the selected one.

use std::sync::Arc;

use eframe::egui::{Align, Button, Layout, RichText, ScrollArea, Ui, vec2};

use super::selected::Selected;
use super::store::Unread;
use super::{Desk, known};
use crate::app::actions::{Act, Action, Ask};
use crate::app::canvas::camera::View;
use crate::app::panels;
use crate::app::panels::soft;
use crate::app::theme::{self, size};
use crate::app::work::Work;
use crate::document::file;
use crate::model::{BackgroundEntry, Bay};

impl Desk {
    /// The panel, in the place of the card.
    pub(in crate::app) fn show_panel(
        &mut self,
        work: &Work,
        ui: &mut Ui,
        actions: &mut Vec<Action>,
    ) {
        let Some(document) = &work.document else { return };
        let bay = Arc::clone(document.bay());
        let folder = document.path().map(|path| file::folder_of(path).to_owned());
        let is_there = |id: &String| bay.background(id).is_some();
        if !self.selected.as_ref().is_some_and(is_there) {
            self.selected = known(&bay).last().map(|background| background.id.clone());
        }
        let selected = self.selected.as_ref().and_then(|id| bay.background(id));
        let missing = selected
            .and_then(|background| self.background_trouble(work, background))
            .map(Unread::said);
        let mut acts = Vec::new();
        panels::sheet(theme::palette(ui)).show(ui, |ui| {
            ui.set_min_size(ui.available_size());
            heading(ui, &mut acts);
            ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
                list(ui, &bay, self.selected.as_deref(), &mut acts);
                ui.horizontal(|ui| {
                    for ask in [Ask::AddBackground, Ask::ImportMesh] {
                        let spec = ask.spec();
                        if ui.button(spec.text).on_hover_text(spec.tooltip).clicked() {
                            actions.push(Action::Ask(ask));
                        }
                    }
                });
                let Some(background) = selected else { return };
                ui.separator();
                let order = bay
                    .backgrounds
                    .iter()
                    .position(|entry| entry.known().is_some_and(|known| known.id == background.id));
                let at = Selected {
                    background,
                    order: order.map_or((0, 0), |at| (at, bay.backgrounds.len() - 1 - at)),
                    unit: bay.show_units,
                    path: file::resolve(folder.as_deref(), &background.file),
                    has_file: folder.is_some(),
                    missing: missing.as_deref(),
                };
                at.show(ui, &mut self.typing, self.picking.as_ref(), &mut acts);
            });
        });
        actions.extend(acts.into_iter().map(Action::Background));
    }
}

fn heading(ui: &mut Ui, acts: &mut Vec<Act>) {
    ui.horizontal(|ui| {
        ui.label(RichText::new("Photos and outlines").size(size::HEADING));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let tip = "Back to the hose's card (U)";
            if ui.button("Close panel").on_hover_text(tip).clicked() {
                acts.push(Act::Close);
            }
        });
    });
}

fn list(ui: &mut Ui, bay: &Bay, selected: Option<&str>, acts: &mut Vec<Act>) {
    let colours = theme::palette(ui);
    if bay.backgrounds.is_empty() {
        ui.label("There is no background yet.");
        ui.label(soft("Drop a photo or a DXF outline on a view, or open one below", colours));
        return;
    }
    for entry in bay.backgrounds.iter().rev() {
        let BackgroundEntry::Known(background) = entry else {
            ui.label(soft("One of a kind that this version does not know; it is kept", colours));
            continue;
        };
        let is_selected = selected == Some(&*background.id);
        let view = View::of(background.plane).name();
        let state = if background.hidden { ", hidden" } else { "" };
        let button = Button::selectable(is_selected, background.title())
            .right_text(soft(format!("{view}{state}"), colours))
            .truncate()
            .min_size(vec2(ui.available_width(), 24.0));
        let tip = format!("{} under the {} view", background.file, background.plane.word());
        if ui.add(button).on_hover_text(tip).clicked() {
            acts.push(Act::Select(background.id.clone()));
        }
    }
}
