//! What is written for paper: the length sheet, labels, templates.

use std::path::{Path, PathBuf};

use super::{Files, Wanted, file_name};
use crate::app::actions::Ask;
use crate::app::compare::Compare;
use crate::app::shopping::Shopping;
use crate::app::told::Notice;
use crate::app::work::Work;
use crate::document::file;
use crate::export::true_scale::ViewFormat;
use crate::export::{CompareFormat, Format, PdfError};
use crate::model::{name_or, routing_letter};
use crate::units::shown_name;

/// What a request to write something asks a path for.
pub(in super::super) fn wanted(ask: Ask, work: &Work) -> Option<Wanted> {
    let proposed = |what: &str| proposed(work, what);
    Some(match ask {
        Ask::Sheet => Wanted::Sheet { near: proposed("lengths")? },
        Ask::Labels => Wanted::Labels { near: proposed("labels")? },
        Ask::Template => {
            let run = work.selected.run.clone()?;
            let near = proposed(&format!("template-{}", file_name(&run, "")))?;
            Wanted::Template { near, run }
        }
        Ask::Drawing => {
            let view = work.canvas.active;
            let near = proposed(&view.name().to_lowercase())?.with_extension("dxf");
            Wanted::Drawing { near, view }
        }
        Ask::ComparePage => {
            let title = &work.bay()?.title;
            Wanted::Comparison { near: beside_the_bay(work, &file_name(title, "-routings.pdf")) }
        }
        Ask::ShoppingCsv => {
            Wanted::ShoppingList { near: proposed("shopping")?.with_extension("csv") }
        }
        _ => return None,
    })
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
    let routing = routing.map(|routing| {
        let letter = routing_letter(work.routing).to_ascii_lowercase();
        // What comes before a colon or a comma tells it from the others.
        let name = name_or(&routing.name, &routing.id);
        let name = name.split([':', ',', ';', '(']).next().unwrap_or(name);
        format!("-{letter}-{}", file_name(name, ""))
    });
    let ending = format!("{}-{what}.pdf", routing.unwrap_or_default());
    Some(beside_the_bay(work, &file_name(&bay.title, &ending)))
}

impl Files {
    /// Makes what is wanted of the routings, and writes it.
    pub(in super::super) fn write(
        &self,
        wanted: &Wanted,
        path: &Path,
        (compare, shopping): (&Compare, &Shopping),
        work: &mut Work,
    ) {
        // The ending was put on where the name had none.
        let (made, not) = match wanted {
            Wanted::Sheet { .. } => {
                let format = Format::of(path).unwrap_or(Format::Pdf);
                (work.sheet(format), "The length sheet was not written")
            }
            Wanted::Labels { .. } => (work.labels(), "The labels were not written"),
            Wanted::Drawing { view, .. } => {
                let format = ViewFormat::of(path).unwrap_or(ViewFormat::Dxf);
                (work.drawing(*view, format).map(Ok), "The drawing was not written")
            }
            Wanted::Comparison { .. } => {
                let format = CompareFormat::of(path).unwrap_or(CompareFormat::Pdf);
                (compare.written(format), "The comparison was not written")
            }
            Wanted::ShoppingList { .. } => {
                (shopping.csv().map(Ok), "The shopping list was not written")
            }
            _ => return,
        };
        let besides = match wanted {
            Wanted::Drawing { .. } | Wanted::Comparison { .. } => String::new(),
            _ => work.before_cutting(None),
        };
        self.write_printed(work, path, made, not, &besides);
    }

    /// Writes what was made, says so and what is to be said besides, and opens it.
    pub(super) fn write_printed(
        &self,
        work: &mut Work,
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
                let _ = (self.show)(path);
            }
            Err(error) => work.trouble(not, error.lines().map(str::to_owned).collect()),
        }
    }
}
