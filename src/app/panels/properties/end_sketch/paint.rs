//! The sketch on the screen: port, nut, tube and socket in section, with its dimensions.

use eframe::egui::{
    Align2, Color32, CornerRadius, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Ui, Vec2, vec2,
};

use super::layout::{HOSE, Map, PORT, REACH, map, side, tube};
use super::{Dimension, EndShape, Point};
use crate::app::theme::{self, Palette, size};

/// Parts beside the measured ones, in ODs of the hose: as a 37° swivel end usually looks.
const NUT_BEHIND: f64 = 0.95;
const NUT_AHEAD: f64 = 0.4;
const NUT: f64 = 0.72;
const TUBE: f64 = 0.62;
const COLLAR: (f64, f64) = (0.62, 0.22);
const SOCKET: f64 = 0.72;
const NIPPLE: f64 = 0.27;
/// From what is measured to its dimension line.
const AWAY: f32 = 14.0;

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
        let back = -COLLAR.1 * d;
        self.block(cut, way, [back, 0.0, -0.5, 0.5], colours.socket, colours.socket);
        let nipple = [back, 0.8 * shape.socket, -NIPPLE, NIPPLE];
        self.block(cut, way, nipple, colours.plain, colours.hose_edge);
        for side in [-1.0, 1.0] {
            let wall = [back, shape.socket, side * 0.5, side * SOCKET];
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

    fn dimensions(&self) {
        let (shape, map, d) = (self.shape, self.map, self.shape.outside);
        let (way, cut, mouth) = (shape.direction(), map.at(shape.cut_end()), map.at(shape.mouth()));
        let seat = map.at(Point { x: 0.0, y: 0.0 });
        let below = seat.y.max(cut.y) + map.long(REACH * d) + AWAY;
        let reach = map.long(REACH * d);
        let of_cut = if shape.is_straight() { reach } else { 0.0 };
        let off = vec2(0.0, below - seat.y);
        self.dimension(Dimension::Along, [(seat, reach), (cut, of_cut)], off, "along");
        if !shape.is_straight() {
            let points = self.tube.iter().filter(|point| point.y <= shape.across);
            let most = points.map(|point| point.x).fold(shape.along, f64::max);
            let name = if side(self.shape) < 0.0 { self.width("cut end") + 10.0 } else { 0.0 };
            let right = map.at(Point { x: most, y: 0.0 }).x + map.long(REACH * d) + AWAY + name;
            let (off, from) = (vec2(right - seat.x, 0.0), map.long(shape.along).max(0.0));
            self.dimension(Dimension::Across, [(seat, from), (cut, 0.0)], off, "across");
        }
        let aside = Map::way(way.right()) * side(self.shape) as f32;
        let from = map.long(SOCKET * d);
        let off = aside * (reach + AWAY);
        self.dimension(Dimension::Socket, [(cut, reach), (mouth, from)], off, "socket");
    }

    /// A dimension between two places, its line moved away from the first by `off`, square to it. Lines
    /// to it begin so far from the places.
    fn dimension(&self, of: Dimension, places: [(Pos2, f32); 2], off: Vec2, name: &str) {
        let colours = self.colours;
        let is_lit = self.lit == Some(of);
        let (ink, wide) = if is_lit { (colours.accent_text, 2.0) } else { (colours.ink, 1.0) };
        let away = off.normalized();
        let [(from, _), (to, _)] = places;
        let start = from + off;
        let end = to + away * (start - to).dot(away);
        let thin = Stroke::new(0.8, colours.soft);
        for ((place, clear), foot) in places.into_iter().zip([start, end]) {
            let line = [place + away * (clear + 3.0), foot + away * 4.0];
            self.painter.line_segment(line, thin);
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
        let seat = map.at(Point { x: 0.0, y: REACH * d }) - vec2(0.0, 4.0);
        self.text(seat, Align2::CENTER_BOTTOM, "seat", self.colours.accent_text);
        let aside = shape.direction().right();
        let side = -side(self.shape);
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
