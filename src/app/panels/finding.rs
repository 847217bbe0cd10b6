//! A finding in words: what is wrong, what to do, and by a click where the rule is from.

use eframe::egui::{
    Align, CornerRadius, Frame, Label, Layout, Margin, Rect, RichText, Sense, Ui, vec2,
};

use super::soft;
use crate::app::actions::Action;
use crate::app::seen::Seen;
use crate::app::solved::Solved;
use crate::app::solved_order::Slot;
use crate::app::theme::icons::{self, State};
use crate::app::theme::{self, Palette, size};
use crate::checks::{Finding, Severity};
use crate::document::Command;
use crate::remedy;
use crate::units::unbroken;

/// What is shown of a finding.
pub(super) struct Told<'a> {
    pub(super) slot: &'a Slot,
    /// What comes of it.
    pub(super) under: &'a [&'a Slot],
    /// The name of its hose where that is not said elsewhere.
    pub(super) whose: Option<&'a str>,
}

/// Shows a finding.
pub(super) fn show(
    ui: &mut Ui,
    seen: &Seen<'_>,
    solved: &Solved,
    told: &Told<'_>,
    actions: &mut Vec<Action>,
) {
    let Told { slot, whose, .. } = *told;
    let Some(finding) = solved.in_slot(slot) else { return };
    let colours = theme::palette(ui);
    let look = Look::of(slot, finding, colours);
    let looked_at = slot.index().is_some() && slot.index() == seen.work.selected.finding;
    let margin = Margin { left: 13, right: 10, top: 8, bottom: 8 };
    let frame =
        Frame::new().fill(look.fill).corner_radius(CornerRadius::same(3)).inner_margin(margin);
    let height = ui.scope_id().with(("height", slot.id));
    let shown = frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        if solved.is_held() {
            // A figure that wraps otherwise must not move what is below.
            let before = ui.data(|data| data.get_temp::<f32>(height));
            ui.set_min_height(before.unwrap_or(0.0));
        }
        ui.spacing_mut().item_spacing.y = 3.0;
        if let Some(whose) = whose {
            ui.add(Label::new(soft(whose, colours)).truncate());
        }
        ui.horizontal_top(|ui| {
            icons::show(ui, look.state, colours);
            let text = RichText::new(unbroken(&finding.message)).size(size::GROUP).color(look.ink);
            ui.add(Label::new(text).wrap()).accessible_name(&finding.message);
        });
        consequences(ui, seen, solved, told, actions);
        hint(ui, seen, solved, finding, actions);
        last_row(ui, seen, slot, finding, actions);
        ui.min_rect().height()
    });
    ui.data_mut(|data| data.insert_temp(height, shown.inner));
    let rect = shown.response.rect;
    let bar = Rect::from_min_size(rect.min, vec2(if looked_at { 5.0 } else { 3.0 }, rect.height()));
    ui.painter().rect_filled(bar, CornerRadius::same(1), look.state.colour(colours));
}

/// So many of what comes of a finding are listed until all are asked for.
const LISTED: usize = 2;

/// What comes of a finding: the worst of it, and the rest at a click.
fn consequences(
    ui: &mut Ui,
    seen: &Seen<'_>,
    solved: &Solved,
    told: &Told<'_>,
    actions: &mut Vec<Action>,
) {
    let id = ui.scope_id().with(("consequences", told.slot.id));
    let is_looked_at =
        |slot: &&Slot| slot.index().is_some() && slot.index() == seen.work.selected.finding;
    let is_open = ui.data(|data| data.get_temp::<bool>(id)).unwrap_or(false)
        || told.under.iter().skip(LISTED).any(is_looked_at);
    let count = if is_open { told.under.len() } else { told.under.len().min(LISTED) };
    for slot in &told.under[..count] {
        consequence(ui, seen, solved, slot, actions);
    }
    let more = told.under.len() - count;
    if more > 0 {
        let link = ui.link(RichText::new(format!("and {more} more")).size(size::SMALL));
        if link.on_hover_text("Show all that comes of this").clicked() {
            ui.data_mut(|data| data.insert_temp(id, true));
        }
    }
}

/// What comes of a finding, in one line that shows its place at a click.
fn consequence(
    ui: &mut Ui,
    seen: &Seen<'_>,
    solved: &Solved,
    slot: &Slot,
    actions: &mut Vec<Action>,
) {
    let colours = theme::palette(ui);
    let Some(found) = solved.in_slot(slot) else { return };
    let is_looked_at = slot.index().is_some() && slot.index() == seen.work.selected.finding;
    let ink = if is_looked_at { colours.ink } else { colours.soft };
    let text = RichText::new(format!("\u{2022} {}", unbroken(&found.message)));
    let label = Label::new(text.size(size::SMALL).color(ink)).wrap().sense(Sense::click());
    let response = ui.add(label).accessible_name(format!("\u{2022} {}", found.message));
    if let Some(index) = slot.index().filter(|_| found.point.is_some())
        && response.on_hover_text("Show the place in the views").clicked()
    {
        actions.push(Action::LookAt(index));
    }
}

/// What to do about it; what was tried and clears it is made at a click.
fn hint(
    ui: &mut Ui,
    seen: &Seen<'_>,
    solved: &Solved,
    finding: &Finding,
    actions: &mut Vec<Action>,
) {
    let bay = seen.work.bay();
    let routing = bay.and_then(|bay| bay.routings.get(seen.work.routing));
    // While something is held what was tried is of another bay.
    let sought = seen.advice.sought().filter(|_| !solved.is_held());
    let tried = bay.zip(routing).zip(sought).and_then(|((bay, routing), sought)| {
        Some((
            remedy::hint(bay, routing, &solved.answer.solution, sought, finding)?,
            routing,
            sought,
        ))
    });
    let Some((words, routing, sought)) = tried else {
        if !finding.hint.is_empty() {
            whole(ui, &finding.hint);
        }
        return;
    };
    whole(ui, &words);
    let remedy = sought.remedy.as_ref();
    if let Some(remedy) = remedy.filter(|remedy| remedy.clears.contains(finding.rule)) {
        let button = ui.small_button("Make this change");
        if button.on_hover_text("Change the hose so; undo takes it back").clicked() {
            actions.push(Action::Change(Box::new(Command::SetRun {
                routing: routing.id.clone(),
                id: sought.run.clone(),
                run: Box::new(remedy.changed.clone()),
                label: "Clear fault",
            })));
        }
    }
}

/// Small text, its numbers unbroken.
fn whole(ui: &mut Ui, words: &str) {
    let text = soft(unbroken(words), theme::palette(ui));
    ui.add(Label::new(text).wrap()).accessible_name(words);
}

/// Shape and colours: faint where it is gone for the moment.
struct Look {
    state: State,
    fill: eframe::egui::Color32,
    ink: eframe::egui::Color32,
}

impl Look {
    fn of(slot: &Slot, finding: &Finding, colours: &Palette) -> Self {
        if slot.index().is_none() {
            return Self { state: State::Holds, fill: colours.paper, ink: colours.soft };
        }
        let fill = match finding.severity {
            Severity::Fail => colours.fail_faint,
            Severity::Warn => colours.warn_faint,
            Severity::Note => colours.paper,
        };
        Self { state: State::from(finding.severity), fill, ink: colours.ink }
    }
}

/// Its source, the place, or that it is gone.
fn last_row(
    ui: &mut Ui,
    seen: &Seen<'_>,
    slot: &Slot,
    finding: &Finding,
    actions: &mut Vec<Action>,
) {
    let colours = theme::palette(ui);
    let id = ui.scope_id().with(("why", slot.id));
    let open = ui.data(|data| data.get_temp::<bool>(id)).unwrap_or(false);
    if open {
        ui.add(Label::new(soft(format!("Source: {}", finding.source), colours)).wrap());
        ui.add(Label::new(soft(format!("Rule: {}", finding.rule), colours)).wrap());
    }
    let row = vec2(ui.available_width(), 16.0);
    ui.allocate_ui_with_layout(row, Layout::right_to_left(Align::Center), |ui| {
        let Some(index) = slot.index() else {
            ui.label(soft("cleared in this drag", colours));
            return;
        };
        let word = if open { "less" } else { "why" };
        let link = ui.link(RichText::new(word).size(size::SMALL));
        if link.on_hover_text("Where this rule comes from").clicked() {
            ui.data_mut(|data| data.insert_temp(id, !open));
        }
        if finding.point.is_some() {
            let looked_at = seen.work.selected.finding == Some(index);
            let word = if looked_at { "shown" } else { "show" };
            let link = ui.link(RichText::new(word).size(size::SMALL));
            if link.on_hover_text("Show the place in the views").clicked() {
                actions.push(Action::LookAt(index));
            }
        }
    });
}
