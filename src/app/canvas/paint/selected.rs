//! What is selected: a line of the accent about it, so that it reads without colour too.

use eframe::egui::{Color32, Painter, Shape, Stroke};
use glam::DVec2;

use super::super::Looking;
use super::super::layout::{ObstacleShape, ViewLayout};
use super::super::outline::Outline;
use super::super::scene::Scene;
use super::super::thing::Thing;
use super::{at, dashed};
use crate::app::theme::Palette;

pub(in super::super) fn selected(
    painter: &Painter,
    layout: &ViewLayout,
    looking: &Looking<'_>,
    colours: &Palette,
) {
    let (scene, stroke) = (looking.scene, Stroke::new(1.75, colours.accent));
    for thing in looking.selected {
        match thing {
            Thing::Port(id) => {
                for port in layout.ports.iter().filter(|p| scene.ports[p.index].id == *id) {
                    painter.circle_stroke(at(port.at), port.radius as f32 + 3.0, stroke);
                }
            }
            Thing::Obstacle(id) => {
                for obstacle in
                    layout.obstacles.iter().filter(|s| scene.obstacles[s.index].id == *id)
                {
                    obstacle_border(painter, obstacle, !looking.holds_fast(thing), stroke);
                }
            }
            Thing::Via { .. } => {
                for via in layout.vias.iter().filter(|via| via.thing == *thing) {
                    painter.circle_stroke(at(via.at), 9.5, stroke);
                }
            }
            Thing::Hose(run) => hose_border(painter, scene, layout, run, colours.accent),
            Thing::MovingGroup(_) => {}
        }
    }
}

/// With dots at its corners where it can be dragged.
fn obstacle_border(painter: &Painter, obstacle: &ObstacleShape, is_loose: bool, stroke: Stroke) {
    match &obstacle.outline {
        Outline::Convex(points) => {
            painter.add(Shape::closed_line(points.iter().map(|p| at(*p)).collect(), stroke));
            for corner in points.iter().filter(|_| is_loose && points.len() <= 8) {
                painter.circle_filled(at(*corner), 2.75, stroke.color);
            }
        }
        Outline::Shadow(shadow) => {
            let sides = shadow.border.iter();
            painter.extend(sides.map(|side| Shape::line_segment(side.map(at), stroke)));
        }
    }
}

/// A thin line on either side.
fn hose_border(painter: &Painter, scene: &Scene, layout: &ViewLayout, run: &str, ink: Color32) {
    let Some(hose) = scene.hoses.iter().position(|hose| hose.run == run) else { return };
    let stroke = Stroke::new(1.25, ink);
    for band in layout.bands.iter().filter(|band| band.hose == hose) {
        for side in [-1.0, 1.0] {
            let beside = offset(&band.points, side * (band.half + 3.0));
            painter.add(Shape::line(beside.iter().map(|p| at(*p)).collect(), stroke));
        }
    }
}

/// A line beside another.
fn offset(points: &[DVec2], by: f64) -> Vec<DVec2> {
    let last = points.len().saturating_sub(1);
    let normal = |i: usize| {
        let (a, b) = (points[i.saturating_sub(1)], points[(i + 1).min(last)]);
        (b - a).normalize_or_zero().perp()
    };
    points.iter().enumerate().map(|(i, point)| *point + by * normal(i)).collect()
}

/// A rectangle that selects, a dashed one that is drawn.
pub(super) fn frame(painter: &Painter, from: DVec2, to: DVec2, colours: &Palette) {
    let (lo, hi) = (from.min(to), from.max(to));
    let corners = [lo, DVec2::new(hi.x, lo.y), hi, DVec2::new(lo.x, hi.y)];
    let inside = corners.map(at).to_vec();
    painter.add(Shape::convex_polygon(
        inside,
        colours.accent_faint.gamma_multiply(0.35),
        Stroke::NONE,
    ));
    painter.extend(dashed(&corners, Stroke::new(1.25, colours.accent), 5.0, 4.0));
}
