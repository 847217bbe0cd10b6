//! What a cut length is made of, as a bar.

use glam::DVec2;

use super::{Drawing, Item, Rect, Shade, Stroke};

/// Centre line and slack in proportion, `width_mm` wide; a slack of nothing shows none.
pub(crate) fn length_bar(centreline_mm: f64, slack_mm: f64, width_mm: f64) -> Drawing {
    const HEIGHT_MM: f64 = 2.2;
    let whole = centreline_mm + slack_mm;
    let share = if whole > 0.0 { slack_mm / whole } else { 0.0 };
    let line = width_mm * (1.0 - share);
    let edge = Stroke::obstacle(Shade::HoseEdge, 0.2);
    let part = |from: f64, to: f64, fill: Shade| {
        let rect = Rect { min: DVec2::new(from, 0.0), max: DVec2::new(to, HEIGHT_MM) };
        Item::shape(rect.outline(), Some(fill), Some(edge))
    };
    let mut items = vec![part(0.0, line, Shade::Hose)];
    if share > 0.0 {
        items.push(part(line, width_mm, Shade::Accent));
    }
    Drawing {
        title: "Centre line and slack in proportion".to_owned(),
        width_mm,
        height_mm: HEIGHT_MM,
        items,
    }
}
