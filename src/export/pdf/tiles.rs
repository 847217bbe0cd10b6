//! A large drawing in pieces, each on its page, that installed shape over one another when put together.

use glam::DVec2;

use crate::drawing::{Drawing, Item, Rect};

/// How far two neighbours show the same, mm.
pub(super) const OVERLAP: f64 = 15.0;

/// The pieces of one drawing: rows and columns of equal size, centred on it.
pub(super) struct Tiles {
    pub(super) columns: usize,
    pub(super) rows: usize,
    /// Size of one.
    pub(super) size: DVec2,
    /// The left and top of the first, in the drawing's millimetres.
    corner: DVec2,
    /// Row by row: whether there is anything on it.
    is_used: Vec<bool>,
}

impl Tiles {
    /// How many columns and rows a drawing takes.
    pub(super) fn grid(drawing: &Drawing, size: DVec2) -> [usize; 2] {
        let extent = DVec2::new(drawing.width_mm, drawing.height_mm);
        let step = size - OVERLAP;
        // A hair too much is no reason for another page.
        [0, 1].map(|axis| ((extent[axis] - OVERLAP - 1e-6) / step[axis]).ceil().max(1.0) as usize)
    }

    pub(super) fn of(drawing: &Drawing, size: DVec2) -> Self {
        let extent = DVec2::new(drawing.width_mm, drawing.height_mm);
        let step = size - OVERLAP;
        let [columns, rows] = Self::grid(drawing, size);
        let whole = step * DVec2::new(columns as f64, rows as f64) + OVERLAP;
        let corner = (extent - whole) / 2.0;
        let mut tiles = Self { columns, rows, size, corner, is_used: Vec::new() };
        let seen: Vec<Rect> = drawing.items.iter().map(Item::bounds).collect();
        tiles.is_used = (0..rows * columns)
            .map(|i| {
                let tile = tiles.inner(i / columns, i % columns);
                drawing.items.iter().zip(&seen).any(|(item, b)| touches(item, *b, tile))
            })
            .collect();
        tiles
    }

    /// Those with something on them: row and column, from the top left.
    pub(super) fn used(&self) -> impl Iterator<Item = (usize, usize)> + '_ {
        (0..self.rows * self.columns)
            .filter(|i| self.is_used[*i])
            .map(|i| (i / self.columns, i % self.columns))
    }

    pub(super) fn is_used(&self, row: usize, column: usize) -> bool {
        column < self.columns && self.is_used.get(row * self.columns + column) == Some(&true)
    }

    /// What a tile shows, in the drawing's millimetres.
    pub(super) fn rect(&self, row: usize, column: usize) -> Rect {
        let step = self.size - OVERLAP;
        let min = self.corner + step * DVec2::new(column as f64, row as f64);
        Rect { min, max: min + self.size }
    }

    /// A tile without half of what it shares, so that what lies only on a seam is on one page.
    pub(super) fn inner(&self, row: usize, column: usize) -> Rect {
        let rect = self.rect(row, column);
        Rect { min: rect.min + OVERLAP / 2.0, max: rect.max - OVERLAP / 2.0 }
    }
}

fn touches(item: &Item, bounds: Rect, tile: Rect) -> bool {
    if bounds.min.cmpgt(tile.max).any() || tile.min.cmpgt(bounds.max).any() {
        return false;
    }
    // A long line's box covers tiles that the line itself never comes to.
    let Item::Path { lines, stroke, .. } = item else { return true };
    let half = stroke.map_or(0.0, |stroke| stroke.width_mm / 2.0);
    let tile = Rect { min: tile.min - half, max: tile.max + half };
    lines.iter().any(|line| line.windows(2).any(|pair| crosses(pair[0], pair[1], tile)))
}

/// Whether a straight line comes into an upright rectangle (Liang and Barsky, 1984).
fn crosses(a: DVec2, b: DVec2, within: Rect) -> bool {
    let way = b - a;
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for axis in 0..2 {
        if way[axis] == 0.0 {
            if a[axis] < within.min[axis] || a[axis] > within.max[axis] {
                return false;
            }
            continue;
        }
        let (near, far) =
            ((within.min[axis] - a[axis]) / way[axis], (within.max[axis] - a[axis]) / way[axis]);
        from = from.max(near.min(far));
        to = to.min(near.max(far));
    }
    from <= to
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Dash, Shade, Stroke};

    fn drawing(width_mm: f64, height_mm: f64, points: Vec<DVec2>) -> Drawing {
        let stroke = Stroke { shade: Shade::Ink, width_mm: 1.0, dash: Dash::Obstacle };
        let items = vec![Item::line(points, stroke)];
        Drawing { title: String::new(), width_mm, height_mm, items }
    }

    #[test]
    fn neighbours_share_the_overlap_and_cover_the_whole() {
        let size = DVec2::new(186.0, 230.0);
        let whole = drawing(500.0, 700.0, vec![DVec2::ZERO, DVec2::new(500.0, 700.0)]);
        let tiles = Tiles::of(&whole, size);
        assert_eq!((tiles.columns, tiles.rows), (3, 4));
        assert!(tiles.rect(0, 0).min.cmple(DVec2::ZERO).all());
        assert!(tiles.rect(3, 2).max.cmpge(DVec2::new(500.0, 700.0)).all());
        let (left, right) = (tiles.rect(1, 0), tiles.rect(1, 1));
        assert!((left.max.x - right.min.x - OVERLAP).abs() < 1e-9);
        assert!(tiles.is_used(0, 0) && tiles.is_used(3, 2));
        assert!(!tiles.is_used(0, 2) && !tiles.is_used(3, 0), "the line never comes there");
    }

    #[test]
    fn what_fits_is_on_one_page() {
        let size = DVec2::new(186.0, 230.0);
        let tiles = Tiles::of(&drawing(186.0, 230.0, vec![DVec2::ZERO, size]), size);
        assert_eq!((tiles.columns, tiles.rows), (1, 1));
        assert_eq!(tiles.used().collect::<Vec<_>>(), [(0, 0)]);
    }
}
