//! What was found, in lists: of one hose under its card, and of the whole routing, hose by hose. The lists stand still while something is held.

use eframe::egui::{Align, Button, CollapsingHeader, Id, ScrollArea, Ui};

use super::{finding, soft};
use crate::app::actions::{Action, Listed};
use crate::app::seen::Seen;
use crate::app::solved::Solved;
use crate::app::solved_order::{Heading, Slot};
use crate::app::{theme, words};
use crate::units::first_upper;

/// The two lists: hoses, and findings with their counts.
pub(super) fn tabs(ui: &mut Ui, seen: &Seen<'_>, solved: &Solved, actions: &mut Vec<Action>) {
    let counts = first_upper(&solved.answer.told.verdict.in_short());
    ui.horizontal(|ui| {
        let mut tab = |ui: &mut Ui, text: &str, listed: Listed, tip: &str| {
            let button = Button::selectable(seen.work.listed == listed, text).truncate();
            if ui.add(button).on_hover_text(tip).clicked() {
                actions.push(Action::List(listed));
            }
        };
        tab(ui, "Hoses", Listed::Hoses, "The hoses of this routing with their cut lengths");
        tab(
            ui,
            &counts,
            Listed::Findings,
            "Every finding of this routing, hose by hose; N goes through them",
        );
    });
}

/// Every finding of the routing, under the names of the hoses.
pub(super) fn list(ui: &mut Ui, seen: &Seen<'_>, solved: &Solved, actions: &mut Vec<Action>) {
    ScrollArea::vertical().id_salt("findings").auto_shrink([false, false]).show(ui, |ui| {
        if solved.answer.findings.is_empty() {
            ui.label("All clear: nothing was found in this routing");
        }
        let all: Vec<&Slot> = solved.slots.iter().collect();
        List { seen, solved, named: Named::ByHose }.show(ui, &all, actions);
    });
}

/// The findings of one hose.
pub(super) fn of_run(
    ui: &mut Ui,
    seen: &Seen<'_>,
    solved: &Solved,
    run: &str,
    actions: &mut Vec<Action>,
) {
    let of_run = |slot: &&Slot| solved.in_slot(slot).is_some_and(|f| f.run.as_deref() == Some(run));
    let own: Vec<&Slot> = solved.slots.iter().filter(of_run).collect();
    ui.add_space(4.0);
    List { seen, solved, named: Named::Plain }.show(ui, &own, actions);
}

/// Whether it is said whose the findings are.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Named {
    ByHose,
    Plain,
}

struct List<'a> {
    seen: &'a Seen<'a>,
    solved: &'a Solved,
    named: Named,
}

impl List<'_> {
    /// Under headings; notes stay folded until they are asked for.
    fn show(&self, ui: &mut Ui, slots: &[&Slot], actions: &mut Vec<Action>) {
        let colours = theme::palette(ui);
        ui.spacing_mut().item_spacing.y = 6.0;
        let mut heading = None;
        let bad =
            slots.iter().filter(|slot| matches!(slot.heading, Heading::Hose(_) | Heading::Bay));
        for slot in bad {
            if heading != Some(slot.heading) && self.named == Named::ByHose {
                heading = Some(slot.heading);
                ui.add_space(4.0);
                ui.label(soft(self.name(slot.heading), colours));
            }
            self.one(ui, slot, slots, actions);
        }
        let of = |heading| slots.iter().copied().filter(move |slot| slot.heading == heading);
        self.notes(ui, &of(Heading::Notes).collect::<Vec<_>>(), actions);
        if of(Heading::New).next().is_some() {
            ui.add_space(4.0);
            ui.label(soft("New during this drag", colours));
        }
        for slot in of(Heading::New) {
            self.one(ui, slot, slots, actions);
        }
    }

    fn name(&self, heading: Heading) -> &str {
        let routing = self.seen.work.bay().and_then(|bay| bay.routings.get(self.seen.work.routing));
        match heading {
            Heading::Hose(place) => {
                routing.and_then(|routing| routing.runs.get(place)).map_or("", words::run_name)
            }
            _ => "The bay",
        }
    }

    fn notes(&self, ui: &mut Ui, notes: &[&Slot], actions: &mut Vec<Action>) {
        if notes.is_empty() {
            return;
        }
        let colours = theme::palette(ui);
        let looked_at = notes
            .iter()
            .any(|slot| slot.index().is_some() && slot.index() == self.seen.work.selected.finding);
        let count = notes.len();
        let title = if count == 1 { "1 note".to_owned() } else { format!("{count} notes") };
        let folder = CollapsingHeader::new(soft(title, colours));
        folder.open(looked_at.then_some(true)).show_unindented(ui, |ui| {
            for slot in notes {
                self.one(ui, slot, notes, actions);
            }
        });
    }

    /// A finding with what comes of it; that is not shown once more by itself.
    fn one(&self, ui: &mut Ui, slot: &Slot, all: &[&Slot], actions: &mut Vec<Action>) {
        let is_shown = |id: u64| all.iter().any(|slot| slot.id == id);
        if slot.under.is_some_and(is_shown) {
            return;
        }
        let under: Vec<&Slot> =
            all.iter().copied().filter(|other| other.under == Some(slot.id)).collect();
        let Some(found) = self.solved.in_slot(slot) else { return };
        let runs = self.seen.work.bay().and_then(|bay| bay.routings.get(self.seen.work.routing));
        let run = runs.and_then(|o| o.runs.iter().find(|r| Some(&r.id) == found.run.as_ref()));
        // The heading says it of all but notes and what is new.
        let is_loose = matches!(slot.heading, Heading::Notes | Heading::New);
        let whose = (self.named == Named::ByHose && is_loose)
            .then(|| run.map_or("The bay", words::run_name));
        let told = finding::Told { slot, under: &under, whose };
        let shown = ui.scope(|ui| finding::show(ui, self.seen, self.solved, &told, actions));
        let is_looked_at =
            |slot: &Slot| slot.index().is_some() && slot.index() == self.seen.work.selected.finding;
        let looked_at = is_looked_at(slot) || under.iter().any(|slot| is_looked_at(slot));
        // Once when it is turned to, not while the user scrolls on.
        let last = Id::unique("finding scrolled to").with(self.named == Named::ByHose);
        if looked_at && ui.data(|data| data.get_temp::<u64>(last)) != Some(slot.id) {
            shown.response.scroll_to_me(Some(Align::Center));
            ui.data_mut(|data| data.insert_temp(last, slot.id));
        }
    }
}
