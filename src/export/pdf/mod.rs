//! The sheet as PDF: vectors and words with their fonts embedded, on A4 or Letter.
//!
//! The blocks of the report are set ([`blocks`]), flow onto pages ([`flow`]), and are painted ([`paint`]) when
//! the pages are counted. All in millimetres from the left and top of the paper; only `paint` knows points.

mod block;
mod blocks;
mod document;
mod face;
mod flow;
mod labels;
mod paint;
mod paper;
mod running;
mod table;
mod template;
mod text;
mod tiles;

use crate::report::blocks::Document;
use document::document;
use face::Faces;
use flow::{Flow, WIDTH};
use running::Running;

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

/// Everything on its pages; the same document gives the same bytes.
pub(super) fn pdf(content: &Document, paper: Paper) -> Result<Vec<u8>, PdfError> {
    let faces = Faces::new()?;
    let mut flow = Flow::new(paper);
    for sections in content.sections.chunk_by(|_, next| !next.starts_page) {
        blocks::push(&mut flow, &faces, sections, WIDTH);
    }
    let (title, routing, info) = (&content.bay, &content.routing, &content.info);
    let running = Running { faces: &faces, paper, title, routing, info };
    document(&faces, paper, content.title.clone(), &running.pages(&flow.pages))
}
