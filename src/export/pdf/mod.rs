//! The sheet as PDF: vectors and words with their fonts embedded, on A4 or Letter.
//!
//! Blocks are set from the finished sheet ([`summary`], [`hose`], [`bench`]), flow onto pages
//! ([`flow`]), and are painted ([`paint`]) when the pages are counted. All in millimetres from the left
//! and top of the paper; only `paint` knows points.

mod bench;
mod block;
mod document;
mod face;
mod findings;
mod flow;
mod hose;
mod labels;
mod paint;
mod paper;
mod summary;
mod table;
mod template;
mod text;
mod tiles;

use glam::DVec2;

use super::drawing::{Anchor, Rect, Shade};
use super::sheet::Sheet;
use block::{Block, rule};
use document::{Finished, document};
use face::Faces;
use flow::{Flow, Page, WIDTH};
use text::{Span, Style, aligned, elided};

pub use labels::labels;
pub use paper::Paper;
pub use template::template;

/// Why no PDF could be made; none of these is the sheet's fault.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PdfError {
    /// The embedded font is not one.
    #[error("the embedded font cannot be read")]
    Font,
    /// The library refused.
    #[error("the PDF could not be put together: {0}")]
    Library(String),
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
    let printer = Printer { faces: &faces, sheet, paper, count: flow.pages.len() };
    let pages: Vec<Finished> =
        (0..flow.pages.len()).map(|i| printer.page(&flow.pages, i)).collect();
    let title = format!("{}: length sheet, {}", sheet.title, sheet.option);
    document(&faces, paper, title, &pages)
}

struct Printer<'a> {
    faces: &'a Faces,
    sheet: &'a Sheet,
    paper: Paper,
    count: usize,
}

impl Printer<'_> {
    fn page(&self, pages: &[Page], index: usize) -> Finished {
        let size = self.paper.size_mm();
        let page = &pages[index];
        let mut all = Block::default();
        let mut links = Vec::new();
        let corner = Flow::corner(self.paper);
        all.put(self.head(&page.about), corner);
        let foot = self.foot(index);
        let foot_at = DVec2::new(corner.x, size.y - corner.y - foot.height);
        for (at, block) in &page.placed {
            all.put(block.clone(), *at);
            let to = block.link.and_then(|hose| pages.iter().position(|p| p.hose == Some(hose)));
            let area = Rect { min: *at, max: *at + DVec2::new(WIDTH, block.height) };
            links.extend(to.map(|to| (area, to)));
        }
        all.put(foot, foot_at);
        Finished { items: all.items, bookmark: page.bookmark.clone(), links }
    }

    /// What every page says at its top: bay, option, what it is about.
    fn head(&self, about: &str) -> Block {
        const APART: f64 = 5.0;
        const LONGEST: f64 = 76.0;
        let (strong, soft) = (Style::STRONG, Style::SOFT.shaded(Shade::Ink));
        let wide = |words: &str| self.faces.of(true).width_mm(words, strong.size_mm);
        let title = elided(self.faces, &self.sheet.title, strong, LONGEST);
        let about = elided(self.faces, about, strong, LONGEST);
        let (from, to) = (wide(&title) + APART, WIDTH - wide(&about) - APART);
        let option = format!("option: {}", self.sheet.option);
        let option = elided(self.faces, &option, soft, to - from);
        let at = |words: &str, style, width, anchor| {
            aligned(self.faces, &[Span(words, style)], width, anchor)
        };
        let mut head = at(&title, strong, WIDTH, Anchor::Start)
            .beside(from, at(&option, soft, to - from, Anchor::Middle))
            .beside(0.0, at(&about, strong, WIDTH, Anchor::End));
        let foot = head.height + 1.0;
        head.items.push(rule(DVec2::new(0.0, foot), WIDTH, Shade::Ink, 0.5));
        head
    }

    fn foot(&self, index: usize) -> Block {
        let style = Style::SOFT;
        let info = &self.sheet.info;
        let from: Vec<&str> =
            [&info.file_name, &info.date].into_iter().flatten().map(String::as_str).collect();
        let from = elided(self.faces, &from.join(" · "), style, WIDTH - 40.0);
        let page = format!("page {} of {}", index + 1, self.count);
        let right =
            aligned(self.faces, &[Span(&page, style.shaded(Shade::Ink))], 40.0, Anchor::End);
        aligned(self.faces, &[Span(&from, style)], WIDTH - 40.0, Anchor::Start)
            .beside(WIDTH - 40.0, right)
    }
}
