//! Every finding of the option in view, worst first, with how many there are of each kind.

use eframe::egui::{Button, CollapsingHeader, ScrollArea, Ui};

use super::soft;
use crate::app::App;
use crate::app::actions::Action;
use crate::app::solved::Solved;
use crate::app::state::Listed;
use crate::app::theme;
use crate::checks::{Finding, Severity};

/// The two lists: hoses, and findings with their counts.
pub(super) fn tabs(ui: &mut Ui, app: &App, solved: &Solved, actions: &mut Vec<Action>) {
    let counts = counts(&solved.findings);
    ui.horizontal(|ui| {
        let mut tab = |ui: &mut Ui, text: &str, listed: Listed, tip: &str| {
            let button = Button::selectable(app.listed == listed, text).truncate();
            if ui.add(button).on_hover_text(tip).clicked() {
                actions.push(Action::List(listed));
            }
        };
        tab(ui, "Hoses", Listed::Hoses, "The hoses of this option with their cut lengths");
        tab(
            ui,
            &counts,
            Listed::Findings,
            "Every finding of this option, worst first; N goes through them",
        );
    });
}

/// "2 to mend, 3 to look at"; the notes where there is nothing worse.
fn counts(findings: &[Finding]) -> String {
    let of = |severity| findings.iter().filter(|f| f.severity == severity).count();
    let parts: Vec<String> = [
        (of(Severity::Fail), "to mend", "to mend"),
        (of(Severity::Warn), "to look at", "to look at"),
        (of(Severity::Note), "note", "notes"),
    ]
    .into_iter()
    .filter(|(count, ..)| *count > 0)
    .take(2)
    .map(|(count, one, many)| format!("{count} {}", if count == 1 { one } else { many }))
    .collect();
    if parts.is_empty() { "Nothing found".to_owned() } else { parts.join(", ") }
}

/// The list. Notes stay folded until they are asked for.
pub(super) fn list(ui: &mut Ui, app: &App, solved: &Solved, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    ScrollArea::vertical().id_salt("findings").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 6.0;
        if solved.findings.is_empty() {
            ui.label("Nothing was found fault with in this option");
        }
        for (heading, severity) in [("To mend", Severity::Fail), ("To look at", Severity::Warn)] {
            let mut found = of_severity(solved, severity).peekable();
            if found.peek().is_some() {
                ui.label(soft(heading, colours));
            }
            for (index, finding) in found {
                one(ui, app, index, finding, actions);
            }
        }
        let notes = of_severity(solved, Severity::Note).count();
        if notes > 0 {
            let looked_at = app.chosen.finding.and_then(|at| solved.findings.get(at));
            let open = looked_at.is_some_and(|finding| finding.severity == Severity::Note);
            let title = format!("To know, {notes}");
            CollapsingHeader::new(soft(title, colours)).open(open.then_some(true)).show(ui, |ui| {
                for (index, finding) in of_severity(solved, Severity::Note) {
                    one(ui, app, index, finding, actions);
                }
            });
        }
    });
}

fn of_severity(solved: &Solved, severity: Severity) -> impl Iterator<Item = (usize, &Finding)> {
    solved.findings.iter().enumerate().filter(move |(_, finding)| finding.severity == severity)
}

/// A finding under the name of its hose.
fn one(ui: &mut Ui, app: &App, index: usize, finding: &Finding, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    let runs = app.document.as_ref().and_then(|d| d.bay().options.get(app.option));
    let run = runs.and_then(|o| o.runs.iter().find(|r| Some(&r.id) == finding.run.as_ref()));
    let name = run.map_or("The bay", crate::app::words::run_name);
    ui.label(soft(name, colours));
    let shown = ui.scope(|ui| super::finding::show(ui, app, index, finding, actions)).response;
    // Once when it is turned to, not while the user scrolls on.
    let id = eframe::egui::Id::unique("finding scrolled to");
    if app.chosen.finding == Some(index)
        && ui.data(|data| data.get_temp::<usize>(id)) != Some(index)
    {
        shown.scroll_to_me(Some(eframe::egui::Align::Center));
        ui.data_mut(|data| data.insert_temp(id, index));
    }
}
