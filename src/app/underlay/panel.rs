//! The panel: the photos and outlines of the bay, and the figures of the chosen one.

use std::path::PathBuf;
use std::sync::Arc;

use eframe::egui::{
    Align, Button, Label, Layout, RichText, ScrollArea, Slider, TextEdit, Ui, vec2,
};
use glam::DVec2;

use super::act::Act;
use super::picking::{Picking, Task};
use super::{known, view_of};
use crate::app::App;
use crate::app::actions::{Action, Ask};
use crate::app::panels;
use crate::app::theme::icons::{self, State};
use crate::app::theme::{self, Palette, size};
use crate::document::file;
use crate::model::{Bay, Content, Plane, Underlay, UnderlayEntry};
use crate::units::{Angle, Length, LengthUnit};

/// A figure while it is typed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Typing {
    id: String,
    key: &'static str,
    text: String,
    /// Why it was not taken.
    why: Option<String>,
}

impl App {
    /// The panel, in the place of the card.
    pub(in crate::app) fn show_underlays(&mut self, ui: &mut Ui, actions: &mut Vec<Action>) {
        let Some(document) = &self.document else { return };
        let bay = Arc::clone(document.bay());
        let folder = document.path().map(|path| file::folder_of(path).to_owned());
        let is_there = |id: &String| bay.underlay(id).is_some();
        if !self.desk.chosen.as_ref().is_some_and(is_there) {
            self.desk.chosen = known(&bay).last().map(|underlay| underlay.id.clone());
        }
        let chosen = self.desk.chosen.as_ref().and_then(|id| bay.underlay(id));
        let missing = chosen.and_then(|underlay| self.underlay_trouble(underlay));
        let missing = missing.map(str::to_owned);
        let mut acts = Vec::new();
        panels::sheet(theme::palette(ui)).show(ui, |ui| {
            ui.set_min_size(ui.available_size());
            heading(ui, &mut acts);
            ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
                list(ui, &bay, self.desk.chosen.as_deref(), &mut acts);
                ui.horizontal(|ui| {
                    for ask in [Ask::AddUnderlay, Ask::ImportMesh] {
                        let spec = ask.spec();
                        if ui.button(spec.text).on_hover_text(spec.tooltip).clicked() {
                            actions.push(Action::Ask(ask));
                        }
                    }
                });
                let Some(underlay) = chosen else { return };
                ui.separator();
                let at = Chosen {
                    underlay,
                    unit: bay.show_units,
                    path: file::resolve(folder.as_deref(), &underlay.file),
                    has_file: folder.is_some(),
                    missing: missing.as_deref(),
                };
                at.show(ui, &mut self.desk.typing, self.desk.picking.as_ref(), &mut acts);
            });
        });
        actions.extend(acts.into_iter().map(Action::Underlay));
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

fn soft(text: impl Into<String>, colours: &Palette) -> RichText {
    RichText::new(text).color(colours.soft).size(size::SMALL)
}

fn list(ui: &mut Ui, bay: &Bay, chosen: Option<&str>, acts: &mut Vec<Act>) {
    let colours = theme::palette(ui);
    if bay.underlays.is_empty() {
        ui.label("Nothing lies under the views yet.");
        ui.label(soft("Drop a photo or a DXF outline on a view, or open one below", colours));
        return;
    }
    for entry in bay.underlays.iter().rev() {
        let UnderlayEntry::Known(underlay) = entry else {
            ui.label(soft("One of a kind that this version does not know; it is kept", colours));
            continue;
        };
        let is_chosen = chosen == Some(&*underlay.id);
        let view = view_of(underlay.plane).name();
        let state = if underlay.hidden { ", hidden" } else { "" };
        let button = Button::selectable(is_chosen, underlay.title())
            .right_text(soft(format!("{view}{state}"), colours))
            .truncate()
            .min_size(vec2(ui.available_width(), 24.0));
        let tip = format!("{} under the {} view", underlay.file, underlay.plane.word());
        if ui.add(button).on_hover_text(tip).clicked() {
            acts.push(Act::Choose(underlay.id.clone()));
        }
    }
}

/// The chosen one, and what it stands in.
struct Chosen<'a> {
    underlay: &'a Underlay,
    unit: LengthUnit,
    path: PathBuf,
    has_file: bool,
    missing: Option<&'a str>,
}

impl Chosen<'_> {
    fn show(
        &self,
        ui: &mut Ui,
        typing: &mut Option<Typing>,
        picking: Option<&Picking>,
        acts: &mut Vec<Act>,
    ) {
        let colours = theme::palette(ui);
        self.of_its_file(ui, colours, acts);
        self.view(ui, acts);
        self.fade(ui, acts);
        ui.horizontal(|ui| {
            let tip = "Guarded: it cannot be moved, turned or scaled until it is let go of";
            self.flag(ui, "Lock", tip, "Lock underlay", |u| &mut u.locked, acts);
            self.flag(ui, "Hide", "Not drawn", "Hide underlay", |u| &mut u.hidden, acts);
            let delete = ui.button("Delete").on_hover_text("Take it out; its file stays");
            if delete.clicked() {
                acts.push(Act::Delete(self.underlay.id.clone()));
            }
        });
        ui.add_enabled_ui(!self.underlay.locked, |ui| {
            self.tasks(ui, acts);
            self.figures(ui, typing, colours, acts);
        });
        if let Some(picking) = picking {
            ui.colored_label(colours.accent_text, picking.advice());
            if ui.button("Stop").on_hover_text("Stop picking points (Esc)").clicked() {
                acts.push(Act::Stop);
            }
        }
    }

    fn set(&self, to: Underlay, label: &'static str) -> Act {
        Act::Set { id: self.underlay.id.clone(), to: Box::new(to), label }
    }

    fn of_its_file(&self, ui: &mut Ui, colours: &Palette, acts: &mut Vec<Act>) {
        let told = Label::new(soft(&self.underlay.file, colours)).truncate();
        ui.add(told).on_hover_text(self.path.display().to_string());
        if !self.has_file {
            let told = "The bay has no file yet: on saving, this becomes relative to it";
            ui.label(soft(told, colours));
        }
        if let Some(why) = self.missing {
            ui.horizontal_wrapped(|ui| {
                icons::show(ui, State::Warn, colours);
                ui.colored_label(colours.warn, format!("It is missing: {why}"));
            });
            let tip = "Read the file again, once it is back in its place";
            if ui.button("Look again").on_hover_text(tip).clicked() {
                acts.push(Act::LookAgain(self.path.clone()));
            }
        }
    }

    fn view(&self, ui: &mut Ui, acts: &mut Vec<Act>) {
        ui.horizontal(|ui| {
            ui.label("Under");
            for (plane, word) in Plane::ALL {
                let chosen = self.underlay.plane == plane;
                let button = Button::selectable(chosen, view_of(plane).name());
                let tip = format!("It lies under the {word} view");
                if ui.add(button).on_hover_text(tip).clicked() && !chosen {
                    let to = Underlay { plane, ..self.underlay.clone() };
                    acts.push(self.set(to, "Lay under another view"));
                }
            }
        });
    }

    fn fade(&self, ui: &mut Ui, acts: &mut Vec<Act>) {
        ui.horizontal(|ui| {
            let label = ui.label("Fade");
            let mut fade = ((1.0 - self.underlay.opacity) * 100.0).round();
            ui.spacing_mut().slider_width = 130.0;
            let slider = Slider::new(&mut fade, 0.0..=100.0).suffix(" %").max_decimals(0);
            let tip = "How far it steps back behind the hoses; 100 %: not to be seen";
            let slider = ui.add(slider).labelled_by(label.id).on_hover_text(tip);
            let to = Underlay { opacity: (100.0 - fade) / 100.0, ..self.underlay.clone() };
            let (id, label) = (self.underlay.id.clone(), "Fade underlay");
            if slider.changed() && slider.dragged() {
                acts.push(Act::Preview { id, to: Box::new(to), label });
            } else if slider.changed() {
                acts.push(self.set(to, label));
            }
            if slider.drag_stopped() {
                acts.push(Act::Commit);
            }
        });
    }

    fn flag(
        &self,
        ui: &mut Ui,
        word: &str,
        tip: &str,
        label: &'static str,
        part: impl Fn(&mut Underlay) -> &mut bool,
        acts: &mut Vec<Act>,
    ) {
        let mut to = self.underlay.clone();
        if ui.checkbox(part(&mut to), word).on_hover_text(tip).changed() {
            acts.push(self.set(to, label));
        }
    }

    fn tasks(&self, ui: &mut Ui, acts: &mut Vec<Act>) {
        let is_photo = !matches!(self.underlay.content, Content::Outline { .. });
        let tasks = [
            (
                Task::Scale,
                "Set scale from two points\u{2026}",
                "Click two points of it whose distance you know, then type the distance",
            ),
            (
                Task::Straighten,
                "Straighten from four corners\u{2026}",
                "Undo the perspective: click the corners of a flat rectangle whose sides you know, \
                 then type them. Only what lies in the plane of that rectangle is to scale",
            ),
            (
                Task::Move,
                "Move\u{2026}",
                "Pull it to where it belongs, or click a point of it, then where that point belongs",
            ),
            (Task::Level, "Level\u{2026}", "Click two points that should lie level, or upright"),
        ];
        ui.horizontal_wrapped(|ui| {
            for (task, word, tip) in tasks {
                if task == Task::Straighten && !is_photo {
                    continue;
                }
                let button = ui.button(word).on_hover_text(tip);
                if button.on_disabled_hover_text("Locked: take the lock off first").clicked() {
                    acts.push(Act::Pick { id: self.underlay.id.clone(), task });
                }
            }
        });
    }

    fn figures(
        &self,
        ui: &mut Ui,
        typing: &mut Option<Typing>,
        colours: &Palette,
        acts: &mut Vec<Act>,
    ) {
        let [right, up] = view_of(self.underlay.plane).axes().map(|axis| ["X", "Y", "Z"][axis]);
        let place = self.underlay.origin;
        let length = |mm: f64| Length::from_mm(mm).show(self.unit);
        let mut to = None;
        ui.horizontal(|ui| {
            for (key, name, mm, axis) in
                [("right", right, place.x, DVec2::X), ("up", up, place.y, DVec2::Y)]
            {
                let tip = format!("Where its origin lies along {name}");
                if let Some(text) = self.field(ui, typing, key, (name, &tip), &length(mm)) {
                    match Length::parse(&text, self.unit) {
                        Ok(new) => to = Some(self.underlay.clone().moved(axis * (new.mm() - mm))),
                        Err(why) => self.refuse(typing, key, text, why.said()),
                    }
                }
            }
        });
        ui.horizontal(|ui| {
            let shown = Angle::from_deg(self.underlay.rotation_deg).show();
            let tip = "How it is turned, counter-clockwise, about its origin";
            if let Some(text) = self.field(ui, typing, "turn", ("Turn", tip), &shown) {
                match Angle::parse(&text) {
                    Ok(new) => {
                        let by = new.deg() - self.underlay.rotation_deg;
                        to = Some(self.underlay.clone().turned(place, by));
                    }
                    Err(why) => self.refuse(typing, "turn", text, why.said()),
                }
            }
        });
        if let Some(to) = to {
            acts.push(self.set(to, "Move underlay"));
        }
        let why = typing.as_ref().filter(|t| t.id == self.underlay.id).and_then(|t| t.why.clone());
        if let Some(why) = why {
            ui.colored_label(colours.fail, why);
        }
        ui.label(soft(self.scale_in_words(), colours));
    }

    fn refuse(&self, typing: &mut Option<Typing>, key: &'static str, text: String, why: String) {
        *typing = Some(Typing { id: self.underlay.id.clone(), key, text, why: Some(why) });
    }

    /// A figure to type over; gives what was typed once it is done with.
    fn field(
        &self,
        ui: &mut Ui,
        typing: &mut Option<Typing>,
        key: &'static str,
        (name, tip): (&str, &str),
        shown: &str,
    ) -> Option<String> {
        let own = |t: &&Typing| t.key == key && t.id == self.underlay.id;
        let typed = typing.as_ref().filter(own);
        let mut text = typed.map_or_else(|| shown.to_owned(), |t| t.text.clone());
        let label = ui.label(name);
        let field = TextEdit::singleline(&mut text).desired_width(92.0);
        let field = ui.add(field).labelled_by(label.id).on_hover_text(tip);
        if field.changed() {
            let id = self.underlay.id.clone();
            *typing = Some(Typing { id, key, text: text.clone(), why: None });
        }
        let done = field.lost_focus() && typing.as_ref().is_some_and(|t| own(&t));
        if done {
            *typing = None;
        }
        (done && text != shown).then_some(text)
    }

    fn scale_in_words(&self) -> String {
        match &self.underlay.content {
            Content::Photo { mm_per_pixel, .. } => {
                format!("Scale: 100 pixels are {}", self.long(mm_per_pixel * 100.0))
            }
            Content::Straightened { rectangle, .. } => format!(
                "Straightened by a rectangle of {} × {}",
                self.long(rectangle.x),
                self.long(rectangle.y)
            ),
            Content::Outline { scale } => {
                format!("Scale: one unit of the drawing is {}", self.long(*scale))
            }
        }
    }

    fn long(&self, mm: f64) -> String {
        Length::from_mm(mm).show(self.unit)
    }
}
