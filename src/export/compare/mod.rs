//! The formats of a comparison.

pub(super) mod csv;
mod json;

use std::path::Path;

use crate::export::html;
use crate::export::pdf::{self, Paper, PdfError};
use crate::report::compare::Comparison;

pub use json::json as compare_json;

/// A file name that says no format that a comparison is written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("the name must end in .pdf, .html, .csv or .json, to say the format")]
pub struct CompareFormatError;

/// A format that the comparison can be written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CompareFormat {
    /// Pages for paper.
    Pdf,
    /// A page for screen and paper.
    Html,
    /// One line for each figure of each routing.
    Csv,
    /// For machines.
    Json,
}

impl CompareFormat {
    /// The format that the ending of a file name says, in either case.
    ///
    /// # Errors
    /// [`CompareFormatError`] where it says none that is written.
    pub fn of(path: &Path) -> Result<Self, CompareFormatError> {
        let extension = path.extension().unwrap_or_default().to_string_lossy().to_ascii_lowercase();
        match extension.as_str() {
            "html" => Ok(Self::Html),
            "csv" => Ok(Self::Csv),
            "json" => Ok(Self::Json),
            "pdf" => Ok(Self::Pdf),
            _ => Err(CompareFormatError),
        }
    }

    /// The comparison in this format; only pages have a size of `paper`.
    ///
    /// # Errors
    /// [`PdfError`] where no PDF could be put together.
    pub fn write(self, comparison: &Comparison, paper: Paper) -> Result<Vec<u8>, PdfError> {
        Ok(match self {
            Self::Pdf => pdf::pdf(&comparison.document(), paper)?,
            Self::Html => html::html(&comparison.document()).into_bytes(),
            Self::Csv => csv::csv(comparison).into_bytes(),
            Self::Json => json::json(comparison).into_bytes(),
        })
    }
}
