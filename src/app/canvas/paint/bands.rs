//! The bands of all hoses as a few meshes: thousands of small ones would each be looked at in every
//! frame, and one large one would be put together anew whenever a single band changes.

use std::sync::Arc;

use eframe::egui::Mesh;

use super::super::layout::{Band, ViewLayout};
use super::heaps::Heaps;
use super::hoses::{self, Stand};
use crate::app::theme::Palette;

/// What has been painted of the bands of one view.
#[derive(Debug, Clone, Default)]
pub(super) struct Bands {
    /// In the order of the layout.
    plain: Vec<(Arc<Band>, Arc<Mesh>)>,
    /// Those of the hose under the pointer once more, lit.
    lit: Vec<(Arc<Band>, Arc<Mesh>)>,
    /// All of them, a number to a mesh.
    heaps: Heaps,
}

/// How many bands that went may lie between two that are kept.
const AHEAD: usize = 64;

impl Bands {
    /// All bands painted, the far ones first; those of the hose `lit` stand out.
    pub(super) fn painted(
        &mut self,
        layout: &ViewLayout,
        lit: Option<usize>,
        colours: &Palette,
        pixel: f64,
    ) -> impl Iterator<Item = &Arc<Mesh>> {
        let is_renewed = self.renew(layout, colours, pixel);
        let is_lit_anew = self.light(layout, lit, colours, pixel);
        if is_renewed || is_lit_anew {
            self.heap_up();
        }
        self.heaps.wholes()
    }

    /// Paints the bands that are new. Tells whether any are, or went.
    fn renew(&mut self, layout: &ViewLayout, colours: &Palette, pixel: f64) -> bool {
        let same = self.plain.len() == layout.bands.len()
            && self.plain.iter().zip(&layout.bands).all(|((a, _), b)| Arc::ptr_eq(a, b));
        if same {
            return false;
        }
        // A band is kept with its painting, so that its place in memory is not taken again. What is
        // kept comes in the same order; between it may be what went, a few at a time.
        let old = std::mem::take(&mut self.plain);
        let mut next = 0;
        let painted = |band: &Arc<Band>| {
            let rest = old.get(next..).unwrap_or_default();
            let found = rest.iter().take(AHEAD).position(|(kept, _)| Arc::ptr_eq(kept, band));
            if let Some(found) = found {
                next += found + 1;
                return old[next - 1].clone();
            }
            let mesh = hoses::band(band, Stand::Plain, colours, pixel);
            (Arc::clone(band), Arc::new(mesh))
        };
        self.plain = layout.bands.iter().map(painted).collect();
        true
    }

    /// Paints the bands of the hose that stands out. Tells whether they are other ones than before.
    fn light(
        &mut self,
        layout: &ViewLayout,
        lit: Option<usize>,
        colours: &Palette,
        pixel: f64,
    ) -> bool {
        let mut shining = layout.bands.iter().filter(|band| Some(band.hose) == lit);
        let mut kept = self.lit.iter();
        let is_kept =
            shining.all(|band| kept.next().is_some_and(|(old, _)| Arc::ptr_eq(old, band)));
        if is_kept && kept.next().is_none() {
            return false;
        }
        let shining = layout.bands.iter().filter(|band| Some(band.hose) == lit);
        let lit = |band: &Arc<Band>| {
            let mesh = hoses::band(band, Stand::Lit, colours, pixel);
            (Arc::clone(band), Arc::new(mesh))
        };
        self.lit = shining.map(lit).collect();
        true
    }

    /// Puts the bands together.
    fn heap_up(&mut self) {
        let mut shining = self.lit.iter().peekable();
        let parts = self.plain.iter().map(|(band, plain)| {
            let lit = shining.next_if(|(next, _)| Arc::ptr_eq(next, band));
            lit.map_or(plain, |(_, lit)| lit)
        });
        self.heaps.heap_up(&parts.collect::<Vec<_>>());
    }
}
