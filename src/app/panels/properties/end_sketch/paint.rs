//! The sketch on the screen: port, nut, tube and socket in section, with its dimensions.

use eframe::egui::{
    Align2, Color32, CornerRadius, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Ui, Vec2, vec2,
};

use super::{Dimension, EndShape, Point};
use crate::app::theme::{self, Palette, size};

/// Parts beside the measured ones, in ODs of the hose: as a 37° swivel end usually looks.
const PORT: f64 = 1.5;
const NUT_BEHIND: f64 = 0.95;
const NUT_AHEAD: f64 = 0.4;
const NUT: f64 = 0.72;
const TUBE: f64 = 0.62;
const COLLAR: (f64, f64) = (0.62, 0.22);
const SOCKET: f64 = 0.72;
const NIPPLE: f64 = 0.27;
const HOSE: f64 = 1.1;
/// Lines at the seat and the cut end reach this far from the middle.
const REACH: f64 = 0.98;

/// Room about the drawing for words and dimensions, points.
const LEFT: f32 = 14.0;
const RIGHT: f32 = 62.0;
const ABOVE: f32 = 30.0;
const BELOW: f32 = 38.0;
/// From what is measured to its dimension line.
const AWAY: f32 = 14.0;
const MOST_SCALE: f64 = 5.0;

pub(super) fn sketch(ui: &Ui, rect: Rect, shape: &EndShape, lit: Option<Dimension>) {
    let colours = theme::palette(ui);
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    let edge = Stroke::new(1.0, colours.hairline);
    painter.rect(rect, CornerRadius::same(4), colours.paper, edge, StrokeKind::Inside);
    let sketch = Sketch { painter, colours, shape, lit, tube: tube(shape), map: map(rect, shape) };
    sketch.port();
    sketch.hose();
    sketch.fitting();
    sketch.axes();
    sketch.dimensions();
    sketch.names();
    if !shape.to_scale {
        let at = rect.right_top() + vec2(-8.0, 6.0);
        sketch.text(at, Align2::RIGHT_TOP, "not to scale", colours.soft);
    }
}

/// From mm in the plane of the end to the screen.
#[derive(Clone, Copy)]
struct Map {
    origin: Pos2,
    scale: f64,
}

impl Map {
    fn at(self, point: Point) -> Pos2 {
        self.origin + vec2((point.x * self.scale) as f32, (-point.y * self.scale) as f32)
    }

    fn way(direction: Point) -> Vec2 {
        vec2(direction.x as f32, -direction.y as f32)
    }

    fn long(self, mm: f64) -> f32 {
        (mm * self.scale) as f32
    }
}

/// As large as it goes, in the middle.
fn map(rect: Rect, shape: &EndShape) -> Map {
    let d = shape.outside;
    let end = shape.mouth().toward(shape.direction(), HOSE * d);
    let aside = shape.direction().right();
    let mut corners = vec![
        Point { x: -PORT * d, y: -REACH * d },
        Point { x: 0.0, y: REACH * d },
        Point { x: shape.along, y: -REACH * d },
    ];
    for middle in [shape.cut_end(), end] {
        corners.extend([middle.toward(aside, SOCKET * d), middle.toward(aside, -SOCKET * d)]);
    }
    corners.extend(tube(shape));
    let (mut lo, mut hi) = (corners[0], corners[0]);
    for corner in corners {
        lo = Point { x: lo.x.min(corner.x), y: lo.y.min(corner.y) };
        hi = Point { x: hi.x.max(corner.x), y: hi.y.max(corner.y) };
    }
    let right = if shape.is_straight() { LEFT } else { RIGHT };
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
fn tube(shape: &EndShape) -> Vec<Point> {
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

struct Sketch<'a> {
    painter: Painter,
    colours: &'a Palette,
    shape: &'a EndShape,
    lit: Option<Dimension>,
    tube: Vec<Point>,
    map: Map,
}

impl Sketch<'_> {
    /// A box along a direction: from and to along it, from and to to its left, in ODs.
    fn block(&self, at: Point, way: Point, span: [f64; 4], fill: Color32, edge: Color32) {
        let d = self.shape.outside;
        let corner = |along: f64, left: f64| {
            self.map.at(at.toward(way, along).toward(way.right(), -left * d))
        };
        let [from, to, low, high] = span;
        let corners =
            vec![corner(from, low), corner(to, low), corner(to, high), corner(from, high)];
        self.painter.add(Shape::convex_polygon(corners, fill, Stroke::new(1.0, edge)));
    }

    fn port(&self) {
        let (d, out, seat) =
            (self.shape.outside, Point { x: 1.0, y: 0.0 }, Point { x: 0.0, y: 0.0 });
        let (fill, edge) = (self.colours.plain, self.colours.plain_edge);
        self.block(seat, out, [-PORT * d, -0.3 * d, -0.56, 0.56], fill, edge);
        let nose = [(-0.3, 0.56), (0.0, 0.34), (0.0, -0.34), (-0.3, -0.56)];
        let nose = nose.map(|(x, y)| self.map.at(Point { x: x * d, y: y * d }));
        self.painter.add(Shape::convex_polygon(nose.into(), fill, Stroke::new(1.0, edge)));
    }

    /// The hose from its cut end on, and the socket about it.
    fn hose(&self) {
        let (shape, colours, d) = (self.shape, self.colours, self.shape.outside);
        let (way, cut) = (shape.direction(), shape.cut_end());
        let end = shape.socket + HOSE * d;
        self.block(cut, way, [0.0, end, -0.5, 0.5], colours.hose, colours.hose_edge);
        // Open where it goes on.
        let open = [-0.5, 0.5]
            .map(|left| self.map.at(cut.toward(way, end).toward(way.right(), -left * d)));
        self.painter.line_segment(open, Stroke::new(2.5, colours.paper));
        let nipple = [0.0, 0.8 * shape.socket, -NIPPLE, NIPPLE];
        self.block(cut, way, nipple, colours.plain, colours.hose_edge);
        for side in [-1.0, 1.0] {
            let wall = [-COLLAR.1 * d, shape.socket, side * 0.5, side * SOCKET];
            self.block(cut, way, wall, colours.socket, colours.socket);
        }
    }

    /// Tube, collar and nut.
    fn fitting(&self) {
        let (shape, colours, d) = (self.shape, self.colours, self.shape.outside);
        let (fill, edge) = (colours.plain, colours.hose_edge);
        let line: Vec<Pos2> = self.tube.iter().map(|point| self.map.at(*point)).collect();
        let wide = self.map.long(TUBE * d);
        self.painter.add(Shape::line(line.clone(), Stroke::new(wide + 1.5, edge)));
        self.painter.add(Shape::line(line, Stroke::new(wide - 0.5, fill)));
        let (way, cut) = (shape.direction(), shape.cut_end());
        self.block(cut, way, [-COLLAR.0 * d, -COLLAR.1 * d, -SOCKET, SOCKET], fill, edge);
        let (out, seat) = (Point { x: 1.0, y: 0.0 }, Point { x: 0.0, y: 0.0 });
        let nut = fill.gamma_multiply(0.8);
        self.block(seat, out, [-NUT_BEHIND * d, NUT_AHEAD * d, -NUT, NUT], nut, edge);
        for side in [-0.36, 0.36] {
            self.block(seat, out, [-NUT_BEHIND * d, NUT_AHEAD * d, side, side], nut, edge);
        }
    }

    /// Axes, and lines at the seat and the cut end.
    fn axes(&self) {
        let (shape, colours, d) = (self.shape, self.colours, self.shape.outside);
        let (way, cut) = (shape.direction(), shape.cut_end());
        let ahead = if shape.is_straight() { 0.0 } else { shape.along.max(0.0) };
        let port = [Point { x: -PORT * d, y: 0.0 }, Point { x: ahead, y: 0.0 }];
        let hose = [cut, cut.toward(way, shape.socket + HOSE * d)];
        for [from, to] in [port, hose] {
            let line = [self.map.at(from), self.map.at(to)];
            self.painter.extend(Shape::dashed_line(
                &line,
                Stroke::new(1.0, colours.soft),
                7.0,
                3.0,
            ));
        }
        let accent = Stroke::new(1.8, colours.accent);
        let seat = [-REACH, REACH].map(|y| self.map.at(Point { x: 0.0, y: y * d }));
        self.painter.line_segment(seat, accent);
        let across = [-REACH, REACH].map(|left| self.map.at(cut.toward(way.right(), left * d)));
        self.painter.line_segment(across, accent);
        let dot = Stroke::new(1.5, colours.accent);
        self.painter.circle(self.map.at(Point { x: 0.0, y: 0.0 }), 3.5, colours.paper, dot);
        self.painter.circle_filled(self.map.at(cut), 3.0, colours.accent);
    }

    /// To which side of the hose its dimension stands: 1 to its right. Its names stand on the other.
    fn side(&self) -> f64 {
        if (15.0..75.0).contains(&self.shape.angle_deg) { -1.0 } else { 1.0 }
    }

    fn dimensions(&self) {
        let (shape, map, d) = (self.shape, self.map, self.shape.outside);
        let (way, cut, mouth) = (shape.direction(), map.at(shape.cut_end()), map.at(shape.mouth()));
        let seat = map.at(Point { x: 0.0, y: 0.0 });
        let below = seat.y.max(cut.y) + map.long(REACH * d) + AWAY;
        self.dimension(Dimension::Along, [seat, cut], vec2(0.0, below - seat.y), "along");
        if !shape.is_straight() {
            let points = self.tube.iter().filter(|point| point.y <= shape.across);
            let most = points.map(|point| point.x).fold(shape.along, f64::max);
            let name = if self.side() < 0.0 { self.width("cut end") + 10.0 } else { 0.0 };
            let right = map.at(Point { x: most, y: 0.0 }).x + map.long(REACH * d) + AWAY + name;
            self.dimension(Dimension::Across, [seat, cut], vec2(right - seat.x, 0.0), "across");
        }
        let aside = Map::way(way.right()) * self.side() as f32;
        let off = map.long(if shape.is_straight() { REACH * d } else { SOCKET * d }) + AWAY;
        self.dimension(Dimension::Socket, [cut, mouth], aside * off, "socket");
    }

    /// A dimension between two places, its line moved away from the first by `off`, square to it.
    fn dimension(&self, of: Dimension, [from, to]: [Pos2; 2], off: Vec2, name: &str) {
        let colours = self.colours;
        let is_lit = self.lit == Some(of);
        let (ink, wide) = if is_lit { (colours.accent_text, 2.0) } else { (colours.ink, 1.0) };
        let away = off.normalized();
        let start = from + off;
        let end = to + away * (start - to).dot(away);
        let thin = Stroke::new(0.8, colours.soft);
        for (place, foot) in [(from, start), (to, end)] {
            self.painter.line_segment([place + away * 4.0, foot + away * 4.0], thin);
        }
        self.painter.line_segment([start, end], Stroke::new(wide, ink));
        let long = start.distance(end);
        let way = if long > 0.0 { (end - start) / long } else { away.rot90() };
        let head = 7.0_f32.min(0.4 * long);
        for (tip, back) in [(start, way), (end, -way)] {
            let foot = tip + back * head;
            let aside = back.rot90() * (0.36 * head);
            let corners = vec![tip, foot + aside, foot - aside];
            self.painter.add(Shape::convex_polygon(corners, ink, Stroke::NONE));
        }
        let middle = start + (end - start) / 2.0 + away * 6.0;
        let font = theme::font(if is_lit { size::GROUP } else { size::SMALL });
        self.painter.text(middle, beside(away), name, font, ink);
    }

    /// Seat, cut end and socket mouth.
    fn names(&self) {
        let (shape, map, d) = (self.shape, self.map, self.shape.outside);
        let seat = map.at(Point { x: 0.0, y: REACH * d }) - vec2(0.0, 3.0);
        self.text(seat, Align2::CENTER_BOTTOM, "seat", self.colours.accent_text);
        let aside = shape.direction().right();
        let side = -self.side();
        let away = Map::way(aside) * side as f32;
        let cut = map.at(shape.cut_end().toward(aside, side * REACH * d)) + away * 4.0;
        self.text(cut, beside(away), "cut end", self.colours.accent_text);
        let mouth = map.at(shape.mouth().toward(aside, side * SOCKET * d));
        let mut name = map.at(shape.mouth().toward(aside, side * REACH * d)) + away * 4.0;
        // Two names in a row need room; the second goes a line higher where they would touch.
        let apart = (name.x - cut.x).abs();
        let needed = (self.width("cut end") + self.width("socket mouth")) / 2.0 + 8.0;
        if away.x.abs() < 0.5 && apart < needed {
            name += away * 14.0;
        }
        self.painter.line_segment([mouth, name], Stroke::new(0.9, self.colours.soft));
        self.text(name, beside(away), "socket mouth", self.colours.ink);
    }

    fn width(&self, text: &str) -> f32 {
        let font = theme::font(size::SMALL);
        self.painter.layout_no_wrap(text.to_owned(), font, self.colours.ink).size().x
    }

    fn text(&self, at: Pos2, align: Align2, text: &str, ink: Color32) {
        self.painter.text(at, align, text, theme::font(size::SMALL), ink);
    }
}

/// How text stands beside a line that it is away from in this direction.
fn beside(away: Vec2) -> Align2 {
    match (away.x, away.y) {
        (x, _) if x > 0.5 => Align2::LEFT_CENTER,
        (x, _) if x < -0.5 => Align2::RIGHT_CENTER,
        (_, y) if y > 0.0 => Align2::CENTER_TOP,
        _ => Align2::CENTER_BOTTOM,
    }
}
