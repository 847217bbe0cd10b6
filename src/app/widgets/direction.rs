//! A direction: along an axis by a button, or any by its three parts.

use eframe::egui::{Button, vec2};
use glam::DVec3;

use super::figure::Range;
use super::form::{Field, Form};
use crate::units::Measure;

const WAYS: [(&str, &str, DVec3); 6] = [
    ("+X", "forward", DVec3::X),
    ("\u{2212}X", "back", DVec3::NEG_X),
    ("+Y", "to the left", DVec3::Y),
    ("\u{2212}Y", "to the right", DVec3::NEG_Y),
    ("+Z", "up", DVec3::Z),
    ("\u{2212}Z", "down", DVec3::NEG_Z),
];

/// Directions closer than this are one.
const SAME: f64 = 1e-9;

impl Form<'_> {
    /// Buttons for the axes, and the parts of the vector below; its length does not matter.
    pub(in crate::app) fn direction(&mut self, field: &Field<'_>, mut values: Vec<&mut DVec3>) {
        let points = |way: DVec3, value: &DVec3| {
            value.try_normalize().is_some_and(|unit| unit.distance(way) < SAME)
        };
        let mut pressed = None;
        self.caption(field, "");
        self.whole(|ui| {
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                ui.spacing_mut().button_padding.x = 2.0;
                let width = (ui.available_width() - 20.0) / 6.0;
                for (text, meaning, way) in WAYS {
                    let is = values.iter().all(|value| points(way, value));
                    let button = Button::selectable(is, text).min_size(vec2(width, 0.0));
                    let response = ui.add(button).on_hover_text(format!("Points {meaning}"));
                    let response = response.accessible_name(format!("{} {text}", field.name()));
                    if response.clicked() && !is {
                        pressed = Some(way);
                    }
                }
            });
        });
        if let Some(way) = pressed {
            for value in &mut values {
                **value = way;
            }
            let id = self.id_of(field).with("buttons");
            self.note(field.change, id, None, String::new());
        }
        self.triple(&field.without_label(), Measure::Number, Range::Any, values);
    }
}
