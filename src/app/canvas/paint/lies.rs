//! How hoses really lie: the chosen one at its thickness, the others as a line; and, in motion, where
//! they come to lie and what they sweep.

use eframe::egui::{Color32, Mesh, Painter, Shape, Stroke};
use glam::DVec2;

use super::super::layout::{LieLine, ViewLayout};
use super::super::moving::Posed;
use super::ribbon::{Profile, ribbon};
use super::{Emphasis, at};
use crate::app::theme::Palette;

/// Under the drawn hoses.
pub(super) fn lies(
    painter: &Painter,
    layout: &ViewLayout,
    chosen: Option<usize>,
    emphasis: Emphasis<'_>,
    colours: &Palette,
) {
    let pixel = f64::from(painter.pixels_per_point()).recip();
    for lie in &layout.lies {
        let is_chosen = Some(lie.hose) == chosen;
        if let Some(posed) = emphasis.posed.filter(|_| !lie.poses.is_empty()) {
            sweep(painter, lie, is_chosen, colours);
            tube(painter, &lie.in_pose(posed), lie.half, colours, pixel);
        } else if emphasis.lies && is_chosen {
            tube(painter, &lie.points, lie.half, colours, pixel);
        } else if emphasis.lies {
            let path = lie.points.iter().map(|p| at(*p)).collect();
            painter.add(Shape::line(path, Stroke::new(1.25, colours.lie.gamma_multiply(0.75))));
        }
    }
}

/// Both sides of the hose, faintly filled: what is behind stays to be seen.
fn tube(painter: &Painter, points: &[DVec2], half: f64, colours: &Palette, pixel: f64) {
    let half = half.max(1.5);
    let edge = 0.6;
    let faint = colours.lie.gamma_multiply(0.16);
    let layers = [((half - edge).max(0.5), faint), (half + edge, colours.lie)];
    let mut mesh = Mesh::default();
    ribbon(&mut mesh, points, &Profile::layered(&layers, pixel));
    painter.add(Shape::mesh(mesh));
}

/// The hose in every pose, as lines.
fn sweep(painter: &Painter, lie: &LieLine, is_chosen: bool, colours: &Palette) {
    let ink: Color32 = colours.lie.gamma_multiply(if is_chosen { 0.55 } else { 0.3 });
    for pose in &lie.poses {
        painter.add(Shape::line(pose.iter().map(|p| at(*p)).collect(), Stroke::new(1.0, ink)));
    }
}

impl LieLine {
    /// Part of the way from the neutral pose to another. Between the two it is drawn on straight ways;
    /// what is said of a pose is said of its end.
    fn in_pose(&self, posed: Posed) -> Vec<DVec2> {
        let Some(there) = self.poses.get(posed.pose) else { return self.points.clone() };
        let count = self.points.len().min(there.len());
        let pairs = self.points.iter().zip(there).take(count);
        pairs.map(|(from, to)| from.lerp(*to, posed.share)).collect()
    }
}
