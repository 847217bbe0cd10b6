//! The clock angle between two elbows as a dial, seen from A.

use glam::DVec2;

use super::{Anchor, Drawing, Item, Shade, Stroke};

const SIDE_MM: f64 = 31.0;
const RADIUS_MM: f64 = 10.8;
const LETTERS_APART_DEG: f64 = 24.0;

/// A at 6 o'clock, B `clock_deg` counter-clockwise from it as seen from A (MIL-DTL-83796/5).
pub(crate) fn dial(clock_deg: f64, words: &str) -> Drawing {
    let middle = DVec2::splat(SIDE_MM / 2.0);
    // 0° is straight down; counter-clockwise on paper, where y goes down.
    let towards = |deg: f64| {
        let (sin, cos) = deg.to_radians().sin_cos();
        DVec2::new(sin, cos)
    };
    let thin = Stroke::obstacle(Shade::Soft, 0.25);
    let mut items = vec![Item::Circle {
        at: middle,
        radius_mm: RADIUS_MM,
        fill: Some(Shade::Paper),
        stroke: Some(Stroke::obstacle(Shade::Ink, 0.35)),
    }];
    let ticks = (0..12).map(|hour| {
        let out = towards(f64::from(hour) * 30.0);
        let length = if hour % 3 == 0 { 2.0 } else { 1.2 };
        vec![middle + out * (RADIUS_MM - length), middle + out * RADIUS_MM]
    });
    items.push(Item::Path {
        lines: ticks.collect(),
        is_closed: false,
        fill: None,
        stroke: Some(thin),
    });
    items.extend(turn(middle, clock_deg, towards));
    // Nearer to each other than this their letters would touch: they are then spread around both.
    let apart = if clock_deg > 180.0 { clock_deg - 360.0 } else { clock_deg };
    let spread = (LETTERS_APART_DEG - apart.abs()).max(0.0) / 2.0;
    let (to_a, to_b) = if apart < 0.0 { (spread, -spread) } else { (-spread, spread) };
    items.extend(hand(middle, towards(0.0), towards(to_a), "A", Shade::Ink));
    items.extend(hand(middle, towards(clock_deg), towards(clock_deg + to_b), "B", Shade::Paper));
    items.push(Item::Circle { at: middle, radius_mm: 1.4, fill: Some(Shade::Ink), stroke: None });
    Drawing { title: words.to_owned(), width_mm: SIDE_MM, height_mm: SIDE_MM, items }
}

/// An arrow from A round to B.
fn turn(middle: DVec2, clock_deg: f64, towards: impl Fn(f64) -> DVec2) -> Vec<Item> {
    const OUT_MM: f64 = 5.4;
    const HEAD_MM: f64 = 1.6;
    let end = clock_deg - 8.0;
    if end < 6.0 {
        return Vec::new();
    }
    let count = (end / 4.0).ceil();
    let points: Vec<DVec2> =
        (0..=count as u32).map(|k| middle + towards(end * f64::from(k) / count) * OUT_MM).collect();
    let (out, tip) = (towards(end), middle + towards(end) * OUT_MM);
    // Counter-clockwise on paper.
    let along = DVec2::new(out.y, -out.x);
    let head = vec![tip + along * HEAD_MM, tip + out * HEAD_MM * 0.6, tip - out * HEAD_MM * 0.6];
    vec![
        Item::line(points, Stroke::obstacle(Shade::Accent, 0.4)),
        Item::shape(head, Some(Shade::Accent), None),
    ]
}

fn hand(middle: DVec2, out: DVec2, letter_out: DVec2, letter: &str, fill: Shade) -> Vec<Item> {
    const LETTER_MM: f64 = 4.0;
    let tip = middle + out * (RADIUS_MM - 2.2);
    let letter_at = middle + letter_out * (RADIUS_MM + 2.8) + DVec2::new(0.0, 0.36 * LETTER_MM);
    vec![
        Item::line(vec![middle, tip], Stroke::obstacle(Shade::Ink, 0.9)),
        Item::Circle {
            at: tip,
            radius_mm: 1.7,
            fill: Some(fill),
            stroke: Some(Stroke::obstacle(Shade::Ink, 0.5)),
        },
        Item::bold(letter_at, letter, LETTER_MM, Anchor::Middle),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn letter(drawing: &Drawing, wanted: &str) -> DVec2 {
        let found = drawing.items.iter().find_map(|item| match item {
            Item::Text { at, text, .. } if text == wanted => Some(*at),
            _ => None,
        });
        found.unwrap()
    }

    #[test]
    fn a_is_at_six_and_b_counter_clockwise_from_it() {
        let quarter = dial(90.0, "");
        let (a, b) = (letter(&quarter, "A"), letter(&quarter, "B"));
        assert!(a.y > SIDE_MM / 2.0 && (a.x - SIDE_MM / 2.0).abs() < 1e-9);
        // Counter-clockwise from 6 comes 3 o'clock: to the right.
        assert!(b.x > SIDE_MM / 2.0 + RADIUS_MM);
        let three_quarters = dial(270.0, "");
        assert!(letter(&three_quarters, "B").x < SIDE_MM / 2.0 - RADIUS_MM);
    }
}
