//! A full-size template over as many pages as it takes.

use glam::DVec2;

use super::PdfError;
use super::block::{Block, rect, rule};
use super::document::{Finished, document};
use super::face::Faces;
use super::paper::Paper;
use super::text::{Span, Style, aligned, elided, paragraph};
use super::tiles::{OVERLAP, Tiles};
use crate::export::captions;
use crate::export::drawing::{Anchor, Dash, Item, Rect, Shade, Stroke};
use crate::export::template::{Template, TemplateView};

/// Paper left free around everything, mm.
const MARGIN: f64 = 12.0;
/// Kept above and below the drawing for words and the scale bar, mm.
const HEAD: f64 = 22.0;
const FOOT: f64 = 17.0;
/// Length of the scale bars, mm.
const BAR: f64 = 100.0;

/// The template of one hose at true size.
pub fn template(template: &Template, paper: Paper) -> Result<Vec<u8>, PdfError> {
    let faces = Faces::new()?;
    let size = paper.size_mm() - 2.0 * MARGIN - DVec2::new(0.0, HEAD + FOOT);
    let views: Vec<(&TemplateView, Tiles)> =
        template.views.iter().map(|view| (view, Tiles::of(&view.drawing, size))).collect();
    let count = views.iter().map(|(_, tiles)| tiles.used().count()).sum();
    let mut pages = Vec::with_capacity(count);
    for (view, tiles) in &views {
        let first = pages.len();
        for (row, column) in tiles.used() {
            let place = Place { template, view, tiles, row, column, first, count };
            pages.push(place.page(&faces, paper, pages.len()));
        }
    }
    let title = format!("{}: full-size template of {}", template.title, template.name);
    document(&faces, paper, title, &pages)
}

/// One page of one view.
struct Place<'a> {
    template: &'a Template,
    view: &'a TemplateView,
    tiles: &'a Tiles,
    row: usize,
    column: usize,
    /// How many pages come before this view.
    first: usize,
    count: usize,
}

impl Place<'_> {
    fn page(&self, faces: &Faces, paper: Paper, index: usize) -> Finished {
        let size = paper.size_mm();
        let width = size.x - 2.0 * MARGIN;
        let corner = DVec2::new(MARGIN, MARGIN + HEAD);
        let mut all = Block::default();
        all.put(self.piece(), corner);
        all.put(self.registration(faces), corner);
        all.put(self.head(faces, width, index), DVec2::splat(MARGIN));
        let foot_at = DVec2::new(MARGIN, size.y - MARGIN - FOOT + 3.0);
        all.put(self.foot(faces, width), foot_at);
        let side_at = DVec2::new(MARGIN - 4.0, corner.y + (self.tiles.size.y - BAR) / 2.0);
        all.items.push(ruler(side_at, DVec2::Y, DVec2::X));
        let bookmark = (index == self.first).then(|| self.view.name.clone());
        Finished { items: all.items, bookmark, links: Vec::new() }
    }

    /// What this page shows of the drawing, at true size.
    fn piece(&self) -> Block {
        let shown = self.tiles.rect(self.row, self.column);
        let mut block = Block::default();
        let drawing = Block::drawing(&self.view.drawing);
        block.put(drawing, -shown.min);
        let within = Rect { min: DVec2::ZERO, max: self.tiles.size };
        let items = vec![Item::Clipped { within, items: block.items }];
        Block { items, height: self.tiles.size.y, link: None }
    }

    /// Marks at the same places of the drawing on neighbouring pages, and which page joins where.
    fn registration(&self, faces: &Faces) -> Block {
        let size = self.tiles.size;
        let mut block = Block::default();
        let thin = Stroke { shade: Shade::Soft, width_mm: 0.1, dash: Dash::Solid };
        block.items.push(rect(DVec2::ZERO, size, None, Some(thin)));
        let half = OVERLAP / 2.0;
        for x in [half, size.x / 2.0, size.x - half] {
            for y in [half, size.y / 2.0, size.y - half] {
                if x != size.x / 2.0 || y != size.y / 2.0 {
                    block.items.extend(mark(DVec2::new(x, y)));
                }
            }
        }
        for (side, beside) in self.neighbours() {
            let seam = Stroke { shade: Shade::Soft, width_mm: 0.15, dash: Dash::Dashed };
            let (from, to, words_at, anchor) = match side {
                Beside::Left => (
                    DVec2::new(OVERLAP, 0.0),
                    DVec2::new(OVERLAP, size.y),
                    DVec2::new(1.5, size.y * 0.25),
                    Anchor::Start,
                ),
                Beside::Right => (
                    DVec2::new(size.x - OVERLAP, 0.0),
                    DVec2::new(size.x - OVERLAP, size.y),
                    DVec2::new(size.x - 1.5, size.y * 0.25),
                    Anchor::End,
                ),
                Beside::Above => (
                    DVec2::new(0.0, OVERLAP),
                    DVec2::new(size.x, OVERLAP),
                    DVec2::new(size.x * 0.25, 4.5),
                    Anchor::Middle,
                ),
                Beside::Below => (
                    DVec2::new(0.0, size.y - OVERLAP),
                    DVec2::new(size.x, size.y - OVERLAP),
                    DVec2::new(size.x * 0.25, size.y - 2.5),
                    Anchor::Middle,
                ),
            };
            block.items.push(Item::line(vec![from, to], seam));
            let text = format!("page {beside}");
            let wide = faces.of(false).width_mm(&text, 2.6);
            let left = match anchor {
                Anchor::Start => words_at.x,
                Anchor::Middle => words_at.x - wide / 2.0,
                Anchor::End => words_at.x - wide,
            };
            let backing = DVec2::new(left - 0.6, words_at.y - 2.6);
            let under = rect(backing, DVec2::new(wide + 1.2, 3.6), Some(Shade::Paper), None);
            block.items.push(under);
            let words = Item::text(words_at, text, 2.6, anchor);
            block.items.push(words);
        }
        block
    }

    /// The pages that join this one.
    fn neighbours(&self) -> Vec<(Beside, usize)> {
        let (row, column) = (self.row, self.column);
        let mut found = Vec::new();
        let mut look = |side, row: Option<usize>, column: Option<usize>| {
            if let (Some(row), Some(column)) = (row, column)
                && let Some(page) = self.page_at(row, column)
            {
                found.push((side, page));
            }
        };
        look(Beside::Left, Some(row), column.checked_sub(1));
        look(Beside::Right, Some(row), Some(column + 1));
        look(Beside::Above, row.checked_sub(1), Some(column));
        look(Beside::Below, Some(row + 1), Some(column));
        found
    }

    /// The number of the page with this tile; none where nothing is on it.
    fn page_at(&self, row: usize, column: usize) -> Option<usize> {
        if !self.tiles.is_used(row, column) {
            return None;
        }
        let place = self.tiles.used().position(|at| at == (row, column))?;
        Some(self.first + place + 1)
    }

    fn head(&self, faces: &Faces, width: f64, index: usize) -> Block {
        const RIGHT: f64 = 62.0;
        let left = width - RIGHT;
        let strong = Style::STRONG.sized(10.0);
        let name = elided(faces, &self.template.name, strong, left - 2.0);
        let mut what =
            vec![self.template.title.clone(), format!("option {}", self.template.option)];
        let info = &self.template.info;
        what.extend([&info.date, &info.file_name].into_iter().flatten().cloned());
        let what = what.join(" · ");
        let what = elided(faces, &what, Style::SOFT, left - 2.0);
        let place = format!(
            "page {} of {}, row {}, column {}",
            index + 1,
            self.count,
            self.row + 1,
            self.column + 1
        );
        let view = elided(faces, &self.view.name, Style::STRONG, width / 2.0);
        let end = |words: &str, style| aligned(faces, &[Span(words, style)], RIGHT, Anchor::End);
        let mut head = aligned(faces, &[Span(&name, strong)], left, Anchor::Start)
            .below(aligned(faces, &[Span(&what, Style::SOFT)], left, Anchor::Start))
            .beside(left, end(captions::TEMPLATE, strong).below(end(&place, Style::BODY)));
        head.items.push(rule(DVec2::new(0.0, head.height + 0.6), width, Shade::Ink, 0.4));
        head.height += 1.2;
        let notes = format!(" {} {}", self.view.note, self.template.note);
        let spans = [Span(&view, Style::STRONG.sized(7.6)), Span(&notes, Style::SOFT.sized(6.8))];
        head.below(paragraph(faces, &spans, width))
    }

    fn foot(&self, faces: &Faces, width: f64) -> Block {
        let mut foot = Block::space(FOOT - 3.0);
        foot.items.push(ruler(DVec2::new(0.0, 4.0), DVec2::X, DVec2::NEG_Y));
        let end = DVec2::new(BAR + 1.5, 3.6);
        foot.items.push(Item::text(end, captions::TEMPLATE_BAR, 2.8, Anchor::Start));
        let spans = [
            Span(captions::TEMPLATE_PRINT, Style::STRONG),
            Span(captions::TEMPLATE_JOIN, Style::SOFT),
        ];
        foot.put(paragraph(faces, &spans, 128.0), DVec2::new(0.0, 5.2));
        let room = DVec2::new(width - 132.0, FOOT - 3.0);
        foot.put(self.map(faces, room), DVec2::new(132.0, 0.0));
        foot
    }

    /// Which page lies where; this one in black.
    fn map(&self, faces: &Faces, room: DVec2) -> Block {
        let (columns, rows) = (self.tiles.columns as f64, self.tiles.rows as f64);
        let cell = (room.x / columns).min(8.0).min(room.y / rows);
        let size = DVec2::new(cell, cell.min(room.y / rows));
        let corner = DVec2::new(room.x - size.x * columns, 0.0);
        let mut map = Block::space(room.y);
        for row in 0..self.tiles.rows {
            for column in 0..self.tiles.columns {
                let at = corner + size * DVec2::new(column as f64, row as f64);
                let page = self.page_at(row, column);
                let is_this = (row, column) == (self.row, self.column);
                let dash = if page.is_some() { Dash::Solid } else { Dash::Dotted };
                let stroke = Stroke { shade: Shade::Ink, width_mm: 0.2, dash };
                let fill = is_this.then_some(Shade::Ink);
                map.items.push(rect(at, size, fill, Some(stroke)));
                let letters = 0.45 * size.x.min(size.y);
                if let Some(page) = page.filter(|_| letters > 0.8) {
                    let ink = if is_this { Shade::Paper } else { Shade::Ink };
                    let style = Style { size_mm: letters, is_bold: is_this, shade: ink };
                    let number = page.to_string();
                    let words = aligned(faces, &[Span(&number, style)], size.x, Anchor::Middle);
                    let down = (size.y - words.height) / 2.0;
                    map.put(words, at + DVec2::new(0.0, down));
                }
            }
        }
        map.height = room.y;
        map
    }
}

#[derive(Debug, Clone, Copy)]
enum Beside {
    Left,
    Right,
    Above,
    Below,
}

/// A cross in a circle.
fn mark(at: DVec2) -> [Item; 2] {
    const REACH: f64 = 3.0;
    let stroke = Stroke { shade: Shade::Ink, width_mm: 0.15, dash: Dash::Solid };
    let (x, y) = (DVec2::new(REACH, 0.0), DVec2::new(0.0, REACH));
    let lines = vec![vec![at - x, at + x], vec![at - y, at + y]];
    [
        Item::Path { lines, is_closed: false, fill: None, stroke: Some(stroke) },
        Item::Circle { at, radius_mm: REACH / 2.0, fill: None, stroke: Some(stroke) },
    ]
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
    let stroke = Stroke { shade: Shade::Ink, width_mm: 0.2, dash: Dash::Solid };
    Item::Path { lines, is_closed: false, fill: None, stroke: Some(stroke) }
}
