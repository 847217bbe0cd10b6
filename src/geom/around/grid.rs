//! Boxes by where they are, to be found again quickly.

use glam::DVec2;

/// Squares along the longer side, at most.
const MOST: f64 = 256.0;

pub(super) struct Grid {
    low: DVec2,
    square: f64,
    columns: usize,
    rows: usize,
    /// Row by row: places of the boxes that come into a square.
    squares: Vec<Vec<u32>>,
    boxes: Vec<[DVec2; 2]>,
}

impl Grid {
    pub(super) fn of(boxes: impl Iterator<Item = [DVec2; 2]>) -> Self {
        let boxes: Vec<[DVec2; 2]> = boxes.collect();
        let low = boxes.iter().map(|b| b[0]).fold(DVec2::INFINITY, DVec2::min);
        let high = boxes.iter().map(|b| b[1]).fold(DVec2::NEG_INFINITY, DVec2::max);
        let size = (high - low).max(DVec2::splat(f64::MIN_POSITIVE));
        // About a box a square.
        let along = (boxes.len() as f64).sqrt().ceil().clamp(1.0, MOST);
        let square = size.max_element() / along;
        let [columns, rows] =
            [size.x, size.y].map(|mm| ((mm / square).ceil().clamp(1.0, MOST)) as usize);
        let squares = vec![Vec::new(); columns * rows];
        let mut grid = Self { low, square, columns, rows, squares, boxes };
        for place in 0..grid.boxes.len() {
            let [low, high] = grid.boxes[place];
            for square in grid.squares_of(low, high) {
                grid.squares[square].push(place as u32);
            }
        }
        grid
    }

    /// The squares that a box comes into; those at the rim for what is outside.
    fn squares_of(&self, low: DVec2, high: DVec2) -> impl Iterator<Item = usize> + use<> {
        let columns = self.columns;
        let along = |mm: f64, least: f64, count: usize| {
            ((mm - least) / self.square).floor().clamp(0.0, count as f64 - 1.0) as usize
        };
        let (left, right) =
            (along(low.x, self.low.x, self.columns), along(high.x, self.low.x, self.columns));
        let (top, bottom) =
            (along(low.y, self.low.y, self.rows), along(high.y, self.low.y, self.rows));
        (top..=bottom).flat_map(move |row| (left..=right).map(move |column| row * columns + column))
    }

    /// The places of the boxes that meet one, in order.
    pub(super) fn within(&self, low: DVec2, high: DVec2) -> Vec<usize> {
        let mut found: Vec<usize> = self
            .squares_of(low, high)
            .filter_map(|square| self.squares.get(square))
            .flatten()
            .map(|place| *place as usize)
            .filter(|place| {
                let [least, greatest] = self.boxes[*place];
                least.cmple(high).all() && low.cmple(greatest).all()
            })
            .collect();
        found.sort_unstable();
        found.dedup();
        found
    }
}
