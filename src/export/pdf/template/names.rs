//! The words at the places of a template: each whole on the one page that its place is on.

use glam::DVec2;

use super::Place;
use crate::export::drawing::{Item, Label, Labels, Rect, Shade, Stroke};
use crate::export::pdf::block::Block;
use crate::export::pdf::face::Faces;
use crate::export::pdf::text::{PT, Style, elided};
use crate::export::template::NamedPlace;

/// Longer words are cut off, mm.
const LONGEST: f64 = 120.0;
/// Words farther from their place than this are tied to it with a line, mm.
const TIED_FROM: f64 = 3.0;

impl Place<'_> {
    /// The words of the places on this page, in the page's millimetres.
    pub(super) fn names(&self, faces: &Faces) -> Block {
        let shown = self.tiles.rect(self.row, self.column);
        // The part that no neighbour shows better, so that none of it is covered when they are joined.
        let own = self.tiles.inner(self.row, self.column);
        let edge = Rect { min: own.min - shown.min, max: own.max - shown.min };
        let near = own.grown(2.0 * self.view.reach_mm);
        let along = self.view.along.iter().filter(|p| near.contains(**p));
        let along = along.map(|p| *p - shown.min).collect();
        let mut labels = Labels::new(edge.grown(-1.0), along, self.view.reach_mm);
        for cross in self.crosses() {
            labels.take(Rect { min: cross, max: cross }.grown(3.0));
        }
        let mut block = Block::default();
        for place in self.view.places.iter().filter(|place| self.is_own(place.at)) {
            block.items.extend(name(faces, &mut labels, place, place.at - shown.min));
        }
        block
    }

    /// Whether the words of a place stand on this page: it is nearest to the middle of this one.
    fn is_own(&self, at: DVec2) -> bool {
        let away = |(row, column): (usize, usize)| {
            let rect = self.tiles.rect(row, column);
            let off = (at - rect.min.midpoint(rect.max)).abs() / rect.size();
            off.max_element()
        };
        let mut best = (f64::INFINITY, (self.row, self.column));
        for tile in self.tiles.used() {
            if away(tile) < best.0 - 1e-9 {
                best = (away(tile), tile);
            }
        }
        best.1 == (self.row, self.column)
    }
}

fn name(faces: &Faces, labels: &mut Labels, place: &NamedPlace, at: DVec2) -> Vec<Item> {
    let style = if place.is_strong { Style::STRONG.sized(12.0) } else { Style::BODY.sized(8.6) };
    let words = elided(faces, &place.words, style, LONGEST);
    let label =
        Label { text: &words, size_mm: style.size_mm, is_bold: style.is_bold, shade: Shade::Ink };
    let item = labels.beside(at, place.gap_mm, &label);
    let bounds = item.bounds();
    let nearest = at.clamp(bounds.min, bounds.max);
    let way = (nearest - at).normalize_or_zero();
    if nearest.distance(at) <= place.gap_mm + TIED_FROM {
        return vec![item];
    }
    let from = at + way * (place.gap_mm - PT).max(0.0);
    vec![Item::line(vec![from, nearest], Stroke::solid(Shade::Soft, 0.15)), item]
}
