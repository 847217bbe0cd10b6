//! The figures of the selected photo or outline, and what can be done to it.

use std::path::PathBuf;

use eframe::egui::{Button, Label, Slider, TextEdit, Ui};
use glam::DVec2;

use super::picking::{Picking, Task};
use crate::app::actions::Act;
use crate::app::canvas::camera::View;
use crate::app::panels::soft;
use crate::app::theme::icons::{self, State};
use crate::app::theme::{self, Palette};
use crate::app::widgets::marked_when_entered;
use crate::model::{Background, Content, Plane};
use crate::units::{Angle, Length, LengthUnit, shown_path};

/// A figure while it is typed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Typing {
    id: String,
    key: &'static str,
    text: String,
    /// Why it was not taken.
    why: Option<String>,
}

/// The selected one, and what it stands in.
pub(super) struct Selected<'a> {
    pub(super) background: &'a Background,
    /// How many lie under it, and over it.
    pub(super) order: (usize, usize),
    pub(super) unit: LengthUnit,
    /// Where its file is looked for.
    pub(super) path: PathBuf,
    /// Whether the bay has a file yet.
    pub(super) has_file: bool,
    /// Why its file is not shown, in a sentence.
    pub(super) missing: Option<&'a str>,
}

impl Selected<'_> {
    pub(super) fn show(
        &self,
        ui: &mut Ui,
        typing: &mut Option<Typing>,
        picking: Option<&Picking>,
        acts: &mut Vec<Act>,
    ) {
        let colours = theme::palette(ui);
        self.name(ui, typing, acts);
        self.of_its_file(ui, colours, acts);
        self.view(ui, acts);
        self.opacity(ui, acts);
        ui.horizontal_wrapped(|ui| {
            let tip = "Locked: it cannot be moved, turned or scaled";
            self.flag(ui, "Lock", tip, "Lock background", |u| &mut u.locked, acts);
            self.flag(ui, "Hide", "Not drawn", "Hide background", |u| &mut u.hidden, acts);
            self.order(ui, acts);
            let delete =
                ui.button("Delete").on_hover_text("Remove it from the bay; its file stays");
            if delete.clicked() {
                acts.push(Act::Delete(self.background.id.clone()));
            }
        });
        ui.add_enabled_ui(!self.background.locked, |ui| {
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

    fn set(&self, to: Background, label: &'static str) -> Act {
        Act::Set { id: self.background.id.clone(), to: Box::new(to), label }
    }

    fn name(&self, ui: &mut Ui, typing: &mut Option<Typing>, acts: &mut Vec<Act>) {
        ui.horizontal(|ui| {
            let tip = "Its name in the list; empty: its file's name";
            if let Some(text) =
                self.field(ui, typing, "name", ("Name", tip), self.background.title())
            {
                let to = Background { name: text.trim().to_owned(), ..self.background.clone() };
                acts.push(self.set(to, "Rename background"));
            }
        });
    }

    /// Over and under the others.
    fn order(&self, ui: &mut Ui, acts: &mut Vec<Act>) {
        let (under, over) = self.order;
        let places = [
            ("Bring forward", "Over the next one; the top one covers the others", over, under + 1),
            ("Send back", "Under the next one", under, under.saturating_sub(1)),
        ];
        for (word, tip, left, to) in places {
            let button = ui.add_enabled(left > 0, Button::new(word)).on_hover_text(tip);
            if button.clicked() {
                acts.push(Act::Order { id: self.background.id.clone(), to });
            }
        }
    }

    fn of_its_file(&self, ui: &mut Ui, colours: &Palette, acts: &mut Vec<Act>) {
        let told = Label::new(soft(&self.background.file, colours)).truncate();
        ui.add(told).on_hover_text(shown_path(&self.path));
        if !self.has_file {
            let told = "The bay has no file yet: on saving, this becomes relative to it";
            ui.label(soft(told, colours));
        }
        if let Some(trouble) = self.missing {
            ui.horizontal_wrapped(|ui| {
                icons::show(ui, State::Warn, colours);
                ui.colored_label(colours.warn, trouble);
            });
            let tip = "Read the file again, once it is back in its place";
            if ui.button("Look again").on_hover_text(tip).clicked() {
                acts.push(Act::LookAgain(self.path.clone()));
            }
        }
        let tip = "Shows another file in its place, or the same one where it is now; place, scale and turn stay";
        if ui.button("Choose another file\u{2026}").on_hover_text(tip).clicked() {
            acts.push(Act::Instead(self.background.id.clone()));
        }
    }

    fn view(&self, ui: &mut Ui, acts: &mut Vec<Act>) {
        ui.horizontal(|ui| {
            ui.label("Under");
            for (plane, word) in Plane::ALL {
                let selected = self.background.plane == plane;
                let button = Button::selectable(selected, View::of(plane).name());
                let tip = format!("It is under the {word} view");
                if ui.add(button).on_hover_text(tip).clicked() && !selected {
                    let to = Background { plane, ..self.background.clone() };
                    acts.push(self.set(to, "Put under another view"));
                }
            }
        });
    }

    fn opacity(&self, ui: &mut Ui, acts: &mut Vec<Act>) {
        ui.horizontal(|ui| {
            let label = ui.label("Opacity");
            let mut percent = (self.background.opacity * 100.0).round();
            ui.spacing_mut().slider_width = 130.0;
            let slider = Slider::new(&mut percent, 0.0..=100.0).suffix(" %").max_decimals(0);
            let tip = "How strong it is drawn; 0 %: invisible";
            let slider = ui.add(slider).labelled_by(label.id).on_hover_text(tip);
            let to = Background { opacity: percent / 100.0, ..self.background.clone() };
            let (id, label) = (self.background.id.clone(), "Change opacity");
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
        part: impl Fn(&mut Background) -> &mut bool,
        acts: &mut Vec<Act>,
    ) {
        let mut to = self.background.clone();
        if ui.checkbox(part(&mut to), word).on_hover_text(tip).changed() {
            acts.push(self.set(to, label));
        }
    }

    fn tasks(&self, ui: &mut Ui, acts: &mut Vec<Act>) {
        let is_photo = !matches!(self.background.content, Content::Outline { .. });
        let tasks = [
            (
                Task::Scale,
                "Set scale from two points\u{2026}",
                "Click two points of it whose distance you know, then type the distance",
            ),
            (
                Task::Straighten,
                "Straighten from four corners\u{2026}",
                "Undo the perspective: click the corners of a flat rectangle whose sides you know, then type them. Only what is in the plane of that rectangle is to scale",
            ),
            (
                Task::Move,
                "Move\u{2026}",
                "Pull it to where it belongs, or click a point of it, then where that point belongs",
            ),
            (Task::Level, "Level\u{2026}", "Click two points that should be level, or upright"),
        ];
        ui.horizontal_wrapped(|ui| {
            for (task, word, tip) in tasks {
                if task == Task::Straighten && !is_photo {
                    continue;
                }
                let button = ui.button(word).on_hover_text(tip);
                if button.on_disabled_hover_text("Locked: clear Lock first").clicked() {
                    acts.push(Act::Pick { id: self.background.id.clone(), task });
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
        let [right, up] = View::of(self.background.plane).axes().map(|axis| ["X", "Y", "Z"][axis]);
        let place = self.background.origin;
        let length = |mm: f64| Length::from_mm(mm).show(self.unit);
        let mut to = None;
        ui.horizontal(|ui| {
            for (key, name, mm, axis) in
                [("right", right, place.x, DVec2::X), ("up", up, place.y, DVec2::Y)]
            {
                let tip = format!("Where its origin is along {name}");
                if let Some(text) = self.field(ui, typing, key, (name, &tip), &length(mm)) {
                    match Length::parse(&text, self.unit) {
                        Ok(new) => to = Some(self.background.clone().moved(axis * (new.mm() - mm))),
                        Err(why) => self.refuse(typing, key, text, why.said()),
                    }
                }
            }
        });
        ui.horizontal(|ui| {
            let shown = Angle::from_deg(self.background.rotation_deg).show();
            let tip = "Its turn about its origin, counter-clockwise";
            if let Some(text) = self.field(ui, typing, "turn", ("Turn", tip), &shown) {
                match Angle::parse(&text) {
                    Ok(new) => {
                        let by = new.deg() - self.background.rotation_deg;
                        to = Some(self.background.clone().turned(place, by));
                    }
                    Err(why) => self.refuse(typing, "turn", text, why.said()),
                }
            }
        });
        if let Some(to) = to {
            acts.push(self.set(to, "Move background"));
        }
        let why =
            typing.as_ref().filter(|t| t.id == self.background.id).and_then(|t| t.why.clone());
        if let Some(why) = why {
            ui.colored_label(colours.fail, why);
        }
        ui.label(soft(self.scale_in_words(), colours));
    }

    fn refuse(&self, typing: &mut Option<Typing>, key: &'static str, text: String, why: String) {
        *typing = Some(Typing { id: self.background.id.clone(), key, text, why: Some(why) });
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
        let own = |t: &&Typing| t.key == key && t.id == self.background.id;
        let typed = typing.as_ref().filter(own);
        let mut text = typed.map_or_else(|| shown.to_owned(), |t| t.text.clone());
        let label = ui.label(name);
        // A name takes what room there is, a figure no more than it needs.
        let width = if key == "name" { ui.available_width() } else { 92.0 };
        let field = TextEdit::singleline(&mut text).desired_width(width);
        let field = marked_when_entered(ui, field).labelled_by(label.id).on_hover_text(tip);
        if field.changed() {
            let id = self.background.id.clone();
            *typing = Some(Typing { id, key, text: text.clone(), why: None });
        }
        let done = field.lost_focus() && typing.as_ref().is_some_and(|t| own(&t));
        if done {
            *typing = None;
        }
        (done && text != shown).then_some(text)
    }

    fn scale_in_words(&self) -> String {
        match &self.background.content {
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
