//! The bench strip: the chosen hose laid straight, as it will lie on the bench, with its marks from
//! cut end A; above it how sharply it bends, against its limit.

use eframe::egui::{Align2, Painter, Rect, Shape, Stroke, StrokeKind, Ui, pos2, vec2};

use crate::app::App;
use crate::app::theme::{self, Palette, size};
use crate::app::words;
use crate::engine::{Bend, RunSolution};
use crate::units::{Angle, EPS_MM, Length, LengthUnit};

pub(in crate::app) fn bench(ui: &mut Ui, app: &App) {
    let (Some(document), Some(solved)) = (&app.document, &app.solved) else { return };
    let colours = theme::palette(ui);
    let frame = ui.available_rect_before_wrap();
    ui.allocate_rect(frame, eframe::egui::Sense::hover());
    let painter = ui.painter_at(frame);
    painter.rect_filled(frame, 4.0, colours.sheet);
    painter.rect_stroke(frame, 4.0, Stroke::new(1.0, colours.hairline), StrokeKind::Inside);
    let text = |at, align, text: &str, colour| {
        painter.text(at, align, text, theme::font(size::SMALL), colour);
    };
    text(frame.min + vec2(12.0, 9.0), Align2::LEFT_TOP, "On the bench", colours.soft);
    let bay = document.bay();
    let runs = bay.options.get(app.option).map(|option| option.runs.as_slice()).unwrap_or_default();
    let chosen = app.chosen.run.as_deref();
    let found = runs.iter().enumerate().find(|(_, run)| Some(run.id.as_str()) == chosen);
    let Some((run, own)) = found.and_then(|(i, run)| Some((run, solved.routing.run(i)?))) else {
        return;
    };
    let unit = bay.show_units;
    let cut = Length::from_mm(own.cut_length_mm).bench(unit);
    let right = frame.right_top() + vec2(-12.0, 9.0);
    let said = format!("{}, laid straight, {cut}", words::run_name(run));
    text(right, Align2::RIGHT_TOP, &said, colours.soft);
    if own.cut_length_mm > 0.0 {
        Strip::new(&painter, frame, own, unit, colours).paint();
    }
}

struct Strip<'a> {
    painter: &'a Painter,
    run: &'a RunSolution,
    unit: LengthUnit,
    colours: &'a Palette,
    /// The hose.
    hose: Rect,
    /// Above it, the curvature: from the straight below to the limit's line.
    curve: Option<(f32, f32)>,
    points_per_mm: f32,
}

impl<'a> Strip<'a> {
    fn new(
        painter: &'a Painter,
        frame: Rect,
        run: &'a RunSolution,
        unit: LengthUnit,
        colours: &'a Palette,
    ) -> Self {
        let (left, right) = (frame.min.x + 54.0, frame.max.x - 54.0);
        let middle = frame.min.y + frame.height() * if frame.height() > 150.0 { 0.60 } else { 0.5 };
        let hose = Rect::from_min_max(pos2(left, middle - 8.0), pos2(right, middle + 8.0));
        let curve = (frame.height() > 150.0).then_some((hose.min.y - 14.0, frame.min.y + 52.0));
        let points_per_mm = (right - left) / run.cut_length_mm as f32;
        Self { painter, run, unit, colours, hose, curve, points_per_mm }
    }

    /// Where a place of the drawn centre line is on the strip.
    fn x(&self, at_mm: f64) -> f32 {
        self.hose.min.x + self.run.on_bench_mm(at_mm) as f32 * self.points_per_mm
    }

    fn text(
        &self,
        at: eframe::egui::Pos2,
        align: Align2,
        text: &str,
        colour: eframe::egui::Color32,
    ) {
        self.painter.text(at, align, text, theme::font(size::SMALL), colour);
    }

    fn span(&self, from_mm: f64, to_mm: f64) -> Rect {
        let ends = [self.x(from_mm.max(0.0)), self.x(to_mm.min(self.run.centreline_mm))];
        Rect::from_x_y_ranges(ends[0]..=ends[1], self.hose.y_range())
    }

    fn is_tight(&self, bend: &Bend) -> bool {
        bend.radius_mm < self.run.radius_limit_mm - EPS_MM
    }

    fn paint(&self) {
        let edge = Stroke::new(1.0, self.colours.hose_edge);
        self.painter.rect(self.hose, 0.0, self.colours.hose, edge, StrokeKind::Inside);
        for bend in self.run.bends() {
            self.bend(&bend);
        }
        let line = [self.hose.left_center(), self.hose.right_center()];
        let lay = Stroke::new(1.0, self.colours.hose_edge);
        self.painter.extend(Shape::dashed_line(&line, lay, 9.0, 4.0));
        self.sockets();
        self.marks();
        if let Some((straight, limit)) = self.curve {
            self.curvature(straight, limit);
        }
    }

    fn bend(&self, bend: &Bend) {
        let half = bend.radius_mm * bend.angle_deg.to_radians() / 2.0;
        let half = half.max(self.run.hose.outside_mm / 4.0);
        let span = self.span(bend.at_mm - half, bend.at_mm + half);
        let (fill, colour) = if self.is_tight(bend) {
            (self.colours.fail_faint, self.colours.fail)
        } else {
            (self.colours.accent_faint, self.colours.accent)
        };
        self.painter.rect(span, 0.0, fill, Stroke::new(1.0, colour), StrokeKind::Inside);
        if self.is_tight(bend) {
            let painter = self.painter.with_clip_rect(span);
            let mut x = span.min.x - span.height();
            while x < span.max.x {
                let ends = [pos2(x, span.min.y), pos2(x + span.height(), span.max.y)];
                painter.line_segment(ends, Stroke::new(1.0, colour));
                x += 6.0;
            }
        }
    }

    fn sockets(&self) {
        let tall = vec2(0.0, 3.0);
        let length = self.run.centreline_mm;
        for span in [
            self.span(0.0, self.run.from.end.socket_mm.min(length)),
            self.span((length - self.run.to.end.socket_mm).max(0.0), length),
        ] {
            self.painter.rect_filled(span.expand2(tall), 1.0, self.colours.socket);
        }
    }

    /// Cut ends, clamps with their distance from A, and what each bend is.
    fn marks(&self) {
        let mut taken = Taken::default();
        let (upper, lower) = (self.hose.max.y + 6.0, self.hose.max.y + 21.0);
        let ink = self.colours.ink;
        for (x, word) in [(self.hose.min.x, "A cut"), (self.hose.max.x, "cut B")] {
            self.painter.vline(x, self.hose.max.y..=lower - 1.0, Stroke::new(1.0, ink));
            let place = pos2(x, lower);
            self.text(place, Align2::CENTER_TOP, word, ink);
            taken.take(x - 24.0, x + 24.0);
        }
        for clamp in &self.run.clamps {
            let x = self.x(clamp.at_mm);
            let from_a = Length::from_mm(self.run.on_bench_mm(clamp.at_mm)).show(self.unit);
            self.painter.vline(x, self.hose.min.y - 3.0..=lower - 1.0, Stroke::new(1.5, ink));
            if taken.take(x - 52.0, x + 52.0) {
                let said = format!("clamp {from_a}");
                self.text(pos2(x, lower), Align2::CENTER_TOP, &said, ink);
            }
        }
        let mut taken = Taken::default();
        for bend in self.run.bends() {
            let x = self.x(bend.at_mm);
            let colour = if self.is_tight(&bend) { self.colours.fail } else { self.colours.soft };
            let said = format!(
                "{}, R {}",
                Angle::from_deg(bend.angle_deg).show(),
                Length::from_mm(bend.radius_mm).number(self.unit)
            );
            if taken.take(x - 42.0, x + 42.0) {
                self.text(pos2(x, upper), Align2::CENTER_TOP, &said, colour);
            }
        }
    }

    /// Curvature: what is above the dashed line bends tighter than the hose may.
    fn curvature(&self, straight: f32, limit: f32) {
        let top = limit - 18.0;
        let height = |radius_mm: f64| {
            let share = if radius_mm > 0.0 { self.run.radius_limit_mm / radius_mm } else { 9.0 };
            (straight - (straight - limit) * share as f32).max(top)
        };
        let mut path = vec![pos2(self.hose.min.x, straight)];
        for bend in self.run.bends() {
            let half = (bend.radius_mm * bend.angle_deg.to_radians() / 2.0).max(1.0);
            let y = height(bend.radius_mm);
            let (from, to) = (self.x(bend.at_mm - half), self.x(bend.at_mm + half));
            path.extend([pos2(from, straight), pos2(from, y), pos2(to, y), pos2(to, straight)]);
        }
        path.push(pos2(self.hose.max.x, straight));
        let ends = [pos2(self.hose.min.x, limit), pos2(self.hose.max.x, limit)];
        let stroke = Stroke::new(1.0, self.colours.fail);
        self.painter.extend(Shape::dashed_line(&ends, stroke, 5.0, 4.0));
        let left = pos2(self.hose.min.x - 6.0, limit);
        self.text(left, Align2::RIGHT_CENTER, "limit", self.colours.soft);
        let right = pos2(self.hose.max.x + 6.0, limit);
        let radius = Length::from_mm(self.run.radius_limit_mm).number(self.unit);
        self.text(right, Align2::LEFT_CENTER, &format!("R {radius}"), self.colours.fail);
        self.painter.add(Shape::line(path, Stroke::new(1.25, self.colours.ink)));
    }
}

/// Stretches of a line that already carry a text.
#[derive(Default)]
struct Taken(Vec<(f32, f32)>);

impl Taken {
    /// Takes a stretch; says whether it was free.
    fn take(&mut self, from: f32, to: f32) -> bool {
        let free = self.0.iter().all(|(a, b)| to < *a || from > *b);
        if free {
            self.0.push((from, to));
        }
        free
    }
}
