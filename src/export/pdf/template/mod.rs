//! A full-size template over as many pages as it takes.

mod head;
mod joins;
mod names;
mod scale_bar;
mod wire;

use std::fmt;

use glam::DVec2;

use super::PdfError;
use super::block::Block;
use super::document::{Finished, document};
use super::face::Faces;
use super::paper::Paper;
use super::tiles::Tiles;
use crate::drawing::{Item, Rect};
use crate::export::template::Template;
use crate::report::captions;
use scale_bar::ScaleBar;

/// Paper left free around everything, mm.
const MARGIN: f64 = 12.0;
/// Kept below the drawing for words and the scale bar, mm.
const FOOT: f64 = 17.0;
/// Between the words above the drawing and the drawing, mm.
const APART: f64 = 2.5;
/// More pages than this are asked about first (our own figure): an evening with tape and scissors.
pub const ASK_ABOVE_PAGES: usize = 50;

/// More pages than this are not written (our own figure): nobody puts them together, and they take a
/// computer's memory.
pub const MOST_PAGES: usize = 200;

/// How many pages a template takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PageCount {
    /// So many.
    pub pages: usize,
    /// Or more: it is far beyond what is written, and was not counted out.
    pub is_least: bool,
}

impl fmt::Display for PageCount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let or_more = if self.is_least { " or more" } else { "" };
        write!(f, "the template takes {} pages{or_more}", self.pages)
    }
}

/// How many pages a template takes, counted before any is drawn.
///
/// # Errors
/// [`PdfError`] where the font cannot be read.
pub fn template_pages(template: &Template, paper: Paper) -> Result<PageCount, PdfError> {
    let faces = Faces::new()?;
    let (_, size) = page(&faces, template, paper);
    Ok(count(&faces, template, size))
}

/// By the size of the drawing on a page. What is drawn hangs together, so that there is something in
/// every row and column.
fn count(faces: &Faces, template: &Template, size: DVec2) -> PageCount {
    let [columns, rows] = Tiles::grid(&template.view.drawing, size);
    let least = columns.max(rows);
    if least > MOST_PAGES {
        return PageCount { pages: least, is_least: true };
    }
    let used = Tiles::of(&template.view.drawing, size).used().count();
    PageCount { pages: used + tables(faces, template, size).len(), is_least: false }
}

/// Height of what stands above the drawing, and the size of the drawing on a page: the same for all
/// pages of every view.
fn page(faces: &Faces, template: &Template, paper: Paper) -> (f64, DVec2) {
    let width = paper.size_mm().x - 2.0 * MARGIN;
    let head = head::height(faces, template, width) + APART;
    (head, paper.size_mm() - 2.0 * MARGIN - DVec2::new(0.0, head + FOOT))
}

/// The pages of the bend table, where there is one.
fn tables(faces: &Faces, template: &Template, size: DVec2) -> Vec<Block> {
    let room = DVec2::new(size.x, size.y + FOOT);
    template.wire.as_ref().map_or_else(Vec::new, |wire| wire::pages(faces, wire, room))
}

/// The template of one hose at true size.
///
/// # Errors
/// [`PdfError`]: of more pages than [`MOST_PAGES`], or where no PDF could be put together.
pub fn template(template: &Template, paper: Paper) -> Result<Vec<u8>, PdfError> {
    template_told(template, paper, &|_, _| true)
}

/// The same; `tell` hears how many pages of how many are drawn, and says whether to go on.
///
/// # Errors
/// As [`template`], and where it was stopped.
pub fn template_told(
    template: &Template,
    paper: Paper,
    tell: &dyn Fn(usize, usize) -> bool,
) -> Result<Vec<u8>, PdfError> {
    let faces = Faces::new()?;
    let (head, size) = page(&faces, template, paper);
    let counted = count(&faces, template, size);
    if counted.pages > MOST_PAGES {
        return Err(PdfError::TooManyPages(counted));
    }
    let count = counted.pages;
    let width = size.x;
    let tables = tables(&faces, template, size);
    let tiles = Tiles::of(&template.view.drawing, size);
    let first = tables.len();
    let mut pages = Vec::with_capacity(count);
    for table in tables {
        let place = format!("page {} of {count}", pages.len() + 1);
        let top = head::head(&faces, template, &place, width);
        let mut all = Block::default();
        all.put(top, DVec2::splat(MARGIN));
        all.put(table, DVec2::new(MARGIN, MARGIN + head));
        let bookmark = pages.is_empty().then(|| captions::BEND_TABLE.to_owned());
        pages.push(Finished { items: all.items, bookmark, links: Vec::new() });
    }
    for (row, column) in tiles.used() {
        if !tell(pages.len(), count) {
            return Err(PdfError::Stopped);
        }
        let place = Place { template, tiles: &tiles, row, column, first, count, head };
        pages.push(place.page(&faces, paper, pages.len()));
    }
    let title = format!("{}: full-size template of {}", template.title, template.name);
    document(&faces, paper, title, &pages)
}

/// One page of the drawing.
struct Place<'a> {
    template: &'a Template,
    tiles: &'a Tiles,
    row: usize,
    column: usize,
    /// How many pages come before the drawing.
    first: usize,
    count: usize,
    /// Height of what stands above the drawing, mm.
    head: f64,
}

impl Place<'_> {
    fn page(&self, faces: &Faces, paper: Paper, index: usize) -> Finished {
        let size = paper.size_mm();
        let width = size.x - 2.0 * MARGIN;
        let corner = DVec2::new(MARGIN, MARGIN + self.head);
        let mut all = Block::default();
        all.put(self.piece(), corner);
        all.put(self.registration(faces), corner);
        all.put(self.names(faces), corner);
        all.put(self.head(faces, width, index), DVec2::splat(MARGIN));
        let foot_at = DVec2::new(MARGIN, size.y - MARGIN - FOOT + 3.0);
        all.put(self.foot(faces, width), foot_at);
        let bar = ScaleBar::of(self.template.unit);
        let side_at = DVec2::new(MARGIN - 4.0, corner.y + (self.tiles.size.y - bar.mm()) / 2.0);
        all.items.push(bar.item(side_at, DVec2::Y, DVec2::X));
        let bookmark = (index == self.first).then(|| self.template.view.name.clone());
        Finished { items: all.items, bookmark, links: Vec::new() }
    }

    /// What this page shows of the drawing, at true size.
    fn piece(&self) -> Block {
        let shown = self.tiles.rect(self.row, self.column);
        let mut block = Block::default();
        let drawing = Block::drawing(&self.template.view.drawing);
        block.put(drawing, -shown.min);
        let within = Rect { min: DVec2::ZERO, max: self.tiles.size };
        let items = vec![Item::Clipped { within, items: block.items }];
        Block { items, height: self.tiles.size.y, link: None }
    }
}
