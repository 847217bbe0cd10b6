//! The bands of all hoses, painted: those that are as they were are kept, and all are put together in heaps.

use std::sync::Arc;

use eframe::egui::Mesh;

use super::super::layout::{Band, Behind, ViewLayout};
use super::heaps::{Heaps, Piece, next_kept};
use super::hoses::{self, Stand};
use crate::app::theme::Palette;

/// What has been painted of the bands of one view.
#[derive(Debug, Clone, Default)]
pub(super) struct Bands {
    /// In the order of the layout, each with how it stands.
    plain: Vec<(Arc<Band>, Stand, Arc<Mesh>)>,
    /// Those of the hose under the pointer once more, lit.
    lit: Vec<(Arc<Band>, Arc<Mesh>)>,
    /// All of them, a number to a mesh.
    heaps: Heaps,
}

impl Bands {
    /// All bands painted, the far ones first; those of the hose `lit` stand out, and where one is
    /// `selected` the others are faint, and so is what lies behind.
    pub(super) fn painted(
        &mut self,
        layout: &ViewLayout,
        [lit, selected]: [Option<usize>; 2],
        behind: Behind,
        colours: &Palette,
        pixel: f64,
    ) -> impl Iterator<Item = &Piece> {
        let stand = |band: &Band| match selected {
            Some(selected) if selected == band.hose => Stand::Plain(0),
            Some(_) => Stand::Faint(behind.step(band.depth)),
            None => Stand::Plain(behind.step(band.depth)),
        };
        let is_renewed = self.renew(layout, stand, colours, pixel);
        let is_relit = self.light(layout, lit, colours, pixel);
        if is_renewed || is_relit {
            self.heap_up();
        }
        self.heaps.wholes()
    }

    /// Paints the bands that are new. Tells whether any are, or went.
    fn renew(
        &mut self,
        layout: &ViewLayout,
        stand: impl Fn(&Band) -> Stand,
        colours: &Palette,
        pixel: f64,
    ) -> bool {
        let is_it = |(kept, stood, _): &(Arc<Band>, Stand, Arc<Mesh>), band: &Arc<Band>| {
            Arc::ptr_eq(kept, band) && *stood == stand(band)
        };
        let same = self.plain.len() == layout.bands.len()
            && self.plain.iter().zip(&layout.bands).all(|(kept, band)| is_it(kept, band));
        if same {
            return false;
        }
        // A band is kept with its painting, so that its place in memory is not taken again.
        let old = std::mem::take(&mut self.plain);
        let mut next = 0;
        let painted = |band: &Arc<Band>| {
            let known = next_kept(&old, &mut next, |kept| is_it(kept, band));
            known.cloned().unwrap_or_else(|| {
                let stand = stand(band);
                let mesh = hoses::band(band, stand, colours, pixel);
                (Arc::clone(band), stand, Arc::new(mesh))
            })
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
        let parts = self.plain.iter().map(|(band, _, plain)| {
            let lit = shining.next_if(|(next, _)| Arc::ptr_eq(next, band));
            lit.map_or(plain, |(_, lit)| lit)
        });
        self.heaps.heap_up(&parts.collect::<Vec<_>>());
    }
}
