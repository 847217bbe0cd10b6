//! The words at the places of a template: each whole on the one page that its place is on.

use glam::DVec2;

use super::Place;
use crate::drawing::{Item, Label, Labels, Rect, Shade, Stroke};
use crate::export::pdf::block::Block;
use crate::export::pdf::face::Faces;
use crate::export::pdf::text::{Style, elided};
use crate::export::template::NamedPlace;

/// Longer words are cut off, mm.
const LONGEST: f64 = 120.0;
/// Words farther from their mark than this are tied to it with a line, mm.
const TIED_FROM: f64 = 1.6;
/// About marks and words, mm.
const HAIR: f64 = 0.4;

impl Place<'_> {
    /// The words of the places on this page, in the page's millimetres.
    pub(super) fn names(&self, faces: &Faces) -> Block {
        let shown = self.tiles.rect(self.row, self.column);
        // The part that no neighbour shows better, so that none of it is covered when they are joined.
        let own = self.tiles.inner(self.row, self.column);
        let edge = Rect { min: own.min - shown.min, max: own.max - shown.min };
        let near = own.grown(2.0 * self.template.view.reach_mm);
        let along = self.template.view.along.iter().filter(|p| near.contains(**p));
        let along = along.map(|p| *p - shown.min).collect();
        let mut labels = Labels::new(edge.grown(-1.0), along, self.template.view.reach_mm);
        for cross in self.crosses() {
            labels.take(Rect { min: cross, max: cross }.grown(3.0));
        }
        for seam in self.seams() {
            labels.take(Rect::of(seam).grown(HAIR));
        }
        let mut block = Block::default();
        let on_page = |place: &NamedPlace| NamedPlace {
            at: place.at - shown.min,
            mark: place.mark.map(|end| end - shown.min),
            ..place.clone()
        };
        let here = self.template.view.places.iter().filter(|place| near.contains(place.at));
        for place in here.map(on_page) {
            labels.take(Rect::of(place.mark).grown(HAIR));
        }
        for place in self.template.view.places.iter().filter(|place| self.is_own(place.at)) {
            block.items.extend(name(faces, &mut labels, &on_page(place)));
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

fn name(faces: &Faces, labels: &mut Labels, place: &NamedPlace) -> Vec<Item> {
    let style = if place.is_strong { Style::STRONG.sized(12.0) } else { Style::GROUP.sized(8.6) };
    let words = elided(faces, &place.words, style, LONGEST);
    let label =
        Label { text: &words, size_mm: style.size_mm, is_bold: style.is_bold, shade: Shade::Ink };
    let item = labels.beside(place.at, place.gap_mm, &label);
    let bounds = item.bounds();
    labels.take(bounds.grown(HAIR));
    let tie = |from: DVec2| [from, from.clamp(bounds.min, bounds.max)];
    let ties = place.mark.map(tie);
    let length = |[from, to]: [DVec2; 2]| from.distance(to);
    let nearest = if length(ties[1]) < length(ties[0]) { ties[1] } else { ties[0] };
    if length(nearest) <= TIED_FROM {
        return vec![item];
    }
    vec![Item::line(nearest.to_vec(), Stroke::obstacle(Shade::Soft, 0.15)), item]
}
