//! What has been painted and is as it was: hoses by their bands, everything under them as one piece.
//! So a pointer that moves costs nothing, and a drag only what it moves.

use std::sync::Arc;

use eframe::egui::epaint::{TessellationOptions, Tessellator};
use eframe::egui::{Mesh, Painter, Shape};

use super::super::layout::{Behind, Grid, ObstacleShape, PortShape, ViewLayout};
use super::bands::Bands;
use super::heaps::Piece;
use super::hoses::BESIDE;
use super::{installed, marks, obstacles, rect};
use crate::app::theme::Palette;
use crate::memo::Memo;

/// What is kept of one view.
#[derive(Debug, Clone, Default)]
pub(in super::super) struct PaintCache {
    looks: Option<(Palette, f32)>,
    paper: Memo<Grid, Arc<Mesh>>,
    ground: Memo<Ground, Piece>,
    ports: Memo<Ports, Arc<Mesh>>,
    bands: Bands,
    /// The installed shapes.
    pub(super) installed: installed::InstalledPaint,
}

/// Ports and how many steps behind each is; the one that is lit.
type Ports = (Vec<PortShape>, Vec<u8>, Option<usize>);

#[derive(Debug, Clone)]
struct Ground {
    obstacles: Vec<Arc<ObstacleShape>>,
    /// How many steps behind each is.
    steps: Vec<u8>,
    ghosts: Vec<Vec<glam::DVec2>>,
}

impl Ground {
    fn is_of(&self, layout: &ViewLayout, behind: Behind) -> bool {
        self.ghosts == layout.ghosts
            && self.obstacles.len() == layout.obstacles.len()
            && self.obstacles.iter().zip(&layout.obstacles).all(|(a, b)| Arc::ptr_eq(a, b))
            && self.steps.iter().copied().eq(steps_of_obstacles(layout, behind))
    }
}

fn steps_of_obstacles(layout: &ViewLayout, behind: Behind) -> impl Iterator<Item = u8> {
    layout.obstacles.iter().map(move |obstacle| behind.step(obstacle.depth))
}

/// `own` are the ports of the selected hose: the others are faint beside it.
fn steps_of_ports(
    layout: &ViewLayout,
    own: Option<[usize; 2]>,
    behind: Behind,
) -> impl Iterator<Item = u8> {
    layout.ports.iter().map(move |port| match own {
        Some(own) if own.contains(&port.index) => 0,
        Some(_) => behind.step(port.depth).max(BESIDE),
        None => behind.step(port.depth),
    })
}

impl PaintCache {
    /// Forgets everything where it would look different.
    pub(super) fn look(&mut self, colours: &Palette, pixels_per_point: f32) {
        if self.looks != Some((*colours, pixels_per_point)) {
            *self = Self { looks: Some((*colours, pixels_per_point)), ..Self::default() };
        }
    }

    /// The grid.
    pub(super) fn paper(&mut self, painter: &Painter, layout: &ViewLayout, colours: &Palette) {
        let make = || {
            let mut shapes = Vec::new();
            super::grid(&mut shapes, layout, colours);
            let mesh = tessellated(shapes, layout, painter.pixels_per_point());
            (layout.grid.clone(), Arc::new(mesh))
        };
        let mesh = self.paper.or_make(|grid| *grid == layout.grid, make);
        painter.add(Shape::mesh(Arc::clone(mesh)));
    }

    /// Obstacles and the ghosts of another routing.
    pub(super) fn ground(
        &mut self,
        painter: &Painter,
        layout: &ViewLayout,
        behind: Behind,
        colours: &Palette,
    ) {
        let make = || {
            let mut shapes = Vec::new();
            obstacles::min_clearance(&mut shapes, layout, behind, colours);
            let pixel = f64::from(painter.pixels_per_point()).recip();
            obstacles::groups(&mut shapes, layout, behind, colours, pixel);
            super::ghosts(&mut shapes, layout, colours);
            let of = Ground {
                obstacles: layout.obstacles.clone(),
                steps: steps_of_obstacles(layout, behind).collect(),
                ghosts: layout.ghosts.clone(),
            };
            (of, tessellated(shapes, layout, painter.pixels_per_point()).into())
        };
        apart(painter, self.ground.or_make(|ground| ground.is_of(layout, behind), make), 0);
    }

    /// All bands, the far ones first: of the hose that is lit, and beside that which is selected.
    pub(super) fn bands(
        &mut self,
        painter: &Painter,
        layout: &ViewLayout,
        stands: [Option<usize>; 2],
        behind: Behind,
        colours: &Palette,
    ) {
        let pixel = f64::from(painter.pixels_per_point()).recip();
        for (place, whole) in self.bands.painted(layout, stands, behind, colours, pixel).enumerate()
        {
            apart(painter, whole, place);
        }
    }

    /// The ports; the one in the place `lit` stands out, and those of the selected hose.
    pub(super) fn ports(
        &mut self,
        painter: &Painter,
        layout: &ViewLayout,
        (lit, own): (Option<usize>, Option<[usize; 2]>),
        behind: Behind,
        colours: &Palette,
    ) {
        let holds = |(ports, steps, was_lit): &Ports| {
            *was_lit == lit
                && *ports == layout.ports
                && steps.iter().copied().eq(steps_of_ports(layout, own, behind))
        };
        let make = || {
            let pixel = f64::from(painter.pixels_per_point()).recip();
            let steps: Vec<u8> = steps_of_ports(layout, own, behind).collect();
            let shapes = marks::ports(layout, lit, &steps, colours, pixel);
            let mesh = tessellated(shapes, layout, painter.pixels_per_point());
            ((layout.ports.clone(), steps, lit), Arc::new(mesh))
        };
        painter.add(Shape::mesh(Arc::clone(self.ports.or_make(holds, make))));
    }
}

/// Paints a large mesh with a hair's breadth of its own about the view: what has one border is joined
/// into one mesh, and what is large would be copied again and again as that grows. Of several that
/// follow each other, neighbours have different ones.
fn apart(painter: &Painter, piece: &Piece, place: usize) {
    const HAIR: f32 = 1.0 / 64.0;
    if !painter.clip_rect().intersects(piece.about) {
        return;
    }
    let hair = if place.is_multiple_of(2) { HAIR } else { 2.0 * HAIR };
    let alone = painter.with_clip_rect(painter.clip_rect().shrink(hair));
    alone.add(Shape::mesh(Arc::clone(&piece.mesh)));
}

fn tessellated(shapes: Vec<Shape>, layout: &ViewLayout, pixels_per_point: f32) -> Mesh {
    // No discs from the font's picture: it may be laid out again.
    let mut tessellator =
        Tessellator::new(pixels_per_point, TessellationOptions::default(), [1, 1], Vec::new());
    tessellator.set_clip_rect(rect(layout.area));
    let mut mesh = Mesh::default();
    for shape in shapes {
        tessellator.tessellate_shape(shape, &mut mesh);
    }
    mesh
}
