//! The bar that a print is checked by.

use glam::DVec2;

use crate::drawing::{Dash, Item, Shade, Stroke};
use crate::units::LengthUnit;

/// 100 mm with a tick every 10 mm, or 4 in with a tick every quarter.
#[derive(Clone, Copy)]
pub(super) struct ScaleBar {
    ticks: u32,
    tick_mm: f64,
    /// Ticks from one long tick to the next, and from one of middling length.
    long: u32,
    middling: u32,
    pub(super) words: &'static str,
}

impl ScaleBar {
    pub(super) const fn of(unit: LengthUnit) -> Self {
        match unit {
            LengthUnit::Mm => {
                Self { ticks: 10, tick_mm: 10.0, long: 10, middling: 5, words: "100 mm" }
            }
            LengthUnit::Inch => {
                Self { ticks: 16, tick_mm: 25.4 / 4.0, long: 4, middling: 2, words: "4 in" }
            }
        }
    }

    pub(super) fn mm(self) -> f64 {
        f64::from(self.ticks) * self.tick_mm
    }

    /// Along a direction, its ticks to one side.
    pub(super) fn item(self, from: DVec2, along: DVec2, tick: DVec2) -> Item {
        let mut lines = vec![vec![from, from + along * self.mm()]];
        for k in 0..=self.ticks {
            let at = from + along * (f64::from(k) * self.tick_mm);
            let high = if k % self.long == 0 {
                3.0
            } else if k % self.middling == 0 {
                2.2
            } else {
                1.4
            };
            lines.push(vec![at, at + tick * high]);
        }
        let stroke = Stroke { shade: Shade::Ink, width_mm: 0.2, dash: Dash::Obstacle };
        Item::Path { lines, is_closed: false, fill: None, stroke: Some(stroke) }
    }
}
