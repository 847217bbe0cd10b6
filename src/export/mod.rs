//! The sheet and the report, and the formats they are written in.
//!
//! [`Sheet`] is the finished value: everything decided, worded and drawn, from a bay, its solution
//! and its findings. A format writes it down and decides nothing. No clock, no files: the day comes
//! from outside, the bytes go back.

use std::path::Path;

pub mod compare;
mod csv;
mod drawing;
mod html;
mod json;
mod plan_csv;
mod plan_json;
mod report;
mod sheet;
mod svg;
pub mod true_scale;

pub use drawing::{Anchor, Dash, Drawing, Item, Rect, Shade, Stroke, View};
pub use plan_csv::plan_csv;
pub use plan_json::plan_json;
pub use report::{Report, worst_first};
pub use sheet::{
    Clock, Counts, EndSheet, Fact, Figures, FindingLine, HoseSheet, Mark, MarkKind, Sheet,
    SheetInfo, Shown, lengths_in_words, needed_in_words, with_pose,
};

/// A format that the sheet can be written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Format {
    /// One self-contained page for screen and paper.
    Html,
    /// One line a hose (RFC 4180).
    Csv,
    /// For machines.
    Json,
}

/// A file name whose ending says no format.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum FormatError {
    /// Asked for often, and not there.
    #[error(
        "this build writes html, csv and json, no pdf; write NAME.html and print it to PDF from a \
         browser"
    )]
    Pdf,
    /// Another ending, or none.
    #[error("the name must end in .html, .csv or .json, to say the format")]
    Unknown,
}

impl Format {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Html, Self::Csv, Self::Json];

    /// The ending of its file names, without the dot.
    pub fn extension(self) -> &'static str {
        match self {
            Self::Html => "html",
            Self::Csv => "csv",
            Self::Json => "json",
        }
    }

    /// The format that the ending of a file name says, in either case.
    ///
    /// # Errors
    /// [`FormatError`] where it says none that is written.
    pub fn of(path: &Path) -> Result<Self, FormatError> {
        let extension = path.extension().unwrap_or_default().to_string_lossy().to_ascii_lowercase();
        match extension.as_str() {
            "html" => Ok(Self::Html),
            "csv" => Ok(Self::Csv),
            "json" => Ok(Self::Json),
            "pdf" => Err(FormatError::Pdf),
            _ => Err(FormatError::Unknown),
        }
    }

    /// The sheet in this format.
    pub fn write(self, sheet: &Sheet) -> Vec<u8> {
        match self {
            Self::Html => html::html(sheet),
            Self::Csv => csv::csv(sheet),
            Self::Json => json::json(sheet),
        }
        .into_bytes()
    }
}
