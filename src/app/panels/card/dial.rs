//! The clock angle between two elbows as a dial: seen from A along the hose, A's elbow down at 6 o'clock,
//! B's so far counter-clockwise from it (MIL-DTL-83796/5), as it is set on the bench.

use eframe::egui::{Align2, Role, Sense, Stroke, Ui, Vec2, WidgetInfo, vec2};

use crate::app::panels::clock_face;
use crate::app::theme::{self, size};
use crate::units::Angle;

/// Side of the dial, points.
const SIDE: f32 = 64.0;
const RADIUS: f32 = 20.0;

pub(super) fn dial(ui: &mut Ui, clock_deg: f64) {
    let colours = theme::palette(ui);
    ui.vertical_centered(|ui| {
        let (rect, response) = ui.allocate_exact_size(vec2(SIDE + 30.0, SIDE), Sense::hover());
        let angle = Angle::from_deg(clock_deg).show();
        let said = format!(
            "Seen from A along the hose, A's elbow down at 6 o'clock: B's elbow is {angle} \
             counter-clockwise from it"
        );
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &said));
        response.on_hover_text(&said);
        let (painter, middle) = (ui.painter(), rect.center());
        clock_face::paint(painter, middle, RADIUS, colours);
        let hands = [("A", 0.0, colours.ink), ("B", clock_deg, colours.accent)];
        for ((letter, deg, ink), spread) in hands.into_iter().zip(spread(clock_deg)) {
            let tip = middle + towards(deg) * (RADIUS - 5.0);
            painter.line_segment([middle, tip], Stroke::new(2.5, ink));
            painter.circle_filled(tip, 3.5, ink);
            let at = middle + towards(deg + spread) * (RADIUS + 8.0);
            painter.text(at, Align2::CENTER_CENTER, letter, theme::font(size::SMALL), ink);
        }
        painter.circle_filled(middle, 2.0, colours.ink);
    });
}

/// From 6 o'clock counter-clockwise.
fn towards(deg: f64) -> Vec2 {
    clock_face::hand(deg - 180.0)
}

/// How far the letters stand aside, so that they do not touch where the hands nearly do.
fn spread(clock_deg: f64) -> [f64; 2] {
    let apart = if clock_deg > 180.0 { clock_deg - 360.0 } else { clock_deg };
    let aside = (40.0 - apart.abs()).max(0.0) / 2.0;
    if apart < 0.0 { [aside, -aside] } else { [-aside, aside] }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quarter_counter_clockwise_from_six_is_three_o_clock() {
        assert!((towards(0.0) - vec2(0.0, 1.0)).length() < 1e-6);
        assert!((towards(90.0) - vec2(1.0, 0.0)).length() < 1e-6);
    }

    #[test]
    fn letters_never_touch() {
        for clock in [0.0, 10.0, 90.0, 180.0, 270.0, 350.0, 359.9] {
            let [a, b] = spread(clock);
            let apart = (clock + b - a).rem_euclid(360.0);
            assert!(apart.min(360.0 - apart) >= 40.0 - 1e-9, "{clock}");
        }
    }
}
