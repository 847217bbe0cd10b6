//! What lies over the views: figures that ride with the pointer, and two buttons.

use std::sync::Arc;

use eframe::egui::{self, Color32, Galley, Painter, Rect, Ui, pos2, vec2};

use super::Canvas;
use crate::app::actions::{Action, Ask};
use crate::app::theme::{self, size};

/// Coordinates, cut length and tightest bend beside the pointer while something is moved.
pub(super) fn riding_figures(ui: &Ui, pointer: egui::Pos2, lines: &[String]) {
    let colours = theme::palette(ui);
    let painter = ui.ctx().layer_painter(egui::LayerId::new(
        egui::Order::Tooltip,
        egui::Id::unique("riding figures"),
    ));
    let galley = figures_galley(&painter, lines, colours.ink);
    let frame = figures_frame(ui, pointer, lines);
    let edge = egui::Stroke::new(1.0, colours.accent);
    painter.rect(frame, 4.0, colours.sheet, edge, egui::StrokeKind::Middle);
    painter.galley(frame.min + vec2(8.0, 5.0), galley, colours.ink);
}

fn figures_galley(painter: &Painter, lines: &[String], colour: Color32) -> Arc<Galley> {
    painter.layout_no_wrap(lines.join("\n"), theme::font(size::SMALL), colour)
}

/// Where the riding figures stand.
pub(super) fn figures_frame(ui: &Ui, pointer: egui::Pos2, lines: &[String]) -> Rect {
    let size = figures_galley(ui.painter(), lines, Color32::PLACEHOLDER).size() + vec2(16.0, 10.0);
    let screen = ui.ctx().content_rect();
    let mut corner = pointer + vec2(18.0, 18.0);
    if corner.x + size.x > screen.max.x {
        corner.x = pointer.x - 18.0 - size.x;
    }
    if corner.y + size.y > screen.max.y {
        corner.y = pointer.y - 18.0 - size.y;
    }
    Rect::from_min_size(corner, size)
}

/// Fit and link, in the corner of the plan view. Tells where they lie.
pub(super) fn corner_buttons(
    ui: &mut Ui,
    canvas: &Canvas,
    plan: Rect,
    actions: &mut Vec<Action>,
) -> Vec<Rect> {
    let row = Rect::from_min_max(
        pos2(plan.max.x - 250.0, plan.min.y + 5.0),
        pos2(plan.max.x - 6.0, plan.min.y + 31.0),
    );
    let layout = egui::Layout::right_to_left(egui::Align::Center);
    let shown = ui.scope_builder(egui::UiBuilder::new().max_rect(row).layout(layout), |ui| {
        ui.spacing_mut().button_padding = vec2(7.0, 2.0);
        ui.spacing_mut().interact_size.y = 22.0;
        let linked = canvas.cameras.linked();
        let text = if linked { "Views linked  L" } else { "Views free  L" };
        let spec = Ask::LinkViews.spec();
        let button = egui::Button::selectable(linked, egui::RichText::new(text).size(size::SMALL));
        if ui.add(button).on_hover_text(spec.tooltip).clicked() {
            actions.push(Action::Ask(Ask::LinkViews));
        }
        let button = egui::Button::new(egui::RichText::new("Fit  F").size(size::SMALL));
        if ui.add(button).on_hover_text(Ask::Fit.spec().tooltip).clicked() {
            actions.push(Action::Ask(Ask::Fit));
        }
    });
    vec![shown.response.rect]
}
