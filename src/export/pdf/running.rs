//! What every page of a printed thing says at its top and at its foot.

use glam::DVec2;

use super::block::{Block, rule};
use super::document::Finished;
use super::face::Faces;
use super::flow::{Flow, Page, WIDTH};
use super::paper::Paper;
use super::text::{Span, Style, aligned, elided};
use crate::drawing::{Anchor, Rect, Shade};
use crate::report::sheet::SheetInfo;

/// The words of the pages' heads and feet.
pub(super) struct Running<'a> {
    pub(super) faces: &'a Faces,
    pub(super) paper: Paper,
    /// The bay, at the left.
    pub(super) title: &'a str,
    /// In the middle.
    pub(super) routing: &'a str,
    /// Day and file, at the foot.
    pub(super) info: &'a SheetInfo,
}

impl Running<'_> {
    /// The pages, now that they are counted.
    pub(super) fn pages(&self, pages: &[Page]) -> Vec<Finished> {
        (0..pages.len()).map(|i| self.page(pages, i)).collect()
    }

    fn page(&self, pages: &[Page], index: usize) -> Finished {
        let size = self.paper.size_mm();
        let page = &pages[index];
        let mut all = Block::default();
        let mut links = Vec::new();
        let corner = Flow::corner(self.paper);
        all.put(self.head(&page.about), corner);
        let foot = self.foot(index, pages.len());
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

    /// Bay, routing, what the page is about.
    fn head(&self, about: &str) -> Block {
        const APART: f64 = 5.0;
        const LONGEST: f64 = 76.0;
        let (strong, soft) = (Style::STRONG, Style::SOFT.shaded(Shade::Ink));
        let wide = |words: &str| self.faces.of(true).width_mm(words, strong.size_mm);
        let title = elided(self.faces, self.title, strong, LONGEST);
        let about = elided(self.faces, about, strong, LONGEST);
        let (from, to) = (wide(&title) + APART, WIDTH - wide(&about) - APART);
        let routing = elided(self.faces, self.routing, soft, to - from);
        let at = |words: &str, style, width, anchor| {
            aligned(self.faces, &[Span(words, style)], width, anchor)
        };
        let mut head = at(&title, strong, WIDTH, Anchor::Start)
            .beside(from, at(&routing, soft, to - from, Anchor::Middle))
            .beside(0.0, at(&about, strong, WIDTH, Anchor::End));
        let foot = head.height + 1.0;
        head.items.push(rule(DVec2::new(0.0, foot), WIDTH, Shade::Ink, 0.5));
        head
    }

    fn foot(&self, index: usize, count: usize) -> Block {
        let style = Style::SOFT;
        let from: Vec<&str> = [&self.info.file_name, &self.info.date]
            .into_iter()
            .flatten()
            .map(String::as_str)
            .collect();
        let from = elided(self.faces, &from.join(" · "), style, WIDTH - 40.0);
        let page = format!("page {} of {count}", index + 1);
        let right =
            aligned(self.faces, &[Span(&page, style.shaded(Shade::Ink))], 40.0, Anchor::End);
        aligned(self.faces, &[Span(&from, style)], WIDTH - 40.0, Anchor::Start)
            .beside(WIDTH - 40.0, right)
    }
}
