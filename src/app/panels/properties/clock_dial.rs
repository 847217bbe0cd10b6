//! The clock angle of an elbow, set on a dial: the port as one looks at it, the elbow's way as the hand.

use eframe::egui::{
    Align2, CursorIcon, Label, Modifiers, Role, Sense, Stroke, Ui, Vec2, WidgetInfo, vec2,
};
use glam::DVec3;

use crate::app::panels::{clock_face, soft};
use crate::app::theme::{self, size};
use crate::report::sheet::{direction_in_words, on_the_clock};

const RADIUS: f32 = 34.0;
/// Room round the dial for its words, points.
const ROUND: f32 = 18.0;
/// What the hand snaps to, degrees; finely while Shift is held.
const STEP_DEG: f64 = 5.0;
const FINE_DEG: f64 = 1.0;

/// What the dial shows.
pub(super) struct ClockDial<'a> {
    /// For who does not see where it stands.
    pub(super) name: &'a str,
    pub(super) deg: f64,
    /// What stands at 12 o'clock.
    pub(super) top: &'static str,
    /// The way the hose leaves, where it is known.
    pub(super) leaves: Option<DVec3>,
}

impl ClockDial<'_> {
    /// Shows it; tells the angle that it was set to.
    pub(super) fn show(&self, ui: &mut Ui) -> Option<f64> {
        let colours = theme::palette(ui);
        let side = 2.0 * (RADIUS + ROUND);
        let mut set = None;
        ui.horizontal(|ui| {
            let (rect, response) =
                ui.allocate_exact_size(vec2(side, side), Sense::click_and_drag());
            response.widget_info(|| WidgetInfo::labeled(Role::Slider, true, self.name));
            let middle = rect.center();
            let under = response.interact_pointer_pos().map(|at| {
                let fine = ui.input(|input| input.modifiers.matches_logically(Modifiers::SHIFT));
                snapped(at - middle, if fine { FINE_DEG } else { STEP_DEG })
            });
            let pulled =
                under.filter(|_| response.is_pointer_button_down_on() || response.drag_stopped());
            if response.clicked() || response.drag_stopped() {
                set = pulled.or(under);
            }
            let shown = pulled.unwrap_or(self.deg);
            self.paint(ui, middle, shown);
            let tip = "Press where the elbow is to turn to, as you look at the port; Shift: by 1°";
            response.on_hover_cursor(CursorIcon::PointingHand).on_hover_text(tip);
            let hour = on_the_clock(shown - 180.0);
            let leaves = self.leaves.filter(|_| pulled.is_none());
            let leaves = leaves.map_or_else(String::new, |way| {
                format!("\nThe hose leaves {}", direction_in_words(way))
            });
            let words = format!("Looking at the port: {hour}, 12 o’clock is {}{leaves}", self.top);
            ui.add(Label::new(soft(words, colours)).wrap());
        });
        set.filter(|set| (set - self.deg.rem_euclid(360.0)).abs() > 1e-9)
    }

    fn paint(&self, ui: &Ui, middle: eframe::egui::Pos2, deg: f64) {
        let colours = theme::palette(ui);
        let painter = ui.painter();
        clock_face::paint(painter, middle, RADIUS, colours);
        let top = middle - vec2(0.0, RADIUS + 8.0);
        painter.text(top, Align2::CENTER_CENTER, self.top, theme::font(size::SMALL), colours.soft);
        // The port, and the elbow from its middle.
        painter.circle(middle, 7.0, colours.paper, Stroke::new(1.5, colours.ink));
        let tip = middle + clock_face::hand(deg) * (RADIUS - 6.0);
        painter.line_segment([middle, tip], Stroke::new(4.0, colours.accent));
        painter.circle_filled(tip, 4.5, colours.accent);
    }
}

/// The angle of a place about the middle, to the nearest step.
fn snapped(from_middle: Vec2, step_deg: f64) -> f64 {
    let deg = f64::from(-from_middle.x).atan2(f64::from(-from_middle.y)).to_degrees();
    ((deg / step_deg).round() * step_deg).rem_euclid(360.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hand_comes_to_where_it_is_pulled() {
        for deg in [0.0, 35.0, 90.0, 185.0, 355.0] {
            assert!((snapped(clock_face::hand(deg) * 20.0, 5.0) - deg).abs() < 1e-9, "{deg}");
        }
        assert!((snapped(vec2(-0.02, -1.0), 1.0) - 1.0).abs() < 1e-9);
    }
}
