//! The tools, down the left side.

use eframe::egui::{Button, RichText, Ui, vec2};

use super::{hint, soft};
use crate::app::actions::{Action, Ask, ObstacleKind, Tool};
use crate::app::seen::Seen;
use crate::app::theme;

const TOOLS: [(Ask, Tool); 6] = [
    (Ask::ToolSelect, Tool::Select),
    (Ask::ToolPort, Tool::Port),
    (Ask::ToolHose, Tool::Hose),
    (Ask::ToolClamp, Tool::Clamp),
    (Ask::ToolObstacle, Tool::Obstacle),
    (Ask::ToolMeasure, Tool::Measure),
];

pub(in crate::app) fn tools(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    ui.spacing_mut().item_spacing.y = 4.0;
    for (ask, tool) in TOOLS {
        let selected = seen.hand.tool == tool;
        if entry(ui, ask, selected, true).clicked() {
            actions.push(Action::Ask(ask));
        }
        if selected && tool == Tool::Obstacle {
            forms(ui, seen, actions);
        }
    }
    if entry(ui, Ask::NewGroup, false, seen.can(Ask::NewGroup)).clicked() {
        actions.push(Action::Ask(Ask::NewGroup));
    }
    if entry(ui, Ask::Backgrounds, seen.work.photos, true).clicked() {
        actions.push(Action::Ask(Ask::Backgrounds));
    }
    ui.add_space(8.0);
    ui.label(soft(seen.hand.tool.advice(), colours));
}

fn entry(ui: &mut Ui, ask: Ask, selected: bool, enabled: bool) -> eframe::egui::Response {
    let spec = ask.spec();
    let key = spec.keys.first().map(|key| ui.ctx().format_shortcut(key)).unwrap_or_default();
    let button = Button::selectable(selected, spec.text)
        .right_text(RichText::new(key).small().weak())
        .min_size(vec2(ui.available_width(), 30.0));
    ui.add_enabled(enabled, button)
        .on_hover_text(hint(ui, ask))
        .on_disabled_hover_text(spec.tooltip)
}

fn forms(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    ui.indent("forms", |ui| {
        for (kind, word) in ObstacleKind::ALL {
            let selected = seen.hand.obstacle_kind == kind;
            let tip = format!("Draw a {} as an obstacle", word.to_lowercase());
            if ui.radio(selected, word).on_hover_text(tip).clicked() {
                actions.push(Action::DrawAs(kind));
            }
        }
    });
}
