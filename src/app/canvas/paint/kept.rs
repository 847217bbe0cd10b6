//! What has been painted and is as it was: hoses by their bands, everything under them as one piece.
//! So a pointer that moves costs nothing, and a drag only what it moves.

use std::sync::Arc;

use eframe::egui::epaint::{TessellationOptions, Tessellator};
use eframe::egui::{Mesh, Painter, Shape};

use super::super::layout::{Band, Grid, SolidShape, ViewLayout};
use super::hoses::{self, Stand};
use super::{lies, rect, solids};
use crate::app::theme::Palette;

/// What is kept of one view.
#[derive(Debug, Clone, Default)]
pub(in super::super) struct Kept {
    looks: Option<(Palette, f32)>,
    paper: Option<(Grid, Arc<Mesh>)>,
    ground: Option<Ground>,
    /// In the order of the layout.
    bands: Vec<(Arc<Band>, Arc<Mesh>)>,
    /// All of them as one.
    whole: Option<Arc<Mesh>>,
    /// How hoses really lie.
    pub(super) lies: lies::Kept,
    /// Those of the hose under the pointer once more, lit.
    lit: Vec<(Arc<Band>, Arc<Mesh>)>,
}

#[derive(Debug, Clone)]
struct Ground {
    solids: Vec<Arc<SolidShape>>,
    ghosts: Vec<Vec<glam::DVec2>>,
    mesh: Arc<Mesh>,
}

impl Ground {
    fn is_of(&self, layout: &ViewLayout) -> bool {
        self.ghosts == layout.ghosts
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

    /// The grid.
    pub(super) fn paper(&mut self, painter: &Painter, layout: &ViewLayout, colours: &Palette) {
        if self.paper.as_ref().is_none_or(|(grid, _)| *grid != layout.grid) {
            let mut shapes = Vec::new();
            super::grid(&mut shapes, layout, colours);
            let mesh = tessellated(shapes, layout, painter.pixels_per_point());
            self.paper = Some((layout.grid.clone(), Arc::new(mesh)));
        }
        if let Some((_, mesh)) = &self.paper {
            painter.add(Shape::mesh(Arc::clone(mesh)));
        }
    }

    /// Solids and the ghosts of another routing.
    pub(super) fn ground(&mut self, painter: &Painter, layout: &ViewLayout, colours: &Palette) {
        if !self.ground.as_ref().is_some_and(|ground| ground.is_of(layout)) {
            let mut shapes = Vec::new();
            solids::keep_off(&mut shapes, layout, colours);
            solids::bodies(&mut shapes, layout, colours);
            super::ghosts(&mut shapes, layout, colours);
            self.ground = Some(Ground {
                solids: layout.solids.clone(),
                ghosts: layout.ghosts.clone(),
                mesh: Arc::new(tessellated(shapes, layout, painter.pixels_per_point())),
            });
        }
        if let Some(ground) = &self.ground {
            apart(painter, &ground.mesh);
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
        self.renew(layout, colours, pixel);
        let mut shining = layout.bands.iter().filter(|band| Some(band.hose) == lit);
        let mut kept = self.lit.iter();
        let is_kept =
            shining.all(|band| kept.next().is_some_and(|(old, _)| Arc::ptr_eq(old, band)));
        let is_kept = is_kept && kept.next().is_none();
        if !is_kept {
            let shining = layout.bands.iter().filter(|band| Some(band.hose) == lit);
            let lit = |band: &Arc<Band>| {
                let mesh = hoses::band(band, Stand::Lit, colours, pixel);
                (Arc::clone(band), Arc::new(mesh))
            };
            self.lit = shining.map(lit).collect();
        }
        if !is_kept || self.whole.is_none() {
            self.whole = Some(Arc::new(self.joined()));
        }
        if let Some(whole) = &self.whole {
            apart(painter, whole);
        }
    }

    /// All bands as one mesh: thousands of small ones would each be looked at every frame.
    fn joined(&self) -> Mesh {
        let mut shining = self.lit.iter().peekable();
        let all: Vec<&Mesh> = self
            .bands
            .iter()
            .map(|(band, plain)| {
                let lit = shining.next_if(|(next, _)| Arc::ptr_eq(next, band));
                lit.map_or(&**plain, |(_, lit)| lit)
            })
            .collect();
        let mut whole = Mesh::default();
        whole.reserve_vertices(all.iter().map(|mesh| mesh.vertices.len()).sum());
        whole.indices.reserve(all.iter().map(|mesh| mesh.indices.len()).sum());
        for mesh in all {
            whole.append_ref(mesh);
        }
        whole
    }

    /// Paints the bands that are new.
    fn renew(&mut self, layout: &ViewLayout, colours: &Palette, pixel: f64) {
        let same = self.bands.len() == layout.bands.len()
            && self.bands.iter().zip(&layout.bands).all(|((a, _), b)| Arc::ptr_eq(a, b));
        if same {
            return;
        }
        // A band is kept with its painting, so that its place in memory is not taken again. What is
        // kept comes in the same order; between it may be what went, a few at a time.
        let old = std::mem::take(&mut self.bands);
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
        self.bands = layout.bands.iter().map(painted).collect();
        self.whole = None;
    }
}

/// How many bands that went may lie between two that are kept.
const AHEAD: usize = 64;

/// Paints a large mesh with a hair's breadth of its own about the view: what has one border is joined
/// into one mesh, and what is large would be copied again and again as that grows.
fn apart(painter: &Painter, mesh: &Arc<Mesh>) {
    const HAIR: f32 = 1.0 / 64.0;
    let alone = painter.with_clip_rect(painter.clip_rect().shrink(HAIR));
    alone.add(Shape::mesh(Arc::clone(mesh)));
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
