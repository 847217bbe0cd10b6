//! What was found, in lists: of one hose under its card, and of the whole routing, worst first, with
//! how many there are of each kind. The lists stand still while something is held.

use eframe::egui::{Align, Button, CollapsingHeader, Id, ScrollArea, Ui};

use super::{finding, soft};
use crate::app::App;
use crate::app::actions::Action;
use crate::app::solved::Solved;
use crate::app::solved_order::{Heading, Slot};
use crate::app::state::Listed;
use crate::app::{theme, words};
use crate::checks::Severity;

/// The two lists: hoses, and findings with their counts.
pub(super) fn tabs(ui: &mut Ui, app: &App, solved: &Solved, actions: &mut Vec<Action>) {
    let counts = words::counts(&solved.findings);
    ui.horizontal(|ui| {
        let mut tab = |ui: &mut Ui, text: &str, listed: Listed, tip: &str| {
            let button = Button::selectable(app.listed == listed, text).truncate();
            if ui.add(button).on_hover_text(tip).clicked() {
                actions.push(Action::List(listed));
            }
        };
        tab(ui, "Hoses", Listed::Hoses, "The hoses of this routing with their cut lengths");
        tab(
            ui,
            &counts,
            Listed::Findings,
            "Every finding of this routing, worst first; N goes through them",
        );
    });
}

/// Every finding of the routing, each under the name of its hose.
pub(super) fn list(ui: &mut Ui, app: &App, solved: &Solved, actions: &mut Vec<Action>) {
    ScrollArea::vertical().id_salt("findings").auto_shrink([false, false]).show(ui, |ui| {
        if solved.findings.is_empty() {
            ui.label("Nothing was found fault with in this routing");
        }
        let all: Vec<&Slot> = solved.slots.iter().collect();
        List { app, solved, named: Named::ByHose }.show(ui, &all, actions);
    });
}

/// The findings of one hose.
pub(super) fn of_run(
    ui: &mut Ui,
    app: &App,
    solved: &Solved,
    run: &str,
    actions: &mut Vec<Action>,
) {
    let of_run = |slot: &&Slot| solved.in_slot(slot).is_some_and(|f| f.run.as_deref() == Some(run));
    let own: Vec<&Slot> = solved.slots.iter().filter(of_run).collect();
    ui.add_space(4.0);
    List { app, solved, named: Named::Plain }.show(ui, &own, actions);
}

/// Whether each finding says whose it is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Named {
    ByHose,
    Plain,
}

struct List<'a> {
    app: &'a App,
    solved: &'a Solved,
    named: Named,
}

impl List<'_> {
    /// Under headings, worst first; notes stay folded until they are asked for.
    fn show(&self, ui: &mut Ui, slots: &[&Slot], actions: &mut Vec<Action>) {
        let colours = theme::palette(ui);
        ui.spacing_mut().item_spacing.y = 6.0;
        let under = |heading: Heading| slots.iter().copied().filter(move |s| s.heading == heading);
        let bad = [Severity::Fail, Severity::Warn];
        for heading in bad.map(Heading::Severity).into_iter().chain([Heading::New]) {
            if heading == Heading::New {
                self.notes(
                    ui,
                    &under(Heading::Severity(Severity::Note)).collect::<Vec<_>>(),
                    actions,
                );
            }
            if under(heading).next().is_some() {
                ui.add_space(4.0);
                ui.label(soft(heading_word(heading), colours));
            }
            for slot in under(heading) {
                self.one(ui, slot, actions);
            }
        }
    }

    fn notes(&self, ui: &mut Ui, notes: &[&Slot], actions: &mut Vec<Action>) {
        if notes.is_empty() {
            return;
        }
        let colours = theme::palette(ui);
        let looked_at = notes
            .iter()
            .any(|slot| slot.index().is_some() && slot.index() == self.app.selected.finding);
        let title = format!("{}, {}", words::heading(Severity::Note), notes.len());
        let folder = CollapsingHeader::new(soft(title, colours));
        folder.open(looked_at.then_some(true)).show_unindented(ui, |ui| {
            for slot in notes {
                self.one(ui, slot, actions);
            }
        });
    }

    fn one(&self, ui: &mut Ui, slot: &Slot, actions: &mut Vec<Action>) {
        let Some(found) = self.solved.in_slot(slot) else { return };
        let runs = self.app.document.as_ref().and_then(|d| d.bay().routings.get(self.app.routing));
        let run = runs.and_then(|o| o.runs.iter().find(|r| Some(&r.id) == found.run.as_ref()));
        let whose = match self.named {
            Named::ByHose => Some(run.map_or("The bay", words::run_name)),
            Named::Plain => None,
        };
        let shown = ui.scope(|ui| finding::show(ui, self.app, self.solved, slot, whose, actions));
        let looked_at = slot.index().is_some() && slot.index() == self.app.selected.finding;
        // Once when it is turned to, not while the user scrolls on.
        let last = Id::unique("finding scrolled to").with(self.named == Named::ByHose);
        if looked_at && ui.data(|data| data.get_temp::<u64>(last)) != Some(slot.id) {
            shown.response.scroll_to_me(Some(Align::Center));
            ui.data_mut(|data| data.insert_temp(last, slot.id));
        }
    }
}

fn heading_word(heading: Heading) -> &'static str {
    match heading {
        Heading::Severity(severity) => words::heading(severity),
        Heading::New => "New while you hold it",
    }
}
