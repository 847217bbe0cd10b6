//! What lies over the views: figures that ride with the pointer, and buttons in their corners.

use std::sync::Arc;

use eframe::egui::containers::menu::{MenuButton, MenuConfig};
use eframe::egui::{self, Galley, PopupCloseBehavior, Rect, Ui, pos2, vec2};

use super::panes::{Pane, Panes};
use super::turn::camera::Outlook;
use super::turn::deed::Deed;
use super::{Canvas, paint};
use crate::app::actions::{Action, Ask};
use crate::app::theme::{self, size};

/// Coordinates, cut length and tightest bend beside the pointer while something is moved.
pub(super) struct Figures {
    /// Where they stand.
    pub(super) frame: Rect,
    galley: Arc<Galley>,
}

impl Figures {
    /// To the right of the pointer and below it; where that is off the screen, or over what is in `taken`,
    /// on another side.
    pub(super) fn beside(ui: &Ui, pointer: egui::Pos2, lines: &[String], taken: &[Rect]) -> Self {
        let font = theme::font(size::SMALL);
        let galley = ui.painter().layout_no_wrap(lines.join("\n"), font, theme::palette(ui).ink);
        let size = galley.size() + vec2(16.0, 10.0);
        let screen = ui.ctx().content_rect();
        let frames =
            [vec2(1.0, 1.0), vec2(-1.0, 1.0), vec2(1.0, -1.0), vec2(-1.0, -1.0)].map(|side| {
                Rect::from_center_size(pointer + side * (size / 2.0 + vec2(18.0, 18.0)), size)
            });
        let cost = |frame: &Rect| {
            let covers = taken.iter().filter(|other| other.intersects(*frame)).count();
            100 * usize::from(!screen.contains_rect(*frame)) + covers
        };
        let frame = frames.into_iter().min_by_key(cost).unwrap_or(frames[0]);
        Self { frame, galley }
    }

    /// Paints them over everything.
    pub(super) fn paint(self, ui: &Ui) {
        let colours = theme::palette(ui);
        let layer = egui::LayerId::new(egui::Order::Tooltip, egui::Id::unique("riding figures"));
        let painter = ui.ctx().layer_painter(layer);
        let edge = egui::Stroke::new(1.0, colours.accent);
        painter.rect(self.frame, 4.0, colours.sheet, edge, egui::StrokeKind::Middle);
        painter.galley(self.frame.min + vec2(8.0, 5.0), self.galley, colours.ink);
    }
}

/// How much of the right upper corner of a view its buttons take, points.
pub(super) fn width(panes: Panes, pane: Pane) -> f64 {
    if pane == panes.first() { 270.0 } else { 36.0 }
}

/// What stands in the corners of the views: in each a button that makes it large, in the first also
/// which views there are; and a view's name takes a double-click. Tells where they lie.
pub(super) fn corners(ui: &mut Ui, canvas: &Canvas, actions: &mut Vec<Action>) -> Vec<Rect> {
    let mut covered = Vec::new();
    let [plan, side, front] = canvas.areas;
    let panes = &canvas.panes;
    for (pane, area) in Pane::ALL.into_iter().zip([plan, side, front, canvas.turning_area]) {
        if panes.shows(pane) {
            let frame = paint::rect(area);
            covered.push(name(ui, pane, frame, actions));
            covered.push(buttons(ui, canvas, pane, frame, actions));
            if pane == Pane::Turning {
                outlooks(ui, frame, actions);
            }
        }
    }
    covered
}

/// A double-click on the name of a view makes it large, and another puts the others back.
fn name(ui: &Ui, pane: Pane, frame: Rect, actions: &mut Vec<Action>) -> Rect {
    let area = Rect::from_min_size(frame.min + vec2(6.0, 5.0), vec2(96.0, 24.0));
    let id = ui.scope_id().with(("name of view", pane));
    let response = ui.interact(area, id, egui::Sense::click());
    let label = format!("{}: double-click for large or back", pane.name());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &label));
    if response.double_clicked() {
        actions.push(Action::Ask(Ask::View(pane)));
    }
    area
}

/// Name and buttons of a view beside each other, points.
const ROOM_FOR_BUTTONS: f32 = 330.0;

fn buttons(
    ui: &mut Ui,
    canvas: &Canvas,
    pane: Pane,
    frame: Rect,
    actions: &mut Vec<Action>,
) -> Rect {
    let is_first = pane == canvas.panes.first();
    let row = Rect::from_min_max(
        pos2(frame.max.x - 290.0, frame.min.y + 5.0),
        pos2(frame.max.x - 6.0, frame.min.y + 31.0),
    );
    let layout = egui::Layout::right_to_left(egui::Align::Center);
    ui.scope_builder(egui::UiBuilder::new().max_rect(row).layout(layout), |ui| {
        ui.spacing_mut().button_padding = vec2(7.0, 2.0);
        ui.spacing_mut().interact_size.y = 22.0;
        ui.spacing_mut().item_spacing.x = 6.0;
        large(ui, canvas.panes, pane, actions);
        if is_first {
            views_menu(ui, canvas, actions);
            // In a small view the name stands there; menu and keys still have them.
            if frame.width() < ROOM_FOR_BUTTONS {
                return;
            }
            linked(ui, canvas, actions);
            let fit = egui::Button::new(egui::RichText::new("Fit  F").size(size::SMALL));
            if ui.add(fit).on_hover_text(Ask::Fit.spec().tooltip).clicked() {
                actions.push(Action::Ask(Ask::Fit));
            }
        }
    })
    .response
    .rect
}

fn linked(ui: &mut Ui, canvas: &Canvas, actions: &mut Vec<Action>) {
    let linked = canvas.cameras.linked();
    let text = if linked { "Linked  L" } else { "Free  L" };
    let button = egui::Button::selectable(linked, egui::RichText::new(text).size(size::SMALL));
    let response = ui.add(button).on_hover_text(Ask::LinkViews.spec().tooltip);
    if response.accessible_name(if linked { "Views linked" } else { "Views free" }).clicked() {
        actions.push(Action::Ask(Ask::LinkViews));
    }
}

/// Which views there are, each with its key.
fn views_menu(ui: &mut Ui, canvas: &Canvas, actions: &mut Vec<Action>) {
    let panes = canvas.panes;
    let text = egui::RichText::new("Views").size(size::SMALL);
    let stays = MenuConfig::new().close_behavior(PopupCloseBehavior::CloseOnClickOutside);
    let (button, _) = MenuButton::new(text).config(stays).ui(ui, |ui| {
        ui.set_min_width(190.0);
        for pane in Pane::ALL {
            let ask = Ask::ShowView(pane);
            let keys = keys(ui, ask);
            let mut shown = panes.shows(pane);
            ui.horizontal(|ui| {
                let check = ui.checkbox(&mut shown, pane.name());
                if check.on_hover_text(ask.spec().tooltip).clicked() {
                    actions.push(Action::Ask(ask));
                }
                ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                    ui.weak(keys);
                });
            });
        }
        ui.separator();
        let mut sees_through = canvas.sees_through;
        let check = ui.checkbox(&mut sees_through, "See through what is in front");
        let hint = "Of what stands between you and what is selected, only the outline is drawn";
        if check.on_hover_text(hint).clicked() {
            actions.push(Action::SeeThrough(sees_through));
        }
        ui.separator();
        let all = egui::Button::new("All views").right_text(keys(ui, Ask::AllViews));
        let all = ui.add(all).accessible_name("All views");
        if all.on_hover_text(Ask::AllViews.spec().tooltip).clicked() {
            actions.push(Action::Ask(Ask::AllViews));
            ui.close();
        }
    });
    button.on_hover_text("Which views are shown");
}

fn keys(ui: &Ui, ask: Ask) -> String {
    let keys = ask.spec().keys.iter().map(|key| ui.ctx().format_shortcut(key));
    keys.collect::<Vec<_>>().join(", ")
}

/// One window: large. Four: back.
fn large(ui: &mut Ui, panes: Panes, pane: Pane, actions: &mut Vec<Action>) {
    let is_large = panes.large() == Some(pane);
    let ask = Ask::View(pane);
    let name =
        if is_large { "All views".to_owned() } else { format!("{} view large", pane.name()) };
    let button = egui::Button::new("").min_size(vec2(24.0, 22.0));
    let response = ui.add(button).accessible_name(&name);
    let hint = format!("{name} ({})", keys(ui, ask));
    let response = response.on_hover_text(hint);
    let ink = egui::Stroke::new(1.25, theme::palette(ui).ink);
    let (middle, painter) = (response.rect.center(), ui.painter());
    let inside = egui::StrokeKind::Middle;
    if is_large {
        for corner in [vec2(-3.5, -3.5), vec2(3.5, -3.5), vec2(-3.5, 3.5), vec2(3.5, 3.5)] {
            let small = Rect::from_center_size(middle + corner, vec2(5.0, 5.0));
            painter.rect_stroke(small, 0.0, ink, inside);
        }
    } else {
        let frame = Rect::from_center_size(middle, vec2(11.0, 11.0));
        painter.rect_stroke(frame, 1.0, ink, inside);
        let small = Rect::from_min_size(frame.min, vec2(5.0, 5.0));
        painter.rect_filled(small, 0.0, ink.color);
    }
    if response.clicked() {
        actions.push(Action::Ask(ask));
    }
}

/// Sides to look from, in the foot of the turning view.
fn outlooks(ui: &mut Ui, frame: Rect, actions: &mut Vec<Action>) {
    // Two by two where there is no room for a row.
    let in_a_row = if frame.width() < 290.0 { 2 } else { Outlook::ALL.len() };
    for (above, row) in Outlook::ALL.chunks(in_a_row).rev().enumerate() {
        let bottom = frame.max.y - 5.0 - 28.0 * above as f32;
        outlook_row(ui, frame, bottom, row, actions);
    }
}

fn outlook_row(
    ui: &mut Ui,
    frame: Rect,
    bottom: f32,
    outlooks: &[(Outlook, &str, &str)],
    actions: &mut Vec<Action>,
) {
    let row = Rect::from_min_max(
        pos2((frame.max.x - 290.0).max(frame.min.x), bottom - 26.0),
        pos2(frame.max.x - 6.0, bottom),
    );
    let layout = egui::Layout::right_to_left(egui::Align::Center);
    ui.scope_builder(egui::UiBuilder::new().max_rect(row).layout(layout), |ui| {
        ui.spacing_mut().button_padding = vec2(7.0, 2.0);
        ui.spacing_mut().interact_size.y = 22.0;
        ui.spacing_mut().item_spacing.x = 6.0;
        for (outlook, text, hint) in outlooks.iter().rev() {
            let button = egui::Button::new(egui::RichText::new(*text).size(size::SMALL));
            let response = ui.add(button).on_hover_text(*hint).accessible_name(*hint);
            if response.clicked() {
                actions.push(Action::Turn(Deed::LookFrom(*outlook)));
            }
        }
    });
}
