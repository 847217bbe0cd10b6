//! How the bench strip looks.

use eframe::egui::{Align2, Color32, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, pos2, vec2};

use super::layout::{LabelKind, StripBend, StripLayout};
use crate::app::canvas::thing::Thing;
use crate::app::theme::{self, Palette, size};

/// What is painted with.
pub(super) struct Paint<'a> {
    pub(super) painter: &'a Painter,
    pub(super) colours: &'a Palette,
    pub(super) strip: &'a StripLayout,
    /// Above and below the hose.
    pub(super) hose: (f32, f32),
    /// Foot and limit of the curvature, where there is room for it.
    pub(super) curve: Option<(f32, f32)>,
    /// The limit in words.
    pub(super) limit: String,
    pub(super) chosen: &'a [Thing],
}

/// Height of a row of text.
pub(super) const ROW: f32 = 15.0;

impl Paint<'_> {
    pub(super) fn hose(&self) {
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
        if let Some((foot, limit)) = self.curve {
            self.curvature(foot, limit);
        }
    }

    fn rect(&self, from: f64, to: f64) -> Rect {
        Rect::from_min_max(pos2(from as f32, self.hose.0), pos2(to as f32, self.hose.1))
    }

    fn text(&self, at: Pos2, align: Align2, text: &str, colour: Color32) -> Rect {
        self.painter.text(at, align, text, theme::font(size::SMALL), colour)
    }

    fn bend(&self, bend: &StripBend) {
        let (fill, colour) = if bend.is_tight {
            (self.colours.fail_faint, self.colours.fail)
        } else {
            (self.colours.accent_faint, self.colours.accent)
        };
        let span = self.rect(bend.from, bend.to);
        let is_chosen = bend.thing.as_ref().is_some_and(|thing| self.chosen.contains(thing));
        let width = if is_chosen { 2.5 } else { 1.0 };
        self.painter.rect(span, 0.0, fill, Stroke::new(width, colour), StrokeKind::Inside);
        if bend.is_tight {
            let painter = self.painter.with_clip_rect(span);
            let mut x = span.min.x - span.height();
            while x < span.max.x {
                let ends = [pos2(x, span.min.y), pos2(x + span.height(), span.max.y)];
                painter.line_segment(ends, Stroke::new(1.0, colour));
                x += 6.0;
            }
        }
    }

    fn clamps(&self) {
        for clamp in &self.strip.clamps {
            let grip = self.rect(clamp.from, clamp.to).expand2(vec2(0.0, 4.0));
            let is_chosen = self.chosen.contains(&clamp.thing);
            let ink = if is_chosen { self.colours.accent } else { self.colours.ink };
            let width = if is_chosen { 2.5 } else { 1.5 };
            self.painter.rect_stroke(grip, 1.0, Stroke::new(width, ink), StrokeKind::Inside);
        }
    }

    fn labels(&self) {
        for label in &self.strip.labels {
            let colour = match label.kind {
                LabelKind::Cut | LabelKind::Clamp => self.colours.ink,
                LabelKind::Tight => self.colours.fail,
                LabelKind::Bend => self.colours.soft,
            };
            let x = label.x as f32;
            let top = self.hose.1 + 5.0 + ROW * label.row as f32;
            if label.row > 0 {
                let stroke = Stroke::new(1.0, colour);
                self.painter.vline(x, self.hose.1 + 4.0..=top, stroke);
            }
            self.text(pos2(x, top), Align2::CENTER_TOP, &label.text, colour);
        }
    }

    /// Curvature: what is above the dashed line bends tighter than the hose may, and is hatched.
    fn curvature(&self, foot: f32, limit: f32) {
        let top = limit - 16.0;
        let height = |share: f64| (foot - (foot - limit) * share.min(99.0) as f32).max(top);
        let mut path = vec![pos2(self.strip.left as f32, foot)];
        for bend in &self.strip.bends {
            let y = height(bend.share);
            let (from, to) = (bend.from as f32, bend.to as f32);
            path.extend([pos2(from, foot), pos2(from, y), pos2(to, y), pos2(to, foot)]);
            if bend.is_tight {
                let over = Rect::from_min_max(pos2(from, y), pos2(to, limit));
                self.painter.rect_filled(over, 0.0, self.colours.fail_faint);
            }
        }
        path.push(pos2(self.strip.right as f32, foot));
        let ends = [pos2(self.strip.left as f32, limit), pos2(self.strip.right as f32, limit)];
        let stroke = Stroke::new(1.0, self.colours.fail);
        self.painter.extend(Shape::dashed_line(&ends, stroke, 5.0, 4.0));
        let left = pos2(self.strip.left as f32 - 6.0, limit);
        self.text(left, Align2::RIGHT_CENTER, "limit", self.colours.soft);
        let right = pos2(self.strip.right as f32 + 6.0, limit);
        self.text(right, Align2::LEFT_CENTER, &self.limit, self.colours.fail);
        self.painter.add(Shape::line(path, Stroke::new(1.25, self.colours.ink)));
    }

    /// The place that is pointed at, here or in a view, with its words.
    pub(super) fn cursor(&self, x: f64, top: f32, said: &str) {
        let x = x as f32;
        let stroke = Stroke::new(1.5, self.colours.accent);
        self.painter.vline(x, top..=self.hose.1 + 8.0, stroke);
        let (left, right) = (self.strip.left as f32, self.strip.right as f32);
        let (align, beside) = if x > f32::midpoint(left, right) {
            (Align2::RIGHT_TOP, x - 6.0)
        } else {
            (Align2::LEFT_TOP, x + 6.0)
        };
        let font = theme::font(size::SMALL);
        let galley = self.painter.layout_no_wrap(said.to_owned(), font, self.colours.accent_text);
        let frame = align.anchor_size(pos2(beside, top), galley.size());
        self.painter.rect_filled(frame.expand2(vec2(3.0, 1.0)), 3.0, self.colours.sheet);
        self.painter.galley(frame.min, galley, self.colours.accent_text);
    }
}
