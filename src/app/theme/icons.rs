//! Little shapes that stand beside the words: a square for a fault, a triangle for a warning, a ring for a
//! note, a tick for all clear.

use eframe::egui::{Painter, Pos2, Response, Sense, Shape, Stroke, Ui, vec2};

use super::Palette;
use crate::checks::Severity;

/// A state of a hose or a finding, worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// Square.
    Fail,
    /// Triangle.
    Warn,
    /// Small ring.
    Note,
    /// Tick.
    Holds,
}

impl From<Severity> for State {
    fn from(severity: Severity) -> Self {
        match severity {
            Severity::Fail => Self::Fail,
            Severity::Warn => Self::Warn,
            Severity::Note => Self::Note,
        }
    }
}

impl State {
    /// Its colour.
    pub fn colour(self, colours: &Palette) -> eframe::egui::Color32 {
        match self {
            Self::Fail => colours.fail,
            Self::Warn => colours.warn,
            Self::Note | Self::Holds => colours.soft,
        }
    }
}

/// The corners of a state's shape about its middle, Y down, where it is filled.
pub fn corners(state: State, radius: f64) -> Option<Vec<[f64; 2]>> {
    let corners: &[[f64; 2]] = match state {
        State::Fail => &[[-0.9, -0.9], [0.9, -0.9], [0.9, 0.9], [-0.9, 0.9]],
        State::Warn => &[[0.0, -1.1], [1.15, 0.9], [-1.15, 0.9]],
        State::Note | State::Holds => return None,
    };
    Some(corners.iter().map(|[x, y]| [x * radius, y * radius]).collect())
}

/// Paints the shape of a state, `radius` from its middle to its edge.
pub fn paint(painter: &Painter, at: Pos2, radius: f32, state: State, colours: &Palette) {
    let colour = state.colour(colours);
    match state {
        State::Fail | State::Warn => {
            let corners = corners(state, f64::from(radius)).unwrap_or_default();
            let path = corners.iter().map(|[x, y]| at + vec2(*x as f32, *y as f32)).collect();
            painter.add(Shape::convex_polygon(path, colour, Stroke::NONE));
        }
        State::Note => {
            painter.circle_stroke(at, radius * 0.85, Stroke::new(1.5, colour));
        }
        State::Holds => {
            let tick = [vec2(-1.0, 0.1), vec2(-0.3, 0.8), vec2(1.0, -0.8)];
            let path = tick.map(|corner| at + radius * corner).to_vec();
            painter.add(Shape::line(path, Stroke::new(2.0, colour)));
        }
    }
}

/// The shape of a state as a widget in a row of text.
pub fn show(ui: &mut Ui, state: State, colours: &Palette) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(12.0, 14.0), Sense::hover());
    paint(ui.painter(), rect.center(), 4.5, state, colours);
    response
}
