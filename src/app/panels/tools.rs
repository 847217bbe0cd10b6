//! The tools, down the left side.

use eframe::egui::{Button, RichText, Ui, vec2};

use super::{add_ask, hint, soft};
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
        entry(ui, seen, ask, selected, actions);
        if selected && tool == Tool::Obstacle {
            forms(ui, seen, actions);
        }
    }
    entry(ui, seen, Ask::NewGroup, false, actions);
    entry(ui, seen, Ask::Backgrounds, seen.work.photos, actions);
    ui.add_space(8.0);
    ui.label(soft(seen.hand.tool.advice(), colours));
}

fn entry(ui: &mut Ui, seen: &Seen<'_>, ask: Ask, selected: bool, actions: &mut Vec<Action>) {
    let spec = ask.spec();
    let key = spec.keys.first().map(|key| ui.ctx().format_shortcut(key)).unwrap_or_default();
    let button = Button::selectable(selected, spec.text)
        .right_text(RichText::new(key).small().weak())
        .min_size(vec2(ui.available_width(), 30.0));
    let tip = hint(ui, ask);
    add_ask(ui, seen, ask, button, &tip, actions);
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
