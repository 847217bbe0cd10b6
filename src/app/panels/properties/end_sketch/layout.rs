//! Where the parts of the sketch are: the tube between seat and cut end, and how large it is drawn.

use eframe::egui::{Pos2, Rect, Vec2, vec2};

use super::{EndShape, Point};

/// Parts beside the measured ones, in ODs of the hose: as a 37° swivel end usually looks.
pub(super) const PORT: f64 = 1.5;
pub(super) const HOSE: f64 = 1.1;
/// Lines at the seat and the cut end reach this far from the middle.
pub(super) const REACH: f64 = 0.98;

/// Room about the drawing for words and dimensions, points.
const LEFT: f32 = 14.0;
const RIGHT: f32 = 62.0;
const ABOVE: f32 = 34.0;
const BELOW: f32 = 38.0;
const MOST_SCALE: f64 = 5.0;

/// From mm in the plane of the end to the screen.
#[derive(Clone, Copy)]
pub(super) struct Map {
    origin: Pos2,
    scale: f64,
}

impl Map {
    pub(super) fn at(self, point: Point) -> Pos2 {
        self.origin + vec2((point.x * self.scale) as f32, (-point.y * self.scale) as f32)
    }

    pub(super) fn way(direction: Point) -> Vec2 {
        vec2(direction.x as f32, -direction.y as f32)
    }

    pub(super) fn long(self, mm: f64) -> f32 {
        (mm * self.scale) as f32
    }
}

/// As large as it goes, in the middle.
pub(super) fn map(rect: Rect, shape: &EndShape) -> Map {
    let d = shape.outside;
    let end = shape.mouth().toward(shape.direction(), HOSE * d);
    let aside = shape.direction().right();
    let mut corners = vec![
        Point { x: -PORT * d, y: -REACH * d },
        Point { x: 0.0, y: REACH * d },
        Point { x: shape.along, y: -REACH * d },
    ];
    for middle in [shape.cut_end(), end] {
        corners.extend([middle.toward(aside, REACH * d), middle.toward(aside, -REACH * d)]);
    }
    corners.extend(tube(shape));
    let (mut lo, mut hi) = (corners[0], corners[0]);
    for corner in corners {
        lo = Point { x: lo.x.min(corner.x), y: lo.y.min(corner.y) };
        hi = Point { x: hi.x.max(corner.x), y: hi.y.max(corner.y) };
    }
    let right = match side(shape) {
        _ if shape.is_straight() => LEFT,
        side if side < 0.0 => RIGHT + 24.0,
        _ => RIGHT,
    };
    let room = Rect::from_min_max(rect.min + vec2(LEFT, ABOVE), rect.max - vec2(right, BELOW));
    let wide = f64::from(room.width()) / (hi.x - lo.x).max(1e-6);
    let high = f64::from(room.height()) / (hi.y - lo.y).max(1e-6);
    let scale = wide.min(high).clamp(1e-3, MOST_SCALE);
    let middle = vec2(
        (f64::midpoint(lo.x, hi.x) * scale) as f32,
        (-f64::midpoint(lo.y, hi.y) * scale) as f32,
    );
    Map { origin: room.center() - middle, scale }
}

/// The middle of the tube from the seat to the cut end: straight out, a bend, straight in.
pub(super) fn tube(shape: &EndShape) -> Vec<Point> {
    const STEPS: u32 = 24;
    let (seat, cut) = (Point { x: 0.0, y: 0.0 }, shape.cut_end());
    let far = cut.x.hypot(cut.y);
    let lead_in = (0.4 * shape.outside).min(0.2 * far);
    let out = Point { x: 1.0, y: 0.0 };
    let from = seat.toward(out, lead_in);
    let to = cut.toward(shape.direction(), -lead_in);
    // The handles of a cubic that is nearest to a circular arc of this turn.
    let half = (shape.angle_deg / 2.0).to_radians();
    let chord = (to.x - from.x).hypot(to.y - from.y);
    let handle =
        if half < 1e-6 { chord / 3.0 } else { 2.0 / 3.0 * chord * (half / 2.0).tan() / half.sin() };
    let (one, two) = (from.toward(out, handle), to.toward(shape.direction(), -handle));
    let cubic = |step: u32| {
        let t = f64::from(step) / f64::from(STEPS);
        let s = 1.0 - t;
        let weights = [s * s * s, 3.0 * s * s * t, 3.0 * s * t * t, t * t * t];
        let sum = |of: fn(Point) -> f64| {
            [from, one, two, to].into_iter().zip(weights).map(|(p, w)| w * of(p)).sum()
        };
        Point { x: sum(|p| p.x), y: sum(|p| p.y) }
    };
    std::iter::once(seat).chain((0..=STEPS).map(cubic)).chain([cut]).collect()
}

/// To which side of the hose its dimension stands: 1 to its right. Its names stand on the other.
pub(super) fn side(shape: &EndShape) -> f64 {
    if (15.0..75.0).contains(&shape.angle_deg) { -1.0 } else { 1.0 }
}

#[cfg(test)]
mod tests {
    use eframe::egui::pos2;

    use super::*;

    #[test]
    fn the_tube_runs_from_the_seat_to_the_cut_end_and_all_of_it_is_in_sight() {
        let rect = Rect::from_min_max(pos2(40.0, 500.0), pos2(340.0, 716.0));
        for angle_deg in [0.0, 1.0, 30.0, 45.0, 90.0, 135.0, 179.0, 180.0] {
            let shape = EndShape::usual(angle_deg, 12.0);
            let tube = tube(&shape);
            assert_eq!(tube[0], Point { x: 0.0, y: 0.0 });
            assert_eq!(tube[tube.len() - 1], shape.cut_end());
            let map = map(rect, &shape);
            let end = shape.mouth().toward(shape.direction(), HOSE * shape.outside);
            for point in tube.into_iter().chain([shape.mouth(), end]) {
                assert!(rect.contains(map.at(point)), "{angle_deg}°: {point:?}");
            }
        }
    }
}
