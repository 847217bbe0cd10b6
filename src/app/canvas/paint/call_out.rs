//! What a finding says, in a box beside its place.

use std::sync::Arc;

use eframe::egui::{
    Color32, CornerRadius, Galley, Painter, Pos2, Rect, Stroke, StrokeKind, Vec2, pos2, vec2,
};
use glam::DVec2;

use super::super::layout::{Marker, ViewLayout};
use super::super::scene::FindingMark;
use super::{at, rect};
use crate::app::theme::icons::{self, State};
use crate::app::theme::{self, Palette, size};

/// A box with its text, placed.
pub(in super::super) struct CallOut {
    /// Where it stands.
    pub(super) frame: Rect,
    /// On which side of the place, and how far from it.
    pub(in super::super) side: usize,
    from: Pos2,
    state: State,
    colour: Color32,
    said: Arc<Galley>,
    limit: Arc<Galley>,
}

const WIDTH: f32 = 250.0;
const PAD: Vec2 = vec2(10.0, 7.0);

impl CallOut {
    /// Places it inside the view, on this `side` of its place or on the one that covers least.
    pub(in super::super) fn new(
        painter: &Painter,
        layout: &ViewLayout,
        marker: &Marker,
        finding: &FindingMark,
        side: Option<usize>,
        colours: &Palette,
    ) -> Self {
        let state = State::from(finding.severity);
        let colour = state.colour(colours);
        let said = painter.layout(finding.said.clone(), theme::font(size::BODY), colour, WIDTH);
        // The word beside the shape: colour alone says nothing.
        let mut below = crate::app::words::heading(finding.severity).to_owned();
        if !finding.limit.is_empty() {
            below = format!("{}; {}", finding.limit, below.to_lowercase());
        }
        let limit = painter.layout(below, theme::font(size::SMALL), colours.soft, WIDTH);
        let below = limit.size().y + 1.0;
        let text = vec2(said.size().x.max(limit.size().x), said.size().y + below);
        let from = at(marker.at);
        let (size, view) = (text + 2.0 * PAD, rect(layout.area).shrink(8.0));
        let side = side.unwrap_or_else(|| best_side(from, size, view, layout));
        let frame = beside(from, size, view, side);
        Self { frame, side, from, state, colour, said, limit }
    }

    /// Paints it over the drawing.
    pub(in super::super) fn paint(self, painter: &Painter, colours: &Palette) {
        let stroke = Stroke::new(1.25, self.colour);
        painter.line_segment([self.from, self.frame.clamp(self.from)], stroke);
        icons::paint(painter, self.from, 6.5, self.state, colours);
        let round = CornerRadius::same(4);
        painter.rect(self.frame, round, colours.sheet, stroke, StrokeKind::Middle);
        let place = self.frame.min + PAD;
        let below = place + vec2(0.0, self.said.size().y + 1.0);
        painter.galley(place, self.said, self.colour);
        painter.galley(below, self.limit, colours.soft);
    }
}

/// How far from the place, points.
const GAPS: [f32; 3] = [26.0, 60.0, 100.0];
/// The ways from the place.
const WAYS: [(f32, f32); 8] = [
    (0.0, 1.0),
    (0.0, -1.0),
    (1.0, 0.0),
    (-1.0, 0.0),
    (1.0, 1.0),
    (-1.0, 1.0),
    (1.0, -1.0),
    (-1.0, -1.0),
];

/// The box on one side of a point, held inside the view.
fn beside(point: Pos2, size: Vec2, view: Rect, side: usize) -> Rect {
    let gap = GAPS[side / WAYS.len() % GAPS.len()];
    let (x, y) = WAYS[side % WAYS.len()];
    let corner = point + vec2(x, y) * (size / 2.0 + Vec2::splat(gap)) - size / 2.0;
    let x = corner.x.min(view.max.x - size.x).max(view.min.x);
    let y = corner.y.min(view.max.y - size.y).max(view.min.y);
    Rect::from_min_size(pos2(x, y), size)
}

/// Of the sides of a point, the one that covers the fewest names, ports and hoses; a near one rather
/// than a far one.
fn best_side(point: Pos2, size: Vec2, view: Rect, layout: &ViewLayout) -> usize {
    let covered = |side: &usize| {
        let frame = beside(point, size, view, *side);
        let mut count = 0;
        for i in 0..=6_u8 {
            for j in 0..=2_u8 {
                let share = vec2(f32::from(i) / 6.0, f32::from(j) / 2.0);
                let p = frame.min + share * frame.size();
                let p = DVec2::new(f64::from(p.x), f64::from(p.y));
                count += u32::from(layout.hose_at(p).is_some());
            }
        }
        let ports = layout.ports.iter().filter(|port| frame.contains(at(port.at))).count() as u32;
        let hidden = layout.labels.iter().filter(|l| frame.intersects(rect(l.area)));
        let names: u32 = hidden.map(|label| if label.quiet { 3 } else { 8 }).sum();
        count + 4 * ports + names + 40 * u32::from(frame.contains(point))
    };
    (0..GAPS.len() * WAYS.len()).min_by_key(covered).unwrap_or(0)
}
