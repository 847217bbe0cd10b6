//! What is written for paper: the length sheet, labels, templates.

use std::path::{Path, PathBuf};

use super::{Files, Wanted, file_name};
use crate::app::canvas::camera::View;
use crate::app::compare::Compare;
use crate::app::services::Services;
use crate::app::shopping::Shopping;
use crate::app::told::Notice;
use crate::app::work::Work;
use crate::document::file;
use crate::export::CompareFormat;
use crate::export::true_scale::ViewFormat;
use crate::export::{Format, PdfError};
use crate::units::shown_name;

impl Files {
    pub(in super::super) fn ask_for_sheet(&mut self, work: &Work, services: &Services) {
        let Some(near) = proposed(work, "lengths") else { return };
        self.ask_for(services, Wanted::Sheet { near });
    }

    pub(in super::super) fn ask_for_labels(&mut self, work: &Work, services: &Services) {
        let Some(near) = proposed(work, "labels") else { return };
        self.ask_for(services, Wanted::Labels { near });
    }

    pub(in super::super) fn ask_for_template(&mut self, work: &Work, services: &Services) {
        let Some(run) = work.selected.run.clone() else { return };
        let Some(near) = proposed(work, &format!("template-{}", file_name(&run, ""))) else {
            return;
        };
        self.ask_for(services, Wanted::Template { near, run });
    }

    pub(in super::super) fn ask_for_drawing(&mut self, work: &Work, services: &Services) {
        let view = work.canvas.active;
        let Some(near) = proposed(work, &view.name().to_lowercase()) else { return };
        self.ask_for(services, Wanted::Drawing { near: near.with_extension("dxf"), view });
    }

    pub(in super::super) fn ask_for_comparison(&mut self, work: &Work, services: &Services) {
        let Some(document) = &work.document else { return };
        let near = beside_the_bay(work, &file_name(&document.bay().title, "-routings.pdf"));
        self.ask_for(services, Wanted::Comparison { near });
    }

    pub(in super::super) fn ask_for_shopping_csv(&mut self, work: &Work, services: &Services) {
        let Some(near) = proposed(work, "shopping") else { return };
        self.ask_for(services, Wanted::ShoppingList { near: near.with_extension("csv") });
    }
}

fn beside_the_bay(work: &Work, name: &str) -> PathBuf {
    work.folder().map_or_else(|| PathBuf::from(name), |folder| folder.join(name))
}

/// A PDF beside the bay, named after it and what it is.
fn proposed(work: &Work, what: &str) -> Option<PathBuf> {
    let document = work.document.as_ref()?;
    let bay = document.bay();
    // Two routings of one bay must not write over each other's sheet.
    let routing = bay.routings.get(work.routing).filter(|_| bay.routings.len() > 1);
    let routing = routing.map(|routing| format!("-{}", file_name(&routing.id, "")));
    let ending = format!("{}-{what}.pdf", routing.unwrap_or_default());
    Some(beside_the_bay(work, &file_name(&bay.title, &ending)))
}

pub(in super::super) fn write_sheet(work: &mut Work, services: &Services, path: &Path) {
    // The ending was put on where the name had none.
    let made = work.sheet(Format::of(path).unwrap_or(Format::Pdf));
    let before = work.before_cutting(None);
    write_printed(work, services, path, made, "The length sheet was not written", &before);
}

pub(in super::super) fn write_labels(work: &mut Work, services: &Services, path: &Path) {
    let made = work.labels();
    let before = work.before_cutting(None);
    write_printed(work, services, path, made, "The labels were not written", &before);
}

pub(in super::super) fn write_drawing(
    work: &mut Work,
    services: &Services,
    view: View,
    path: &Path,
) {
    // The ending was put on where the name had none.
    let made = work.drawing(view, ViewFormat::of(path).unwrap_or(ViewFormat::Dxf)).map(Ok);
    write_printed(work, services, path, made, "The drawing was not written", "");
}

pub(in super::super) fn write_comparison(
    work: &mut Work,
    services: &Services,
    compare: &Compare,
    path: &Path,
) {
    // The ending was put on where the name had none.
    let made = compare.written(CompareFormat::of(path).unwrap_or(CompareFormat::Pdf));
    write_printed(work, services, path, made, "The comparison was not written", "");
}

pub(in super::super) fn write_shopping_csv(
    work: &mut Work,
    services: &Services,
    shopping: &Shopping,
    path: &Path,
) {
    let before = work.before_cutting(None);
    let made = shopping.csv().map(Ok);
    write_printed(work, services, path, made, "The shopping list was not written", &before);
}

/// Writes what was made, says so and what is to be said besides, and opens it.
pub(super) fn write_printed(
    work: &mut Work,
    services: &Services,
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
            let text = format!("Wrote {}{besides}", shown_name(path));
            work.notice = Some(Notice::new(text, Some(path.to_owned())));
            // Where nothing opens it, the notice still says where it is.
            let _ = (services.show)(path);
        }
        Err(error) => work.trouble(not, error.lines().map(str::to_owned).collect()),
    }
}
