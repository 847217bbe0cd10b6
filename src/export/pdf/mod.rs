//! The sheet as PDF: vectors and words with their fonts embedded, on A4 or Letter.
//!
//! Blocks are set from the finished sheet ([`summary`], [`hose`], [`bench`]), flow onto pages
//! ([`flow`]), and are painted ([`paint`]) when the pages are counted. All in millimetres from the left
//! and top of the paper; only `paint` knows points.

mod bench;
mod block;
mod compare;
mod document;
mod face;
mod findings;
mod flow;
mod hose;
mod labels;
mod paint;
mod paper;
mod running;
mod summary;
mod table;
mod template;
mod text;
mod tiles;

use crate::report::sheet::Sheet;
use document::document;
use face::Faces;
use flow::Flow;
use running::Running;

pub(super) use compare::compare;
pub use labels::{LabelKind, labels};
pub use paper::Paper;
pub use template::{
    ASK_ABOVE_PAGES, MOST_PAGES, PageCount, template, template_pages, template_told,
};

/// Why no PDF could be made; none of these is the sheet's fault.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PdfError {
    /// The embedded font is not one.
    #[error("the embedded font cannot be read")]
    Font,
    /// The library refused.
    #[error("the PDF could not be put together: {0}")]
    Library(String),
    /// More pages than anybody puts together.
    #[error(
        "{0}, and at most {MOST_PAGES} are written: draw a shorter hose, or bend it by its marks"
    )]
    TooManyPages(PageCount),
    /// Nobody wants it any more.
    #[error("stopped: nothing was written")]
    Stopped,
}

/// The whole sheet; the same sheet gives the same bytes.
pub(super) fn pdf(sheet: &Sheet, paper: Paper) -> Result<Vec<u8>, PdfError> {
    let faces = Faces::new()?;
    let mut flow = Flow::new(paper);
    summary::push(&mut flow, &faces, sheet);
    for one in &sheet.hoses {
        let left_over = hose::push(&mut flow, &faces, sheet, one);
        bench::push(&mut flow, &faces, sheet, one, left_over);
    }
    let routing = format!("routing: {}", sheet.routing);
    let running =
        Running { faces: &faces, paper, title: &sheet.title, routing: &routing, info: &sheet.info };
    let title = format!("{}: length sheet, {}", sheet.title, sheet.routing);
    document(&faces, paper, title, &running.pages(&flow.pages))
}
