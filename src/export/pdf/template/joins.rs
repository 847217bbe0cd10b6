//! How the pages of a template join: marks at the same places, seams, and a map.

use glam::DVec2;

use super::Place;
use crate::drawing::{Anchor, Dash, Item, Shade, Stroke};
use crate::export::pdf::block::{Block, rect};
use crate::export::pdf::face::Faces;
use crate::export::pdf::text::{Span, Style, aligned};
use crate::export::pdf::tiles::OVERLAP;

impl Place<'_> {
    /// Marks at the same places of the drawing on neighbouring pages, and which page joins where.
    pub(super) fn registration(&self, faces: &Faces) -> Block {
        let size = self.tiles.size;
        let mut block = Block::default();
        let thin = Stroke { shade: Shade::Soft, width_mm: 0.1, dash: Dash::Obstacle };
        block.items.push(rect(DVec2::ZERO, size, None, Some(thin)));
        block.items.extend(self.crosses().into_iter().flat_map(mark));
        for (side, beside) in self.neighbours() {
            let seam = Stroke { shade: Shade::Soft, width_mm: 0.15, dash: Dash::Dashed };
            let [from, to] = self.seam(side);
            let (words_at, anchor) = match side {
                Beside::Left => (DVec2::new(1.5, size.y * 0.25), Anchor::Start),
                Beside::Right => (DVec2::new(size.x - 1.5, size.y * 0.25), Anchor::End),
                Beside::Above => (DVec2::new(size.x * 0.25, 4.5), Anchor::Middle),
                Beside::Below => (DVec2::new(size.x * 0.25, size.y - 2.5), Anchor::Middle),
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

    /// Where a neighbour begins.
    fn seam(&self, side: Beside) -> [DVec2; 2] {
        let size = self.tiles.size;
        let upright = |x: f64| [DVec2::new(x, 0.0), DVec2::new(x, size.y)];
        let level = |y: f64| [DVec2::new(0.0, y), DVec2::new(size.x, y)];
        match side {
            Beside::Left => upright(OVERLAP),
            Beside::Right => upright(size.x - OVERLAP),
            Beside::Above => level(OVERLAP),
            Beside::Below => level(size.y - OVERLAP),
        }
    }

    /// Where its neighbours begin.
    pub(super) fn seams(&self) -> impl Iterator<Item = [DVec2; 2]> + '_ {
        self.neighbours().into_iter().map(|(side, _)| self.seam(side))
    }

    /// Where the marks are.
    pub(super) fn crosses(&self) -> Vec<DVec2> {
        let (size, half) = (self.tiles.size, OVERLAP / 2.0);
        let mut crosses = Vec::new();
        for x in [half, size.x / 2.0, size.x - half] {
            for y in [half, size.y / 2.0, size.y - half] {
                if x != size.x / 2.0 || y != size.y / 2.0 {
                    crosses.push(DVec2::new(x, y));
                }
            }
        }
        crosses
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

    /// Which page lies where; this one in black.
    pub(super) fn map(&self, faces: &Faces, room: DVec2) -> Block {
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
                let dash = if page.is_some() { Dash::Obstacle } else { Dash::Dotted };
                let stroke = Stroke { shade: Shade::Ink, width_mm: 0.2, dash };
                let fill = is_this.then_some(Shade::Ink);
                map.items.push(rect(at, size, fill, Some(stroke)));
                let letters = 0.45 * size.x.min(size.y);
                if let Some(page) = page.filter(|_| letters > 0.8) {
                    let ink = if is_this { Shade::Paper } else { Shade::Ink };
                    let style =
                        Style { size_mm: letters, is_bold: is_this, shade: ink, ground: None };
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
    let stroke = Stroke { shade: Shade::Ink, width_mm: 0.15, dash: Dash::Obstacle };
    let (x, y) = (DVec2::new(REACH, 0.0), DVec2::new(0.0, REACH));
    let lines = vec![vec![at - x, at + x], vec![at - y, at + y]];
    [
        Item::Path { lines, is_closed: false, fill: None, stroke: Some(stroke) },
        Item::Circle { at, radius_mm: REACH / 2.0, fill: None, stroke: Some(stroke) },
    ]
}
