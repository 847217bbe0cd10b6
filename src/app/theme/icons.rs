//! Little shapes that stand beside the words: a square for what fails, a triangle for what wants
//! looking at, a ring for what is well or only good to know.

use eframe::egui::{Painter, Pos2, Response, Sense, Shape, Stroke, Ui, pos2, vec2};

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
    /// Ring.
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

/// Paints the shape of a state, `radius` from its middle to its edge.
pub fn paint(painter: &Painter, at: Pos2, radius: f32, state: State, colours: &Palette) {
    let colour = state.colour(colours);
    match state {
        State::Fail => {
            let square = eframe::egui::Rect::from_center_size(at, vec2(1.8, 1.8) * radius);
            painter.rect_filled(square, 0.0, colour);
        }
        State::Warn => {
            painter.add(Shape::convex_polygon(triangle(at, radius), colour, Stroke::NONE));
        }
        State::Note | State::Holds => {
            let width = if state == State::Holds { 2.0 } else { 1.5 };
            painter.circle_stroke(at, radius * 0.85, Stroke::new(width, colour));
        }
    }
}

/// A triangle that stands on its base, about `at`.
pub fn triangle(at: Pos2, radius: f32) -> Vec<Pos2> {
    vec![
        pos2(at.x, at.y - radius * 1.1),
        pos2(at.x + radius * 1.15, at.y + radius * 0.9),
        pos2(at.x - radius * 1.15, at.y + radius * 0.9),
    ]
}

/// The shape of a state as a widget in a row of text.
pub fn show(ui: &mut Ui, state: State, colours: &Palette) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(12.0, 14.0), Sense::hover());
    paint(ui.painter(), rect.center(), 4.5, state, colours);
    response
}
