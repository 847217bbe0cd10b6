//! The builder's own parts at a hose: offered in its pickers, copied into the bay on use.

use eframe::egui::RichText;

use super::Scene;
use crate::app::actions::{Action, PartsAct};
use crate::app::theme::{self, size};
use crate::app::widgets::Form;
use crate::document::Command;
use crate::engine::{end_kind, hose_kind};
use crate::model::{Bay, EndKind, HoseKind, Run, Stock, StockEntry};

/// Hoses of the library that the bay does not have yet: their ids and words.
pub(super) fn hoses(bay: &Bay, library: &Stock) -> Vec<(String, String)> {
    let new = library.hoses.iter().filter(|hose| hose_kind(bay, &hose.id).is_none());
    new.map(|hose| (hose.id.clone(), words(&hose.name))).collect()
}

/// The same of end fittings.
pub(super) fn ends(bay: &Bay, library: &Stock) -> Vec<(Option<String>, String)> {
    let new = library.ends.iter().filter(|end| end_kind(bay, &end.id).is_none());
    new.map(|end| (Some(end.id.clone()), words(&end.name))).collect()
}

fn words(name: &str) -> String {
    format!("{name}, parts library")
}

/// The hose of this id, of the bay or just selected from the library.
pub(super) fn hose<'a>(bay: &'a Bay, library: &'a Stock, id: &str) -> Option<&'a HoseKind> {
    hose_kind(bay, id).or_else(|| library.hoses.iter().find(|hose| hose.id == id))
}

/// The end of this id, of the bay or just selected from the library.
pub(super) fn end<'a>(bay: &'a Bay, library: &'a Stock, id: &str) -> Option<&'a EndKind> {
    end_kind(bay, id).or_else(|| library.ends.iter().find(|end| end.id == id))
}

/// Puts into the bay what its hoses use of the library, so that the bay stays whole.
pub(super) fn copies(bay: &Bay, library: &Stock, runs: &[Run]) -> Vec<Command> {
    let mut parts: Vec<StockEntry> = Vec::new();
    for run in runs {
        let hose = hose_kind(bay, &run.hose).is_none();
        let hose = hose.then(|| StockEntry::hose(library, &run.hose)).flatten();
        let ends = [&run.from.end, &run.to.end].into_iter().flatten();
        let ends = ends
            .filter(|id| end_kind(bay, id).is_none())
            .filter_map(|id| StockEntry::end(library, id));
        for part in hose.into_iter().chain(ends) {
            if !parts.contains(&part) {
                parts.push(part);
            }
        }
    }
    parts.into_iter().map(Command::PutInStock).collect()
}

/// One quiet line where the library has other figures for a part of the bay; it opens them side by side.
pub(super) fn difference(
    form: &mut Form<'_>,
    scene: &Scene<'_>,
    in_library: Option<StockEntry>,
    actions: &mut Vec<Action>,
) {
    let Some(part) = in_library else { return };
    if part.counterpart(&scene.bay.stock).as_ref() == Some(&part) {
        return;
    }
    let asked = form.whole(|ui| {
        let colours = theme::palette(ui);
        let text = RichText::new("Other figures in your parts library").size(size::SMALL);
        let link = ui.link(text.color(colours.warn));
        link.on_hover_text("See what differs, and take it over either way").clicked()
    });
    if asked {
        actions.push(Action::Parts(PartsAct::Open(part)));
    }
}
