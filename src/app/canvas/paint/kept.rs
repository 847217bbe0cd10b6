//! What has been painted and is as it was: hoses by their bands, everything under them as one piece.
//! So a pointer that moves costs nothing, and a drag only what it moves.

use std::collections::HashMap;
use std::sync::Arc;

use eframe::egui::epaint::{TessellationOptions, Tessellator};
use eframe::egui::{Mesh, Painter, Shape};

use super::super::layout::{Band, Grid, SolidShape, ViewLayout};
use super::hoses::{self, Stand};
use super::{rect, solids};
use crate::app::theme::Palette;

/// What is kept of one view.
#[derive(Debug, Clone, Default)]
pub(in super::super) struct Kept {
    looks: Option<(Palette, f32)>,
    ground: Option<Ground>,
    bands: HashMap<(usize, Stand), (Arc<Band>, Arc<Mesh>)>,
}

#[derive(Debug, Clone)]
struct Ground {
    grid: Grid,
    solids: Vec<Arc<SolidShape>>,
    ghosts: Vec<Vec<glam::DVec2>>,
    mesh: Arc<Mesh>,
}

impl Ground {
    fn is_of(&self, layout: &ViewLayout) -> bool {
        self.grid == layout.grid
            && self.ghosts == layout.ghosts
            && self.solids.len() == layout.solids.len()
            && self.solids.iter().zip(&layout.solids).all(|(a, b)| Arc::ptr_eq(a, b))
    }
}

impl Kept {
    /// Forgets everything where it would look different.
    pub(super) fn look(&mut self, colours: &Palette, pixels_per_point: f32) {
        if self.looks != Some((*colours, pixels_per_point)) {
            *self = Self { looks: Some((*colours, pixels_per_point)), ..Self::default() };
        }
    }

    /// Paper, grid, solids and the ghosts of another routing.
    pub(super) fn ground(&mut self, painter: &Painter, layout: &ViewLayout, colours: &Palette) {
        if !self.ground.as_ref().is_some_and(|ground| ground.is_of(layout)) {
            let mut shapes = Vec::new();
            super::grid(&mut shapes, layout, colours);
            solids::keep_off(&mut shapes, layout, colours);
            solids::bodies(&mut shapes, layout, colours);
            super::ghosts(&mut shapes, layout, colours);
            self.ground = Some(Ground {
                grid: layout.grid.clone(),
                solids: layout.solids.clone(),
                ghosts: layout.ghosts.clone(),
                mesh: Arc::new(tessellated(shapes, layout, painter.pixels_per_point())),
            });
        }
        if let Some(ground) = &self.ground {
            painter.add(Shape::mesh(Arc::clone(&ground.mesh)));
        }
    }

    /// All bands, the far ones first; those of the hose `lit` stand out.
    pub(super) fn bands(
        &mut self,
        painter: &Painter,
        layout: &ViewLayout,
        lit: Option<usize>,
        colours: &Palette,
    ) {
        let pixel = f64::from(painter.pixels_per_point()).recip();
        let mut old = std::mem::take(&mut self.bands);
        for band in &layout.bands {
            let stand = if Some(band.hose) == lit { Stand::Lit } else { Stand::Plain };
            // The band is kept with its painting, so that its place in memory is not taken again.
            let key = (Arc::as_ptr(band) as usize, stand);
            let kept = old.remove(&key).unwrap_or_else(|| {
                let mesh = hoses::band(band, stand, colours, pixel);
                (Arc::clone(band), Arc::new(mesh))
            });
            painter.add(Shape::Mesh(Arc::clone(&kept.1)));
            self.bands.insert(key, kept);
        }
        // What is lit goes back to plain before long: that painting is worth keeping.
        if lit.is_some() {
            self.bands.extend(old.into_iter().filter(|((_, stand), (band, _))| {
                *stand == Stand::Plain && Some(band.hose) == lit && Arc::strong_count(band) > 1
            }));
        }
    }
}

fn tessellated(shapes: Vec<Shape>, layout: &ViewLayout, pixels_per_point: f32) -> Mesh {
    // No discs from the font's picture: it may be laid out anew.
    let mut tessellator =
        Tessellator::new(pixels_per_point, TessellationOptions::default(), [1, 1], Vec::new());
    tessellator.set_clip_rect(rect(layout.area));
    let mut mesh = Mesh::default();
    for shape in shapes {
        tessellator.tessellate_shape(shape, &mut mesh);
    }
    mesh
}
