//! The sheet as PDF: vectors and words with their fonts embedded, on A4 or Letter.
//!
//! Blocks are set from the finished sheet ([`summary`], [`hose`], [`bench`]), flow onto pages
//! ([`flow`]), and are painted ([`paint`]) when the pages are counted. All in millimetres from the left
//! and top of the paper; only `paint` knows points.

mod bench;
mod block;
mod face;
mod findings;
mod flow;
mod hose;
mod paint;
mod paper;
mod summary;
mod table;
mod text;

use glam::DVec2;
use krilla::Document;
use krilla::annotation::{LinkAnnotation, Target};
use krilla::destination::{Destination, XyzDestination};
use krilla::geom::{Point, Rect};
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;

use super::drawing::{Anchor, Shade};
use super::sheet::Sheet;
use block::{Block, rule};
use face::Faces;
use flow::{Flow, Page, WIDTH};
use paint::points;
use text::{Span, Style, aligned, elided};

pub use paper::Paper;

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
    printer.document(&flow.pages)
}

struct Printer<'a> {
    faces: &'a Faces,
    sheet: &'a Sheet,
    paper: Paper,
    count: usize,
}

impl Printer<'_> {
    fn document(&self, pages: &[Page]) -> Result<Vec<u8>, PdfError> {
        let mut document = Document::new();
        // No date: the same sheet gives the same bytes.
        document.set_metadata(
            Metadata::new()
                .title(format!("{}: length sheet, {}", self.sheet.title, self.sheet.option))
                .creator("Hosewright".to_owned())
                .language("en".to_owned()),
        );
        let mut outline = Outline::new();
        for (i, page) in pages.iter().enumerate() {
            self.page(&mut document, pages, i)?;
            if let Some(words) = &page.bookmark {
                let place = XyzDestination::new(i, Point::from_xy(0.0, 0.0));
                outline.push_child(OutlineNode::new(words.clone(), place));
            }
        }
        document.set_outline(outline);
        document.finish().map_err(|error| PdfError::Library(format!("{error:?}")))
    }

    fn page(&self, document: &mut Document, pages: &[Page], index: usize) -> Result<(), PdfError> {
        let size = self.paper.size_mm();
        let settings = PageSettings::from_wh(points(size.x), points(size.y))
            .ok_or_else(|| PdfError::Library("no such size of page".to_owned()))?;
        let page = &pages[index];
        let mut out = document.start_page_with(settings);
        let mut all = Block::default();
        let corner = Flow::corner(self.paper);
        all.put(self.head(&page.about), corner);
        let foot = self.foot(index);
        let foot_at = DVec2::new(corner.x, size.y - corner.y - foot.height);
        for (at, block) in &page.placed {
            all.put(block.clone(), *at);
            if let Some(link) = block.link.and_then(|hose| link(pages, hose, *at, block.height)) {
                out.add_annotation(link.into());
            }
        }
        all.put(foot, foot_at);
        let mut surface = out.surface();
        for item in &all.items {
            paint::item(&mut surface, self.faces, item);
        }
        surface.finish();
        out.finish();
        Ok(())
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

/// A click on the block leads to the page on which the hose begins.
fn link(pages: &[Page], hose: usize, at: DVec2, height: f64) -> Option<LinkAnnotation> {
    let page = pages.iter().position(|page| page.hose == Some(hose))?;
    let place = XyzDestination::new(page, Point::from_xy(0.0, 0.0));
    let rect = Rect::from_xywh(points(at.x), points(at.y), points(WIDTH), points(height))?;
    Some(LinkAnnotation::new(rect, Target::Destination(Destination::Xyz(place))))
}
