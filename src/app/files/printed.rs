//! What is written for paper: the length sheet, labels, templates.

use std::path::{Path, PathBuf};

use super::{Wanted, file_name};
use crate::app::App;
use crate::app::canvas::camera::View;
use crate::app::state::Notice;
use crate::document::file;
use crate::export::CompareFormat;
use crate::export::true_scale::ViewFormat;
use crate::export::{Format, PdfError};
use crate::units::shown_name;

impl App {
    pub(in super::super) fn ask_for_sheet(&mut self) {
        let Some(near) = self.proposed("lengths") else { return };
        self.ask_for_path(Wanted::Sheet { near });
    }

    pub(in super::super) fn ask_for_labels(&mut self) {
        let Some(near) = self.proposed("labels") else { return };
        self.ask_for_path(Wanted::Labels { near });
    }

    pub(in super::super) fn ask_for_template(&mut self) {
        let Some(run) = self.selected_run().map(str::to_owned) else { return };
        let Some(near) = self.proposed(&format!("template-{}", file_name(&run, ""))) else {
            return;
        };
        self.ask_for_path(Wanted::Template { near, run });
    }

    pub(in super::super) fn ask_for_drawing(&mut self) {
        let view = self.canvas.active;
        let Some(near) = self.proposed(&view.name().to_lowercase()) else { return };
        self.ask_for_path(Wanted::Drawing { near: near.with_extension("dxf"), view });
    }

    pub(in super::super) fn ask_for_comparison(&mut self) {
        let Some(document) = &self.document else { return };
        let near = self.beside_the_bay(&file_name(&document.bay().title, "-routings.pdf"));
        self.ask_for_path(Wanted::Comparison { near });
    }

    pub(in super::super) fn ask_for_shopping_csv(&mut self) {
        let Some(near) = self.proposed("shopping") else { return };
        self.ask_for_path(Wanted::ShoppingList { near: near.with_extension("csv") });
    }

    fn beside_the_bay(&self, name: &str) -> PathBuf {
        self.folder().map_or_else(|| PathBuf::from(name), |folder| folder.join(name))
    }

    /// A PDF beside the bay, named after it and what it is.
    fn proposed(&self, what: &str) -> Option<PathBuf> {
        let document = self.document.as_ref()?;
        let bay = document.bay();
        // Two routings of one bay must not write over each other's sheet.
        let routing = bay.routings.get(self.routing).filter(|_| bay.routings.len() > 1);
        let routing = routing.map(|routing| format!("-{}", file_name(&routing.id, "")));
        let ending = format!("{}-{what}.pdf", routing.unwrap_or_default());
        Some(self.beside_the_bay(&file_name(&bay.title, &ending)))
    }

    pub(super) fn write_sheet(&mut self, path: &Path) {
        // The ending was put on where the name had none.
        let format = Format::of(path).unwrap_or(Format::Pdf);
        let made = self.sheet(format);
        let before = self.before_cutting(None);
        self.write_printed(path, made, "The length sheet was not written", &before);
    }

    pub(super) fn write_labels(&mut self, path: &Path) {
        let made = self.labels();
        let before = self.before_cutting(None);
        self.write_printed(path, made, "The labels were not written", &before);
    }

    pub(super) fn write_drawing(&mut self, view: View, path: &Path) {
        // The ending was put on where the name had none.
        let format = ViewFormat::of(path).unwrap_or(ViewFormat::Dxf);
        let made = self.drawing(view, format).map(Ok);
        self.write_printed(path, made, "The drawing was not written", "");
    }

    pub(super) fn write_comparison(&mut self, path: &Path) {
        // The ending was put on where the name had none.
        let format = CompareFormat::of(path).unwrap_or(CompareFormat::Pdf);
        let made = self.comparison(format);
        self.write_printed(path, made, "The comparison was not written", "");
    }

    pub(super) fn write_shopping_csv(&mut self, path: &Path) {
        let made = self.shopping_csv().map(Ok);
        let before = self.before_cutting(None);
        self.write_printed(path, made, "The shopping list was not written", &before);
    }

    /// Writes what was made, says so and what is to be said besides, and opens it.
    pub(super) fn write_printed(
        &mut self,
        path: &Path,
        made: Option<Result<Vec<u8>, PdfError>>,
        not: &str,
        besides: &str,
    ) {
        let Some(made) = made else { return };
        let written = made.map_err(|error| error.to_string()).and_then(|bytes| {
            file::replace(path, |out| out.write_all(&bytes)).map_err(|error| error.to_string())
        });
        match written {
            Ok(()) => {
                let name = shown_name(path);
                let text = format!("Wrote {name}{besides}");
                self.notice = Some(Notice::new(text, Some(path.to_owned())));
                // Where nothing opens it, the notice still says where it is.
                let _ = (self.services.show)(path);
            }
            Err(error) => {
                let lines = error.lines().map(str::to_owned).collect();
                self.trouble(not, lines);
            }
        }
    }

    /// What stands against cutting, of one hose or of all, said when something is written.
    pub(super) fn before_cutting(&self, run: Option<&str>) -> String {
        let Some(solved) = &self.solved else { return String::new() };
        let runs = &solved.answer.routing().runs;
        let place = run.and_then(|id| runs.iter().position(|run| run.id == id));
        let verdict =
            place.map_or(solved.answer.told.verdict, |place| solved.answer.verdict_on(place));
        let stop = verdict.stop();
        if stop.is_empty() { stop } else { format!(". {stop}") }
    }
}
