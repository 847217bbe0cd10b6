//! Which way the nose is, left and up: small arrows with their words, beside the name of a view.

use glam::DVec2;

use super::view::View;
use super::{Anchor, Item, Shade, Stroke, text_width_mm};
use crate::model::AXES;

const ARROW_MM: f64 = 3.0;
/// The row is no higher than this, so that the arrow up is shorter.
const UPRIGHT_MM: f64 = 2.2;
const HEAD_MM: f64 = 0.9;
const GAP_MM: f64 = 1.0;

/// Along one line of words from `start` on, where they fit; with the width that they take.
pub(super) fn ways(start: DVec2, room: f64, view: View, size_mm: f64) -> (Vec<Item>, f64) {
    let [right, up] = view.axes().map(|axis| AXES[axis]);
    let wide = |text: &str| text_width_mm(text, size_mm);
    let second = start.x + ARROW_MM + GAP_MM + wide(right) + 2.0 * GAP_MM + HEAD_MM;
    let width = second + GAP_MM + wide(up) - start.x;
    if width > room {
        return (Vec::new(), 0.0);
    }
    let level = start - DVec2::new(0.0, size_mm * 0.35);
    let word =
        |x: f64, text: &str| Item::soft(DVec2::new(x, start.y), text, size_mm, Anchor::Start);
    let mut items = arrow(level, DVec2::X, ARROW_MM);
    items.push(word(start.x + ARROW_MM + GAP_MM, right));
    items.extend(arrow(DVec2::new(second, start.y), DVec2::NEG_Y, UPRIGHT_MM));
    items.push(word(second + GAP_MM, up));
    (items, width)
}

fn arrow(from: DVec2, way: DVec2, length_mm: f64) -> Vec<Item> {
    let tip = from + length_mm * way;
    let (back, aside) = (tip - HEAD_MM * way, 0.4 * HEAD_MM * way.perp());
    let line = Item::line(vec![from, back], Stroke::obstacle(Shade::Soft, 0.2));
    vec![line, Item::shape(vec![tip, back + aside, back - aside], Some(Shade::Soft), None)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn they_stay_within_their_room_or_are_left_out() {
        let start = DVec2::new(4.0, 10.0);
        for view in View::ALL {
            let (items, width) = ways(start, 60.0, view, 2.5);
            assert_eq!(items.len(), 6, "{view:?}");
            for item in &items {
                let bounds = item.bounds();
                assert!(bounds.min.x >= start.x - 0.2 && bounds.max.x <= start.x + width + 0.2);
                assert!(bounds.min.y > start.y - 3.0, "below the frame above: {bounds:?}");
            }
            assert_eq!(ways(start, width - 0.1, view, 2.5), (Vec::new(), 0.0));
        }
    }
}
