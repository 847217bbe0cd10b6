//! The face of a clock, for angles that are set and told by the hour.

use eframe::egui::{Painter, Pos2, Stroke, Vec2, vec2};

use crate::app::theme::Palette;

/// A circle with its hours, the quarters longer.
pub(super) fn paint(painter: &Painter, middle: Pos2, radius: f32, colours: &Palette) {
    painter.circle(middle, radius, colours.sheet, Stroke::new(1.0, colours.ink));
    for hour in 0..12 {
        let out = hand(f64::from(hour) * 30.0);
        let length = radius * if hour % 3 == 0 { 0.2 } else { 0.125 };
        let ends = [middle + out * (radius - length), middle + out * radius];
        painter.line_segment(ends, Stroke::new(1.0, colours.soft));
    }
}

/// Where a hand points so far counter-clockwise from 12 o'clock, degrees; on the screen y goes down.
pub(super) fn hand(deg: f64) -> Vec2 {
    let (sin, cos) = deg.to_radians().sin_cos();
    vec2(-sin as f32, -cos as f32)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hand_goes_counter_clockwise_from_twelve() {
        assert!((hand(0.0) - vec2(0.0, -1.0)).length() < 1e-6);
        assert!((hand(90.0) - vec2(-1.0, 0.0)).length() < 1e-6, "9 o'clock");
    }
}
