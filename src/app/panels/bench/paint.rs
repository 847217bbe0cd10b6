//! How the bench strip looks.

use eframe::egui::{
    Align2, Color32, Painter, Pos2, Rangef, Rect, Shape, Stroke, StrokeKind, pos2, vec2,
};

use super::label::LabelKind;
use super::layout::{StripBend, StripLayout};
use crate::app::canvas::thing::Thing;
use crate::app::theme::icons::{self, State};
use crate::app::theme::{self, Palette, size};

/// What is painted with.
pub(super) struct Paint<'a> {
    pub(super) painter: &'a Painter,
    pub(super) colours: &'a Palette,
    pub(super) strip: &'a StripLayout,
    pub(super) selected: &'a [Thing],
    /// The finding that is looked at.
    pub(super) looked_at: Option<usize>,
}

impl Paint<'_> {
    pub(super) fn hose(&self) {
        self.curvature();
        let hose = self.rect(self.strip.left, self.strip.right);
        let edge = Stroke::new(1.0, self.colours.hose_edge);
        self.painter.rect(hose, 0.0, self.colours.hose, edge, StrokeKind::Inside);
        for bend in &self.strip.bends {
            self.bend(bend);
        }
        let line = [hose.left_center(), hose.right_center()];
        self.painter.extend(Shape::dashed_line(&line, edge, 9.0, 4.0));
        for (from, to) in self.strip.sockets {
            let socket = self.rect(from, to).expand2(vec2(0.0, 3.0));
            self.painter.rect_filled(socket, 1.0, self.colours.socket);
        }
        self.clamps();
        self.labels();
        self.marks();
    }

    fn rect(&self, from: f64, to: f64) -> Rect {
        let (top, bottom) = self.strip.heights.hose;
        Rect::from_min_max(pos2(from as f32, top as f32), pos2(to as f32, bottom as f32))
    }

    fn text(&self, at: Pos2, align: Align2, text: &str, colour: Color32) {
        self.painter.text(at, align, text, theme::font(size::SMALL), colour);
    }

    fn bend(&self, bend: &StripBend) {
        let (fill, colour) = if bend.is_tight {
            (self.colours.fail_faint, self.colours.fail)
        } else {
            (self.colours.accent_faint, self.colours.accent)
        };
        let span = self.rect(bend.from, bend.to);
        let width = if self.selected.contains(&bend.thing) { 2.5 } else { 1.0 };
        self.painter.rect(span, 0.0, fill, Stroke::new(width, colour), StrokeKind::Inside);
        if bend.is_tight {
            self.hatch(span, colour);
        }
    }

    fn hatch(&self, area: Rect, colour: Color32) {
        let painter = self.painter.with_clip_rect(area.intersect(self.painter.clip_rect()));
        let mut x = area.min.x - area.height();
        while x < area.max.x {
            let ends = [pos2(x, area.min.y), pos2(x + area.height(), area.max.y)];
            painter.line_segment(ends, Stroke::new(1.0, colour));
            x += 6.0;
        }
    }

    fn clamps(&self) {
        for clamp in &self.strip.clamps {
            let grip = self.rect(clamp.from, clamp.to).expand2(vec2(0.0, 4.0));
            let is_selected = self.selected.contains(&clamp.thing);
            let ink = if is_selected { self.colours.accent } else { self.colours.ink };
            let width = if is_selected { 2.5 } else { 1.5 };
            self.painter.rect_stroke(grip, 1.0, Stroke::new(width, ink), StrokeKind::Inside);
        }
    }

    fn labels(&self) {
        let heights = &self.strip.heights;
        for label in &self.strip.labels {
            let colour = match label.kind {
                LabelKind::Cut | LabelKind::Clamp => self.colours.ink,
                LabelKind::Tight => self.colours.fail,
                LabelKind::Bend | LabelKind::Stretch => self.colours.soft,
            };
            let top = heights.row(label.row) as f32;
            if label.row > 0 || label.kind == LabelKind::Clamp {
                let leader = Rangef::new(heights.hose.1 as f32 + 1.0, top + 1.0);
                self.painter.vline(label.anchor as f32, leader, Stroke::new(1.0, colour));
            }
            self.text(pos2(label.span.0 as f32, top), Align2::LEFT_TOP, &label.text, colour);
        }
    }

    fn marks(&self) {
        for mark in &self.strip.marks {
            let at = pos2(mark.x as f32, self.strip.heights.hose.0 as f32);
            let radius = if self.looked_at == Some(mark.finding) { 6.0 } else { 4.5 };
            self.painter.circle_filled(at, radius + 2.5, self.colours.sheet);
            icons::paint(self.painter, at, radius, State::from(mark.severity), self.colours);
        }
    }

    /// Curvature: what is above the dashed line bends tighter than the hose may, and is hatched.
    fn curvature(&self) {
        let strip = self.strip;
        let (left, right) = (strip.left as f32, strip.right as f32);
        let (foot, limit) = (strip.heights.curve.1 as f32, strip.curve_y(1.0) as f32);
        let ink = Stroke::new(1.25, self.colours.ink);
        let mut path = vec![pos2(left, foot)];
        for bend in &strip.bends {
            let y = strip.curve_y(bend.share) as f32;
            let (from, to) = (bend.from as f32, bend.to as f32);
            if bend.is_tight {
                let over = Rect::from_min_max(pos2(from, y), pos2(to, limit));
                self.painter.rect_filled(over, 0.0, self.colours.fail_faint);
                self.hatch(over, self.colours.fail);
            }
            path.extend([pos2(from, foot), pos2(from, y)]);
            if strip.is_off_scale(bend.share) {
                // It goes on above: the top stays open.
                self.painter.add(Shape::line(std::mem::take(&mut path), ink));
            }
            path.extend([pos2(to, y), pos2(to, foot)]);
        }
        path.push(pos2(right, foot));
        let ends = [pos2(left, limit), pos2(right, limit)];
        let stroke = Stroke::new(1.0, self.colours.fail);
        self.painter.extend(Shape::dashed_line(&ends, stroke, 5.0, 4.0));
        self.text(pos2(left - 4.0, limit), Align2::RIGHT_CENTER, "limit", self.colours.soft);
        let figure = pos2(right + 7.0, limit);
        self.text(figure, Align2::LEFT_CENTER, &strip.limit, self.colours.fail);
        self.painter.add(Shape::line(path, ink));
        self.installed();
    }

    /// The curvature of the shape that the hose takes by itself.
    fn installed(&self) {
        let strip = self.strip;
        let stroke = Stroke::new(1.5, self.colours.installed);
        for line in &strip.installed {
            let path = line.iter().map(|(x, share)| pos2(*x as f32, strip.curve_y(*share) as f32));
            self.painter.add(Shape::line(path.collect(), stroke));
        }
        if !strip.installed.is_empty() {
            // Below the word for the limit, on a low screen too.
            let limit = strip.curve_y(1.0) as f32;
            let y = (strip.heights.curve.1 as f32).max(limit + size::SMALL + 1.0);
            let place = pos2(strip.left as f32 - 4.0, y);
            self.text(place, Align2::RIGHT_CENTER, "installed", self.colours.installed);
        }
    }

    /// The place that is pointed at, here or in a view, with its words, clear of `title`.
    pub(super) fn cursor(&self, x: f64, [from_a, there]: &[String; 2], title: Rect) -> Rect {
        let heights = &self.strip.heights;
        let x = x as f32;
        let accent = Stroke::new(1.5, self.colours.accent);
        let line = Rangef::new(heights.cursor as f32 - 7.0, heights.hose.1 as f32 + 4.0);
        self.painter.vline(x, line, accent);
        let said = format!("{from_a}, {there}");
        let font = theme::font(size::SMALL);
        let galley = self.painter.layout_no_wrap(said, font, self.colours.accent_text);
        let middle = f32::midpoint(self.strip.left as f32, self.strip.right as f32);
        let (align, beside) = if x > middle {
            (Align2::RIGHT_CENTER, x - 7.0)
        } else {
            (Align2::LEFT_CENTER, x + 7.0)
        };
        let mut frame = align.anchor_size(pos2(beside, heights.cursor as f32), galley.size());
        if frame.expand(8.0).intersects(title) {
            frame = frame.translate(vec2(title.max.x + 12.0 - frame.min.x, 0.0));
        }
        self.painter.galley(frame.min, galley, self.colours.accent_text);
        frame.expand(8.0)
    }
}
