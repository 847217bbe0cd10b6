//! Where the three views stand on the paper: at one scale, with shared axes in line.

use glam::{DVec2, DVec3};

use super::Rect;
use super::view::View;

/// One view's place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Panel {
    pub(super) view: View,
    /// On paper.
    pub(super) rect: Rect,
    /// The bay's place at the left and bottom of the panel, across and up.
    origin: DVec2,
    scale: f64,
}

impl Panel {
    /// A point in the bay on paper.
    pub(super) fn on_paper(&self, p: DVec3) -> DVec2 {
        let flat = (self.view.flat(p) - self.origin) * self.scale;
        DVec2::new(self.rect.min.x + flat.x, self.rect.max.y - flat.y)
    }

    /// A direction in the bay on paper, not of unit length.
    pub(super) fn direction_on_paper(&self, d: DVec3) -> DVec2 {
        let flat = self.view.flat(d);
        DVec2::new(flat.x, -flat.y)
    }
}

/// The panels and their common scale, paper mm in a bay mm.
pub(super) struct Layout {
    pub(super) panels: [Panel; 3],
    pub(super) scale: f64,
    pub(super) size: DVec2,
}

/// Between the panels, mm on paper.
const GAP_MM: f64 = 2.0;
/// Above each panel, for its name, mm on paper.
const CAPTION_MM: f64 = 3.6;
/// How much better a row has to be than the drafting places to be taken.
const ROW_GAIN: f64 = 1.2;
/// How far the X range may be widened to fill the paper.
const WIDEN: f64 = 1.5;

impl Layout {
    /// Places the views of the box from `min` to `max` (bay mm) on paper of at most `room`: in
    /// their drafting places (ISO 128, third angle: plan above side, front beside side), or in a
    /// row where that shows a tall bay much larger.
    pub(super) fn of(min: DVec3, max: DVec3, room: DVec2) -> Self {
        let span = max - min;
        let drafted = ((room.x - GAP_MM) / (span.x + span.y))
            .min((room.y - GAP_MM - 2.0 * CAPTION_MM) / (span.y + span.z));
        let in_row = ((room.x - 2.0 * GAP_MM) / (2.0 * span.x + span.y))
            .min((room.y - CAPTION_MM) / span.y.max(span.z));
        if in_row > ROW_GAIN * drafted {
            Self::row(min, max, room, in_row)
        } else {
            Self::drafted(min, max, room, drafted)
        }
    }

    fn drafted(min: DVec3, max: DVec3, room: DVec2, scale: f64) -> Self {
        let span = max - min;
        let x_span = ((room.x - GAP_MM) / scale - span.y).min(WIDEN * span.x).max(span.x);
        let min = DVec3::new(min.x - (x_span - span.x) / 2.0, min.y, min.z);
        let (x, y, z) = (x_span * scale, span.y * scale, span.z * scale);
        let below = y + GAP_MM + 2.0 * CAPTION_MM;
        let beside = x + GAP_MM;
        let panels = [
            panel(View::Plan, DVec2::new(0.0, CAPTION_MM), DVec2::new(x, y), min, scale),
            panel(View::Side, DVec2::new(0.0, below), DVec2::new(x, z), min, scale),
            panel(View::Front, DVec2::new(beside, below), DVec2::new(y, z), min, scale),
        ];
        Self { panels, scale, size: DVec2::new(beside + y, below + z) }
    }

    fn row(min: DVec3, max: DVec3, room: DVec2, scale: f64) -> Self {
        let span = max - min;
        let free = (room.x - 2.0 * GAP_MM) / scale - span.y;
        let x_span = (free / 2.0).min(WIDEN * span.x).max(span.x);
        let min = DVec3::new(min.x - (x_span - span.x) / 2.0, min.y, min.z);
        let (x, y, z) = (x_span * scale, span.y * scale, span.z * scale);
        let height = CAPTION_MM + y.max(z);
        let panels = [
            panel(View::Plan, DVec2::new(0.0, height - y), DVec2::new(x, y), min, scale),
            panel(View::Side, DVec2::new(x + GAP_MM, height - z), DVec2::new(x, z), min, scale),
            panel(
                View::Front,
                DVec2::new(2.0 * (x + GAP_MM), height - z),
                DVec2::new(y, z),
                min,
                scale,
            ),
        ];
        Self { panels, scale, size: DVec2::new(2.0 * (x + GAP_MM) + y, height) }
    }
}

impl Layout {
    /// The view with the most room beside its name.
    pub(super) fn widest(&self) -> View {
        let wide = |panel: &&Panel| panel.rect.size().x;
        let widest = self.panels.iter().max_by(|a, b| wide(a).total_cmp(&wide(b)));
        widest.map_or(View::Plan, |panel| panel.view)
    }
}

fn panel(view: View, at: DVec2, size: DVec2, min: DVec3, scale: f64) -> Panel {
    Panel { view, rect: Rect::from_size(at, size), origin: view.flat(min), scale }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fits(min: DVec3, max: DVec3) -> Layout {
        let room = DVec2::new(186.0, 74.0);
        let layout = Layout::of(min, max, room);
        assert!(layout.size.cmple(room + 1e-9).all(), "{}", layout.size);
        for panel in &layout.panels {
            for corner in [min, max, DVec3::new(min.x, max.y, min.z)] {
                assert!(panel.rect.grown(1e-9).contains(panel.on_paper(corner)));
            }
        }
        layout
    }

    #[test]
    fn shared_axes_are_in_line() {
        let layout = fits(DVec3::ZERO, DVec3::new(1200.0, 300.0, 300.0));
        let [plan, side, front] = &layout.panels;
        let point = DVec3::new(700.0, 120.0, 40.0);
        assert!((plan.on_paper(point).x - side.on_paper(point).x).abs() < 1e-9);
        assert!((side.on_paper(point).y - front.on_paper(point).y).abs() < 1e-9);
        assert!(plan.rect.max.y < side.rect.min.y && side.rect.max.x < front.rect.min.x);
    }

    #[test]
    fn a_tall_bay_stands_in_a_row() {
        let layout = fits(DVec3::splat(-100.0), DVec3::new(200.0, 200.0, 500.0));
        let [plan, side, front] = &layout.panels;
        assert!(plan.rect.max.x < side.rect.min.x && side.rect.max.x < front.rect.min.x);
        let point = DVec3::new(10.0, 20.0, 30.0);
        assert!((side.on_paper(point).y - front.on_paper(point).y).abs() < 1e-9);
    }
}
