//! Blocks onto pages, one below the other; a new page where the next one does not fit.

use glam::DVec2;

use super::block::{Block, halves};
use super::paper::Paper;

/// Width of the text, mm: that of A4 within margins that Letter has too.
pub(super) const WIDTH: f64 = 186.0;
/// Paper left free at the top and bottom, mm.
const MARGIN: f64 = 9.0;
/// Kept for the running head and foot, mm.
const HEAD: f64 = 7.5;
const FOOT: f64 = 5.5;

/// A page as far as it is known before all are counted.
pub(super) struct Page {
    /// What the page is about.
    pub(super) about: String,
    /// Where the text begins on it, and what is there.
    pub(super) placed: Vec<(DVec2, Block)>,
    /// An entry of the list of contents.
    pub(super) bookmark: Option<String>,
    /// The hose that begins here.
    pub(super) hose: Option<usize>,
}

/// The pages so far.
pub(super) struct Flow {
    pub(super) pages: Vec<Page>,
    paper: Paper,
    y: f64,
}

impl Flow {
    pub(super) fn new(paper: Paper) -> Self {
        Self { pages: Vec::new(), paper, y: 0.0 }
    }

    /// The left and top of the text.
    pub(super) fn corner(paper: Paper) -> DVec2 {
        DVec2::new((paper.size_mm().x - WIDTH) / 2.0, MARGIN)
    }

    /// How high the part between head and foot is.
    pub(super) fn height(&self) -> f64 {
        self.paper.size_mm().y - 2.0 * MARGIN - HEAD - FOOT
    }

    /// Begins a page about something.
    pub(super) fn page(&mut self, about: String) -> &mut Page {
        self.y = 0.0;
        self.pages.push(Page { about, placed: Vec::new(), bookmark: None, hose: None });
        let last = self.pages.len() - 1;
        &mut self.pages[last]
    }

    /// The same page goes on.
    fn next_page(&mut self) {
        let about = self.pages.last().map(|page| page.about.clone()).unwrap_or_default();
        self.page(about);
    }

    /// Room left on this page.
    fn room(&self) -> f64 {
        self.height() - self.y
    }

    /// Whether the page has room for a block.
    fn fits(&self, block: &Block) -> bool {
        block.height <= self.room()
    }

    /// Leaves room, unless at the top of a page.
    pub(super) fn gap(&mut self, mm: f64) {
        if self.y > 0.0 {
            self.y += mm;
        }
    }

    /// Puts a block below what is there, on the next page where it does not fit, on several where
    /// none could hold it.
    pub(super) fn put(&mut self, mut block: Block) {
        if !self.fits(&block) && self.y > 0.0 {
            self.next_page();
        }
        while block.height > self.height() {
            let before = block.height;
            let (first, rest) = block.split(self.height());
            self.place(first);
            self.next_page();
            block = rest;
            if block.height >= before {
                break;
            }
        }
        self.place(block);
    }

    /// Begins the next page.
    pub(super) fn turn(&mut self) {
        if self.y > 0.0 {
            self.next_page();
        }
    }

    /// How much of their gaps blocks keep, each its gap and its height, so that all have room on this page;
    /// none where they have none even then.
    pub(super) fn closer(&self, blocks: &[(f64, f64)]) -> Option<f64> {
        const LEAST: f64 = 0.25;
        let first = usize::from(self.y <= 0.0);
        let gaps: f64 = blocks.iter().skip(first).map(|(gap, _)| gap).sum();
        let heights: f64 = blocks.iter().map(|(_, height)| height).sum();
        // A hair less, for what rounding adds.
        let room = self.room() - heights - 0.01;
        if room < LEAST * gaps { None } else { Some((room / gaps.max(1e-9)).min(1.0)) }
    }

    /// Puts rows below a heading; where they have to part, at least two stay together.
    pub(super) fn list_together(&mut self, heading: &Block, rows: Vec<Block>) {
        // No heading without rows, and no page turned for one.
        if rows.is_empty() {
            return;
        }
        if rows.len() == 1 && heading.height == 0.0 {
            for row in rows {
                self.put(row);
            }
            return;
        }
        let whole = heading.height + rows.iter().map(|row| row.height).sum::<f64>();
        if whole > self.room() {
            let mut room = self.room() - heading.height;
            let here = rows.iter().take_while(|row| {
                room -= row.height;
                room >= 0.0
            });
            let here = here.count();
            // One row would be left for the next page, or one stand here.
            if here < 2 || here + 1 == rows.len() {
                if here < 3 {
                    self.turn();
                } else {
                    let (first, rest) = rows.split_at(here - 1);
                    self.list(heading, first.iter().cloned());
                    self.turn();
                    self.list(heading, rest.iter().cloned());
                    return;
                }
            }
        }
        self.list(heading, rows);
    }

    /// Puts rows below a heading into two columns, the second one `x` from the left, over as many pages as they take.
    pub(super) fn in_two(&mut self, heading: Block, mut rows: Vec<Block>, x: f64) {
        const LEAST: f64 = 20.0;
        if self.room() < LEAST + heading.height {
            self.next_page();
        }
        self.put(heading);
        loop {
            let count = rows.len();
            let ((left, right), rest) = halves(rows, self.room());
            self.put(left.beside(x, right));
            if rest.is_empty() || rest.len() == count {
                for row in rest {
                    self.put(row);
                }
                return;
            }
            rows = rest;
            self.next_page();
        }
    }

    /// Puts rows below a heading that is put again on every page that they run on to.
    pub(super) fn list(&mut self, heading: &Block, rows: impl IntoIterator<Item = Block>) {
        let mut is_first = true;
        for row in rows {
            let needed = if is_first { heading.height + row.height } else { row.height };
            let breaks = needed > self.room() && self.y > 0.0;
            if breaks {
                self.next_page();
            }
            if is_first || breaks {
                self.place(heading.clone());
                is_first = false;
            }
            self.put(row);
        }
    }

    fn place(&mut self, block: Block) {
        let at = Self::corner(self.paper) + DVec2::new(0.0, HEAD + self.y);
        self.y += block.height;
        if let Some(page) = self.pages.last_mut() {
            page.placed.push((at, block));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// How many rows of this height come onto each page below `above` mm.
    fn parted(above: f64, count: usize, row: f64) -> Vec<usize> {
        let mut flow = Flow::new(Paper::A4);
        flow.page("about".to_owned());
        flow.put(Block::space(above));
        flow.list_together(&Block::space(6.0), vec![Block::space(row); count]);
        // The heading is one of them on each page that has rows.
        let rows = |page: &Page| page.placed.iter().filter(|(_, b)| b.height == row).count();
        flow.pages.iter().map(rows).collect()
    }

    #[test]
    fn no_row_of_a_list_stands_alone_on_a_page() {
        let room = Flow::new(Paper::A4).height();
        assert_eq!(parted(100.0, 4, 10.0), [4]);
        assert_eq!(parted(room - 37.0, 4, 10.0), [2, 2], "three would have had room");
        assert_eq!(parted(room - 27.0, 5, 10.0), [2, 3]);
        assert_eq!(parted(room - 17.0, 5, 10.0), [0, 5], "one alone here");
        assert_eq!(parted(room - 27.0, 3, 10.0), [0, 3], "one alone there");
        assert_eq!(parted(room - 1.0, 0, 10.0), [0], "nothing to list takes no page");
    }

    #[test]
    fn gaps_shrink_only_where_that_saves_a_page() {
        let mut flow = Flow::new(Paper::A4);
        flow.page("about".to_owned());
        let room = flow.room();
        flow.put(Block::space(10.0));
        let blocks = |height: f64| [(10.0, height), (10.0, 10.0)];
        assert_eq!(flow.closer(&blocks(50.0)), Some(1.0));
        let closer = flow.closer(&blocks(room - 30.0)).unwrap();
        assert!((closer - 0.5).abs() < 0.01, "{closer}");
        assert_eq!(flow.closer(&blocks(room)), None, "it takes two pages all the same");
    }
}
