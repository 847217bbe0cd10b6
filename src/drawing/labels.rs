//! Where the words go in a view: near what they name, off the hose and off each other.

use glam::DVec2;

use super::{Anchor, Item, Rect, Shade, bold_width_mm, text_width_mm};

/// Remembers what is taken in one panel.
pub(crate) struct Labels {
    panel: Rect,
    taken: Vec<Rect>,
    /// Points along the hose, and half its thickness on paper.
    hose: Vec<DVec2>,
    hose_reach: f64,
}

/// Words to be placed.
pub(crate) struct Label<'a> {
    pub(crate) text: &'a str,
    pub(crate) size_mm: f64,
    pub(crate) is_bold: bool,
    pub(crate) shade: Shade,
}

impl Label<'_> {
    fn size(&self) -> DVec2 {
        let width = if self.is_bold { bold_width_mm } else { text_width_mm };
        DVec2::new(width(self.text, self.size_mm), self.size_mm)
    }
}

/// Ways to step aside, the ones that read best first: x, then y down.
const ASIDE: [(f64, f64); 8] = [
    (1.0, -0.4),
    (-1.0, -0.4),
    (0.0, -1.0),
    (0.0, 1.0),
    (1.0, 1.0),
    (-1.0, 1.0),
    (1.0, -1.0),
    (-1.0, -1.0),
];

impl Labels {
    pub(crate) fn new(panel: Rect, hose: Vec<DVec2>, hose_reach: f64) -> Self {
        Self { panel, taken: Vec::new(), hose, hose_reach }
    }

    /// Keeps words off a rectangle.
    pub(crate) fn take(&mut self, rect: Rect) {
        self.taken.push(rect);
    }

    /// Places words beside `at`, at least `gap_mm` from it, where the least is in the way. They
    /// always get a place.
    pub(crate) fn beside(&mut self, at: DVec2, gap_mm: f64, label: &Label<'_>) -> Item {
        let (_, place) = self.best_beside(at, gap_mm, label);
        self.put(place, label)
    }

    /// The same beside the one of several places where the least is in the way, the first of those
    /// alike; none where there is no place.
    pub(super) fn beside_one_of(
        &mut self,
        places: impl Iterator<Item = DVec2>,
        gap_mm: f64,
        label: &Label<'_>,
    ) -> Option<Item> {
        let found = places.map(|at| self.best_beside(at, gap_mm, label));
        let (_, place) = found.min_by_key(|(against, _)| *against)?;
        Some(self.put(place, label))
    }

    /// The best place beside `at`, and how much is in the way there.
    fn best_beside(&self, at: DVec2, gap_mm: f64, label: &Label<'_>) -> (usize, Rect) {
        let size = label.size();
        let boxed = |(x, y): (f64, f64), gap: f64| {
            let middle = at + DVec2::new(x * (gap + size.x / 2.0), y * (gap + size.y / 2.0));
            self.pushed_inside(Rect::from_size(middle - size / 2.0, size))
        };
        // Far off they are taken for something else's: rather near and a little over the hose.
        let places = [(1.0, 0), (2.5, 6), (5.0, 16), (9.0, 32)]
            .into_iter()
            .flat_map(|(times, far)| ASIDE.map(|aside| (far, boxed(aside, gap_mm * times))));
        let mut best = (usize::MAX, boxed(ASIDE[0], gap_mm));
        for (far, place) in places {
            let against = far + self.in_the_way(place);
            if against < best.0 {
                best = (against, place);
            }
        }
        best
    }

    /// Places words inside a rectangle, in one of its corners or its middle; none where there is
    /// no room that is free.
    pub(crate) fn inside(&mut self, rect: Rect, label: &Label<'_>) -> Option<Item> {
        const EDGE_MM: f64 = 0.8;
        let size = label.size();
        let low = rect.min.max(self.panel.min) + EDGE_MM;
        let high = rect.max.min(self.panel.max) - size - EDGE_MM;
        if low.cmpgt(high).any() {
            return None;
        }
        let corners = [
            DVec2::new(low.x, high.y),
            DVec2::new(high.x, high.y),
            low,
            DVec2::new(high.x, low.y),
            (low + high) / 2.0,
        ];
        let place = corners
            .into_iter()
            .map(|corner| Rect::from_size(corner, size))
            .find(|place| self.in_the_way(*place) == 0)?;
        Some(self.put(place, label))
    }

    /// White to lie below words, so that they are read across lines and hatching.
    pub(super) fn ground(words: &Item) -> Item {
        let bounds = words.bounds();
        let (low, high) = (bounds.min, bounds.max);
        // The box of words has room above for accents, and below for tails.
        let ground = Rect {
            min: DVec2::new(low.x - 0.3, low.y + 0.1 * (high.y - low.y)),
            max: DVec2::new(high.x + 0.3, high.y),
        };
        Item::shape(ground.outline(), Some(Shade::Paper), None)
    }

    fn put(&mut self, place: Rect, label: &Label<'_>) -> Item {
        self.take(place);
        Item::Text {
            // The group of a letter stands about four fifths above its base line.
            at: DVec2::new(
                f64::midpoint(place.min.x, place.max.x),
                place.min.y + 0.82 * label.size_mm,
            ),
            text: label.text.to_owned(),
            size_mm: label.size_mm,
            anchor: Anchor::Middle,
            is_bold: label.is_bold,
            shade: label.shade,
        }
    }

    fn pushed_inside(&self, rect: Rect) -> Rect {
        let low = (self.panel.min - rect.min).max(DVec2::ZERO);
        let high = (self.panel.max - rect.max).min(DVec2::ZERO);
        Rect { min: rect.min + low + high, max: rect.max + low + high }
    }

    fn in_the_way(&self, place: Rect) -> usize {
        const WORDS_WEIGH: usize = 20;
        let on_hose = place.grown(self.hose_reach);
        let hose = self.hose.iter().filter(|point| on_hose.contains(**point)).count();
        let words = self.taken.iter().filter(|taken| taken.overlaps(place)).count();
        hose + WORDS_WEIGH * words
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn panel() -> Rect {
        Rect::from_size(DVec2::ZERO, DVec2::new(60.0, 40.0))
    }

    /// A hose along the top.
    fn along_the_top() -> Vec<DVec2> {
        (0..60).map(|x| DVec2::new(f64::from(x), 2.5)).collect()
    }

    const LABEL: Label<'_> =
        Label { text: "name", size_mm: 2.5, is_bold: false, shade: Shade::Ink };

    #[test]
    fn of_several_places_the_free_one_is_taken() {
        let mut labels = Labels::new(panel(), along_the_top(), 0.5);
        labels.take(Rect::from_size(DVec2::new(0.0, 4.0), DVec2::new(60.0, 20.0)));
        let (busy, free) = (DVec2::new(30.0, 12.0), DVec2::new(30.0, 33.0));
        let words = labels.beside_one_of([busy, free].into_iter(), 0.9, &LABEL).unwrap();
        assert!(words.bounds().min.y > 24.0, "{words:?}");
        assert!(labels.beside_one_of(std::iter::empty(), 0.9, &LABEL).is_none());
    }

    #[test]
    fn what_lies_below_words_is_as_large_as_they_are() {
        let words = Item::soft(DVec2::new(10.0, 10.0), "chassis rail", 2.3, Anchor::Middle);
        let (ground, bounds) = (Labels::ground(&words).bounds(), words.bounds());
        assert!(ground.min.x < bounds.min.x && ground.max.x > bounds.max.x);
        assert!(ground.min.y < bounds.max.y - 2.3 && ground.max.y >= bounds.max.y);
    }
}
