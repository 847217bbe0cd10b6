//! The sheet and the report, and the formats they are written in.
//!
//! [`Sheet`] is the finished value: everything decided, worded and drawn, from a bay, its solution
//! and its findings. A format writes it down and decides nothing. No clock, no files: the day comes
//! from outside, the bytes go back.

use std::path::Path;

use crate::report::sheet::{Sheet, SheetInfo};

mod compare;
mod csv;
mod cutlist_csv;
mod cutlist_json;
mod html;
mod json;
mod look;
mod ours;
mod pdf;
mod svg;
mod template;
pub mod true_scale;

pub use compare::{CompareFormat, CompareFormatError, compare_json};
pub use cutlist_csv::cutlist_csv;
pub use cutlist_json::cutlist_json;
pub use json::check_json;
pub use ours::is_ours;
pub use pdf::{
    ASK_ABOVE_PAGES, LabelKind, MOST_PAGES, PageCount, Paper, PdfError, labels, template,
    template_pages, template_told,
};
pub use template::{FLAT_WITHIN_MM, NamedPlace, Template, TemplateView, WireSheet, bend_table_csv};

/// A format that the sheet can be written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Format {
    /// Pages for the bench.
    Pdf,
    /// One self-contained page for screen and paper.
    Html,
    /// One line a hose (RFC 4180).
    Csv,
    /// For machines.
    Json,
}

/// A file name whose ending says no format.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("the name must end in .pdf, .html, .csv or .json, to say the format")]
pub struct UnknownFormat;

impl Format {
    /// What is to be worked out for it: a table has no acceptable lengths.
    #[must_use]
    pub fn asks(self, info: SheetInfo) -> SheetInfo {
        if self == Self::Csv { info.without_lengths() } else { info }
    }

    /// All of them.
    pub const ALL: [Self; 4] = [Self::Pdf, Self::Html, Self::Csv, Self::Json];

    /// The ending of its file names, without the dot.
    pub fn extension(self) -> &'static str {
        match self {
            Self::Pdf => "pdf",
            Self::Html => "html",
            Self::Csv => "csv",
            Self::Json => "json",
        }
    }

    /// The format that the ending of a file name says, in either case.
    ///
    /// # Errors
    /// [`UnknownFormat`] where it says none that is written.
    pub fn of(path: &Path) -> Result<Self, UnknownFormat> {
        let extension = path.extension().unwrap_or_default().to_string_lossy().to_ascii_lowercase();
        Self::ALL.into_iter().find(|format| format.extension() == extension).ok_or(UnknownFormat)
    }

    /// The sheet in this format; only pages have a size of `paper`.
    ///
    /// # Errors
    /// [`PdfError`] where no PDF could be put together.
    pub fn write(self, sheet: &Sheet, paper: Paper) -> Result<Vec<u8>, PdfError> {
        Ok(match self {
            Self::Pdf => pdf::pdf(&sheet.document(), paper)?,
            Self::Html => html::html(&sheet.document()).into_bytes(),
            Self::Csv => csv::csv(sheet).into_bytes(),
            Self::Json => json::json(sheet).into_bytes(),
        })
    }
}
