//! The installed shapes: the selected one at its thickness, the others as a line; and, in motion, where
//! they come to lie and what they sweep.

use std::sync::Arc;

use eframe::egui::{Color32, Mesh, Painter, Shape, Stroke};
use glam::DVec2;

use super::super::layout::{InstalledLine, ViewLayout, simpler};
use super::super::moving::Positioned;
use super::Emphasis;
use super::fill::fill;
use super::heaps::{Heaps, Piece};
use super::ribbon::{Profile, ribbon};
use crate::app::theme::Palette;

/// Half the thickness of an installed shape's line, points.
const LINE: f64 = 0.625;

/// Lies that have been painted, and what hoses sweep.
#[derive(Debug, Clone, Default)]
pub(super) struct InstalledPaint {
    lines: Vec<(Arc<InstalledLine>, Arc<Mesh>)>,
    /// All lines but that of the selected hose, which is this one.
    others: Option<(Option<usize>, Heaps)>,
    swept: Vec<(Arc<InstalledLine>, bool, Arc<Mesh>)>,
}

impl InstalledPaint {
    /// Under the drawn hoses.
    pub(super) fn paint(
        &mut self,
        painter: &Painter,
        layout: &ViewLayout,
        selected: Option<usize>,
        emphasis: Emphasis<'_>,
        colours: &Palette,
    ) {
        let pixel = f64::from(painter.pixels_per_point()).recip();
        // Beside a selected hose those of the others would be one line too many each.
        if emphasis.installed && emphasis.positioned.is_none() && selected.is_none() {
            let clip = painter.clip_rect();
            let heaps = self.lines(layout, selected, colours, pixel);
            for heap in heaps.filter(|heap| heap.about.intersects(clip)) {
                painter.add(Shape::mesh(Arc::clone(&heap.mesh)));
            }
        }
        if emphasis.positioned.is_some() {
            self.sweep(layout, selected, colours);
            for (_, _, mesh) in &self.swept {
                painter.add(Shape::mesh(Arc::clone(mesh)));
            }
        }
        for installed in &layout.installed {
            if let Some(positioned) =
                emphasis.positioned.filter(|_| !installed.positions.is_empty())
            {
                tube(painter, &installed.in_position(positioned), installed.half, colours, pixel);
            } else if emphasis.installed && Some(installed.hose) == selected {
                tube(painter, &installed.points, installed.half, colours, pixel);
            } else if emphasis.installed && emphasis.positioned.is_some() {
                painter.add(Shape::mesh(line(installed, colours, pixel)));
            }
        }
    }

    /// The lines of all but the selected hose.
    fn lines(
        &mut self,
        layout: &ViewLayout,
        selected: Option<usize>,
        colours: &Palette,
        pixel: f64,
    ) -> impl Iterator<Item = &Piece> {
        let is_same = self.lines.len() == layout.installed.len()
            && self.lines.iter().zip(&layout.installed).all(|((a, _), b)| Arc::ptr_eq(a, b));
        let (of, mut heaps) = self.others.take().unwrap_or_default();
        if !is_same {
            let old = std::mem::take(&mut self.lines);
            let painted = |(place, installed): (usize, &Arc<InstalledLine>)| {
                let known = old.get(place).filter(|(before, _)| Arc::ptr_eq(before, installed));
                let painted = || (Arc::clone(installed), Arc::new(line(installed, colours, pixel)));
                known.cloned().unwrap_or_else(painted)
            };
            self.lines = layout.installed.iter().enumerate().map(painted).collect();
        }
        if !is_same || of != selected {
            let others =
                self.lines.iter().filter(|(installed, _)| Some(installed.hose) != selected);
            heaps.heap_up(&others.map(|(_, mesh)| mesh).collect::<Vec<_>>());
        }
        self.others.insert((selected, heaps)).1.wholes()
    }

    /// What each hose sweeps.
    fn sweep(&mut self, layout: &ViewLayout, selected: Option<usize>, colours: &Palette) {
        let old = std::mem::take(&mut self.swept);
        let moved = layout.installed.iter().filter(|installed| !installed.positions.is_empty());
        let painted = moved.map(|installed| {
            let is_selected = Some(installed.hose) == selected;
            let is_known = |(before, was_selected, _): &&(Arc<InstalledLine>, bool, Arc<Mesh>)| {
                Arc::ptr_eq(before, installed) && *was_selected == is_selected
            };
            old.iter().find(is_known).cloned().unwrap_or_else(|| {
                let ink: Color32 =
                    colours.installed.gamma_multiply(if is_selected { 0.22 } else { 0.1 });
                (Arc::clone(installed), is_selected, Arc::new(fill(&installed.swept(), ink)))
            })
        });
        self.swept = painted.collect();
    }
}

fn line(installed: &InstalledLine, colours: &Palette, pixel: f64) -> Mesh {
    let mut mesh = Mesh::default();
    let points = simpler(installed.points.iter().copied());
    ribbon(
        &mut mesh,
        &points,
        &Profile::plain(LINE, colours.installed.gamma_multiply(0.75), pixel),
    );
    mesh
}

/// Both sides of the hose, faintly filled: what is behind stays to be seen.
fn tube(painter: &Painter, points: &[DVec2], half: f64, colours: &Palette, pixel: f64) {
    let half = half.max(1.5);
    let edge = 0.6;
    let faint = colours.installed.gamma_multiply(0.16);
    let layers = [((half - edge).max(0.5), faint), (half + edge, colours.installed)];
    let mut mesh = Mesh::default();
    let points = simpler(points.iter().copied());
    ribbon(&mut mesh, &points, &Profile::layered(&layers, pixel));
    painter.add(Shape::mesh(mesh));
}

/// The outlines of the obstacles that move, where a position has them.
pub(super) fn moved_obstacles(painter: &Painter, outlines: &[Vec<DVec2>], colours: &Palette) {
    for outline in outlines {
        let stroke = Stroke::new(1.25, colours.installed);
        painter.extend(super::dashed(outline, stroke, 6.0, 3.0));
    }
}

impl InstalledLine {
    /// Part of the way from the position as drawn to another. Between the two it is drawn on straight ways;
    /// what is said of a position is said of its end.
    fn in_position(&self, positioned: Positioned) -> Vec<DVec2> {
        let Some(there) = self.positions.get(positioned.position) else {
            return self.points.clone();
        };
        let count = self.points.len().min(there.len());
        let pairs = self.points.iter().zip(there).take(count);
        pairs.map(|(from, to)| from.lerp(*to, positioned.share)).collect()
    }
}
