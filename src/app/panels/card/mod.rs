//! The card: what is known of the selected hose, and beside it, on a page of its own, what can be changed.
//! Its head stays where it is; results never move the fields.

mod dial;
mod fact;
mod flow;
mod installed;
mod make_up;
mod page;
mod result;

use eframe::egui::{Label, Margin, RichText, ScrollArea, Sense, Ui};

use super::{properties, sheet, soft};
use crate::app::actions::Action;
use crate::app::seen::Seen;
use crate::app::solved::Solved;
use crate::app::theme::icons::{self, State};
use crate::app::theme::{self, size};
use crate::app::words;
use crate::model::{Bay, Run, name_or};
use crate::units::{Length, LengthUnit, first_upper};
use page::Page;

pub(in crate::app) fn card(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let (Some(document), Some(solved)) = (&seen.work.document, &seen.work.solved) else { return };
    let colours = theme::palette(ui);
    let selected = seen.work.selected.run.as_deref();
    let mut runs = seen.work.runs().iter().enumerate();
    let found = runs.find(|(_, run)| Some(run.id.as_str()) == selected);
    // The scroll bar has the margin to itself.
    let margin = Margin { left: 14, right: 2, top: 10, bottom: 12 };
    sheet(colours).inner_margin(margin).show(ui, |ui| {
        ui.set_min_size(ui.available_size());
        if let Some((index, run)) = found {
            head(ui, document.bay(), run, index, solved);
        }
        let things = properties::selected(seen);
        let page = page::choose(ui, seen, &things);
        // Each thing that is selected is shown from its top.
        let scroll = ScrollArea::vertical().id_salt((page, selected, &things));
        scroll.auto_shrink([false, false]).show(ui, |ui| {
            ui.set_max_width(ui.available_width() - 12.0);
            match (page, found) {
                (Page::Result, Some((index, run))) => {
                    result::show(ui, seen, solved, index, run, actions);
                }
                _ => properties::show(ui, seen, page.of_form(), &things, actions),
            }
        });
    });
}

fn port_name<'a>(bay: &'a Bay, id: &'a str) -> &'a str {
    bay.port(id).map_or(id, |port| name_or(&port.name, &port.id))
}

/// Name, cut length, verdict: as high with every answer.
fn head(ui: &mut Ui, bay: &Bay, run: &Run, index: usize, solved: &Solved) {
    let colours = theme::palette(ui);
    ui.spacing_mut().item_spacing.y = 2.0;
    let name = RichText::new(words::run_name(run)).size(size::HEADING);
    let ends = [&run.from.port, &run.to.port].map(|id| port_name(bay, id));
    let ends = format!("{} \u{2192} {}", ends[0], ends[1]);
    ui.add(Label::new(name).truncate()).on_hover_text(ends);
    let unit = bay.show_units;
    let (other, step) = match unit {
        LengthUnit::Inch => (LengthUnit::Mm, "1/16 in"),
        LengthUnit::Mm => (LengthUnit::Inch, "1 mm"),
    };
    let hero = if ui.ctx().content_rect().height() < 860.0 { size::HERO_SMALL } else { size::HERO };
    let cut = solved.answer.solution.run(index).map(|run| Length::from_mm(run.cut_length_mm));
    ui.horizontal(|ui| {
        let whole = |unit| cut.map_or_else(|| "\u{2013}".to_owned(), |cut| cut.bench(unit));
        let first = ui.label(RichText::new(whole(unit)).size(hero));
        ui.add_space(6.0);
        if cut.is_some() {
            // On the line that the large figure stands on.
            let text = RichText::new(whole(other)).size(size::HEADING).color(colours.soft);
            let down = (first.rect.height() - size::HEADING) / 2.0 - 4.0;
            ui.vertical(|ui| {
                ui.add_space(down.max(0.0));
                ui.add(Label::new(text).truncate());
            });
        }
    });
    let below = format!("cut length, rounded up to the next {step}");
    ui.add(Label::new(soft(below, colours)).truncate());
    verdict(ui, index, solved);
    ui.add_space(4.0);
}

/// One line: the worst there is, in shape and words.
fn verdict(ui: &mut Ui, index: usize, solved: &Solved) {
    let colours = theme::palette(ui);
    let verdict = solved.answer.verdict_on(index);
    let worst = verdict.worst().filter(|severity| *severity != crate::checks::Severity::Note);
    let state = match worst {
        _ if solved.answer.solution.run(index).is_none() => State::Fail,
        worst => worst.map_or(State::Holds, State::from),
    };
    let words = if solved.answer.solution.run(index).is_some() {
        first_upper(&verdict.in_short())
    } else {
        "Cannot be calculated".to_owned()
    };
    ui.horizontal(|ui| {
        icons::show(ui, state, colours);
        let ink = if state == State::Holds { colours.ink } else { state.colour(colours) };
        let text = RichText::new(words).size(size::GROUP).color(ink);
        ui.add(Label::new(text).truncate().sense(Sense::hover()));
    });
}
