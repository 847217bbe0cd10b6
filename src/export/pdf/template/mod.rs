//! A full-size template over as many pages as it takes.

mod head;
mod joins;
mod names;
mod wire;

use glam::DVec2;

use super::PdfError;
use super::block::Block;
use super::document::{Finished, document};
use super::face::Faces;
use super::paper::Paper;
use super::tiles::Tiles;
use crate::export::captions;
use crate::export::drawing::{Dash, Item, Rect, Shade, Stroke};
use crate::export::template::Template;

/// Paper left free around everything, mm.
const MARGIN: f64 = 12.0;
/// Kept below the drawing for words and the scale bar, mm.
const FOOT: f64 = 17.0;
/// Between the words above the drawing and the drawing, mm.
const APART: f64 = 2.5;
/// Length of the scale bars, mm.
const BAR: f64 = 100.0;

/// The template of one hose at true size.
pub fn template(template: &Template, paper: Paper) -> Result<Vec<u8>, PdfError> {
    let faces = Faces::new()?;
    let width = paper.size_mm().x - 2.0 * MARGIN;
    // One height for all, so that all pages are the same size.
    let head = head::height(&faces, template, width) + APART;
    let size = paper.size_mm() - 2.0 * MARGIN - DVec2::new(0.0, head + FOOT);
    let room = DVec2::new(width, size.y + FOOT);
    let tables = template.wire.as_ref().map(|wire| wire::pages(&faces, wire, room));
    let tables = tables.unwrap_or_default();
    let tiles = Tiles::of(&template.view.drawing, size);
    let (first, count) = (tables.len(), tables.len() + tiles.used().count());
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
        let side_at = DVec2::new(MARGIN - 4.0, corner.y + (self.tiles.size.y - BAR) / 2.0);
        all.items.push(ruler(side_at, DVec2::Y, DVec2::X));
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

/// A bar of 100 mm along a direction, a tick every 10 mm on one side.
fn ruler(from: DVec2, along: DVec2, tick: DVec2) -> Item {
    let mut lines = vec![vec![from, from + along * BAR]];
    for k in 0..=10 {
        let at = from + along * (f64::from(k) * BAR / 10.0);
        let long = if k % 10 == 0 {
            3.0
        } else if k == 5 {
            2.2
        } else {
            1.4
        };
        lines.push(vec![at, at + tick * long]);
    }
    let stroke = Stroke { shade: Shade::Ink, width_mm: 0.2, dash: Dash::Obstacle };
    Item::Path { lines, is_closed: false, fill: None, stroke: Some(stroke) }
}
