//! The bands of all hoses as a few meshes: thousands of small ones would each be looked at in every
//! frame, and one large one would be put together anew whenever a single band changes.

use std::sync::Arc;

use eframe::egui::Mesh;

use super::super::layout::{Band, ViewLayout};
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
    heaps: Vec<Heap>,
}

/// Bands that follow each other, as one mesh.
#[derive(Debug, Clone)]
struct Heap {
    parts: Vec<Arc<Mesh>>,
    whole: Arc<Mesh>,
}

/// How many bands that went may lie between two that are kept.
const AHEAD: usize = 64;

/// About so many bands are in one heap.
const IN_A_HEAP: u64 = 32;

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
        self.heaps.iter().map(|heap| &heap.whole)
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

    /// Puts the bands together; heaps of the same bands as before are kept.
    fn heap_up(&mut self) {
        let mut shining = self.lit.iter().peekable();
        let parts: Vec<&Arc<Mesh>> = self
            .plain
            .iter()
            .map(|(band, plain)| {
                let lit = shining.next_if(|(next, _)| Arc::ptr_eq(next, band));
                lit.map_or(plain, |(_, lit)| lit)
            })
            .collect();
        let old = std::mem::take(&mut self.heaps);
        let mut next = 0;
        self.heaps = parts
            .chunk_by(|_, first| !begins_a_heap(first))
            .map(|parts| {
                let rest = old.get(next..).unwrap_or_default();
                let found = rest.iter().take(AHEAD).position(|heap| heap.is_of(parts));
                found.map_or_else(
                    || Heap::of(parts),
                    |found| {
                        next += found + 1;
                        old[next - 1].clone()
                    },
                )
            })
            .collect();
    }
}

/// Whether a heap begins with this band. That follows from its place in memory, so that one band more
/// or less changes its own heap only.
fn begins_a_heap(mesh: &Arc<Mesh>) -> bool {
    let place = (Arc::as_ptr(mesh) as usize / align_of::<Mesh>()) as u64;
    // Multiplied by an odd number, all of its digits count (Knuth's multiplicative hashing).
    (place.wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 40).is_multiple_of(IN_A_HEAP)
}

impl Heap {
    fn of(parts: &[&Arc<Mesh>]) -> Self {
        let mut whole = Mesh::default();
        whole.reserve_vertices(parts.iter().map(|mesh| mesh.vertices.len()).sum());
        whole.indices.reserve(parts.iter().map(|mesh| mesh.indices.len()).sum());
        for mesh in parts {
            whole.append_ref(mesh);
        }
        let parts = parts.iter().map(|mesh| Arc::clone(mesh)).collect();
        Self { parts, whole: Arc::new(whole) }
    }

    fn is_of(&self, parts: &[&Arc<Mesh>]) -> bool {
        self.parts.len() == parts.len()
            && self.parts.iter().zip(parts).all(|(a, b)| Arc::ptr_eq(a, b))
    }
}
