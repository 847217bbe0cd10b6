//! A piece of a page: shapes and words in a frame of its own, to be put somewhere.

use glam::DVec2;

use crate::drawing::{Dash, Drawing, Item, Shade, Stroke};

/// Shapes from its own corner at the left and top, mm, y down.
#[derive(Debug, Clone, Default)]
pub(super) struct Block {
    pub(super) height: f64,
    pub(super) items: Vec<Item>,
    /// The hose whose page a click on the block leads to.
    pub(super) link: Option<usize>,
}

impl Block {
    /// Nothing, `height` high.
    pub(super) fn space(height: f64) -> Self {
        Self { height, ..Self::default() }
    }

    pub(super) fn drawing(drawing: &Drawing) -> Self {
        Self { height: drawing.height_mm, items: drawing.items.clone(), link: None }
    }

    /// Puts another into this one, with its corner at `at`; this one grows to hold it.
    pub(super) fn put(&mut self, mut other: Self, at: DVec2) {
        self.height = self.height.max(at.y + other.height);
        for item in &mut other.items {
            item.shift(at);
        }
        self.items.append(&mut other.items);
    }

    /// Puts another below what is there.
    pub(super) fn below(mut self, other: Self) -> Self {
        let at = DVec2::new(0.0, self.height);
        self.put(other, at);
        self
    }

    /// Two side by side, the second one `x` from the left.
    pub(super) fn beside(mut self, x: f64, other: Self) -> Self {
        self.put(other, DVec2::new(x, 0.0));
        self
    }

    pub(super) fn stacked(blocks: impl IntoIterator<Item = Self>) -> Self {
        blocks.into_iter().fold(Self::default(), Self::below)
    }

    /// In a frame of `width`, with `pad` around.
    pub(super) fn framed(self, width: f64, pad: DVec2, stroke_mm: f64) -> Self {
        let size = DVec2::new(width, self.height + 2.0 * pad.y);
        let stroke = Stroke { shade: Shade::Ink, width_mm: stroke_mm, dash: Dash::Obstacle };
        let mut frame = Self::space(size.y);
        frame.items.push(rect(DVec2::ZERO, size, None, Some(stroke)));
        frame.put(self, pad);
        frame
    }

    /// What has its place within `room` from the top, and the rest; words part between lines.
    pub(super) fn split(self, room: f64) -> (Self, Self) {
        let (mut first, mut rest) = (Self::space(room), Self::default());
        let height = self.height;
        for item in self.items {
            if item.bounds().max.y <= room { first.items.push(item) } else { rest.items.push(item) }
        }
        let top = rest.items.iter().map(|item| item.bounds().min.y).fold(room, f64::min);
        for item in &mut rest.items {
            item.shift(DVec2::new(0.0, -top));
        }
        rest.height = height - top;
        (first, rest)
    }
}

/// An upright rectangle.
pub(super) fn rect(at: DVec2, size: DVec2, fill: Option<Shade>, stroke: Option<Stroke>) -> Item {
    let (w, h) = (DVec2::new(size.x, 0.0), DVec2::new(0.0, size.y));
    let corners = vec![at, at + w, at + size, at + h];
    Item::Path { lines: vec![corners], is_closed: true, fill, stroke }
}

/// A line across.
pub(super) fn rule(from: DVec2, width: f64, shade: Shade, width_mm: f64) -> Item {
    Item::Path {
        lines: vec![vec![from, from + DVec2::new(width, 0.0)]],
        is_closed: false,
        fill: None,
        stroke: Some(Stroke { shade, width_mm, dash: Dash::Obstacle }),
    }
}

/// As much as two columns of at most this height hold, balanced where that is all; and the rest.
pub(super) fn halves(blocks: Vec<Block>, room: f64) -> ((Block, Block), Vec<Block>) {
    let half = blocks.iter().map(|block| block.height).sum::<f64>() / 2.0;
    let [mut left, mut right] = [Block::default(), Block::default()];
    let mut blocks = blocks.into_iter();
    while let Some(block) = blocks.next() {
        let fits = |column: &Block| column.height + block.height <= room;
        let is_left = right.height == 0.0 && left.height + 0.5 * block.height <= half.min(room);
        if is_left && (fits(&left) || left.height == 0.0) {
            left = left.below(block);
        } else if fits(&right) {
            right = right.below(block);
        } else {
            return ((left, right), std::iter::once(block).chain(blocks).collect());
        }
    }
    ((left, right), Vec::new())
}
