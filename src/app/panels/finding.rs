//! A finding in words: what is wrong, what to do, and by a click where the rule is from.

use eframe::egui::{
    Align, CornerRadius, Frame, Id, Label, Layout, Margin, Rect, Response, RichText, Ui, vec2,
};

use super::soft;
use crate::app::App;
use crate::app::actions::Action;
use crate::app::theme::icons::{self, State};
use crate::app::theme::{self, size};
use crate::checks::{Finding, Severity};

/// Shows a finding; `index` is its place in the list.
pub(super) fn show(
    ui: &mut Ui,
    app: &App,
    index: usize,
    finding: &Finding,
    actions: &mut Vec<Action>,
) {
    let colours = theme::palette(ui);
    let state = State::from(finding.severity);
    let fill = match finding.severity {
        Severity::Fail => colours.fail_faint,
        Severity::Warn => colours.warn_faint,
        Severity::Note => colours.paper,
    };
    let looked_at = app.chosen.finding == Some(index);
    let margin = Margin { left: 13, right: 10, top: 8, bottom: 8 };
    let frame = Frame::new().fill(fill).corner_radius(CornerRadius::same(3)).inner_margin(margin);
    let shown = frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 3.0;
        ui.horizontal_top(|ui| {
            icons::show(ui, state, colours);
            let text = RichText::new(&finding.message).size(size::BODY).color(colours.ink);
            ui.add(Label::new(text).wrap());
        });
        if !finding.hint.is_empty() {
            ui.add(Label::new(soft(&finding.hint, colours)).wrap());
        }
        why(ui, app, index, finding, actions);
    });
    if looked_at {
        bring_into_view(ui, index, &shown.response);
    }
    let rect = shown.response.rect;
    let bar = Rect::from_min_size(rect.min, vec2(if looked_at { 5.0 } else { 3.0 }, rect.height()));
    ui.painter().rect_filled(bar, CornerRadius::same(1), state.colour(colours));
}

/// Scrolls to the finding that has just been looked at; not again while it stays that.
fn bring_into_view(ui: &Ui, index: usize, shown: &Response) {
    let id = Id::unique("finding in view");
    let pass = ui.ctx().cumulative_pass_nr();
    let last: Option<(usize, u64)> = ui.data(|data| data.get_temp(id));
    if last.is_none_or(|(at, when)| at != index || pass - when > 1) {
        shown.scroll_to_me(None);
    }
    ui.data_mut(|data| data.insert_temp(id, (index, pass)));
}

fn why(ui: &mut Ui, app: &App, index: usize, finding: &Finding, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    let id = ui.scope_id().with(("why", finding.rule, index));
    let open = ui.data(|data| data.get_temp::<bool>(id)).unwrap_or(false);
    if open {
        ui.add(Label::new(soft(format!("Source: {}", finding.source), colours)).wrap());
        ui.add(Label::new(soft(format!("Rule: {}", finding.rule), colours)).wrap());
    }
    let row = vec2(ui.available_width(), 16.0);
    ui.allocate_ui_with_layout(row, Layout::right_to_left(Align::Center), |ui| {
        let word = if open { "less" } else { "why" };
        let link = ui.link(RichText::new(word).size(size::SMALL));
        if link.on_hover_text("Where this rule comes from").clicked() {
            ui.data_mut(|data| data.insert_temp(id, !open));
        }
        if finding.point.is_some() {
            let looked_at = app.chosen.finding == Some(index);
            let word = if looked_at { "shown" } else { "show" };
            let link = ui.link(RichText::new(word).size(size::SMALL));
            if link.on_hover_text("Show the place in the views").clicked() {
                actions.push(Action::LookAt(index));
            }
        }
    });
}
