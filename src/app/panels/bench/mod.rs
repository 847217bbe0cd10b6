//! The bench strip: the chosen hose laid straight, as it will lie on the bench, with its marks from
//! cut end A; above it how sharply it bends, against its limit. Pointing at it shows the place in every
//! view, and the reverse.

mod layout;
mod paint;

use eframe::egui::{
    Align2, EventFilter, Key, Rect, Response, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, vec2,
};

use self::layout::StripLayout;
use self::paint::{Paint, ROW};
use crate::app::App;
use crate::app::actions::Action;
use crate::app::canvas::thing::Thing;
use crate::app::theme::{self, size};
use crate::app::words;
use crate::engine::RunSolution;
use crate::units::{Length, LengthUnit};

/// Shows the strip; says where on the chosen hose it is pointed at, mm along the drawn centre line.
pub(in crate::app) fn bench(ui: &mut Ui, app: &App, actions: &mut Vec<Action>) -> Option<f64> {
    let (document, solved) = (app.document.as_ref()?, app.solved.as_ref()?);
    let colours = theme::palette(ui);
    let frame = ui.available_rect_before_wrap();
    let response = ui.allocate_rect(frame, Sense::click());
    let painter = ui.painter_at(frame);
    painter.rect_filled(frame, 4.0, colours.sheet);
    painter.rect_stroke(frame, 4.0, Stroke::new(1.0, colours.hairline), StrokeKind::Inside);
    let title = |at, align, text: &str| {
        painter.text(at, align, text, theme::font(size::SMALL), colours.soft)
    };
    let on_the_bench = title(frame.min + vec2(12.0, 9.0), Align2::LEFT_TOP, "On the bench");
    let bay = document.bay();
    let runs = bay.options.get(app.option).map(|option| option.runs.as_slice()).unwrap_or_default();
    let chosen = app.chosen.run.as_deref();
    let found = runs.iter().enumerate().find(|(_, run)| Some(run.id.as_str()) == chosen);
    let found = found.and_then(|(i, run)| Some((run, solved.routing.run(i)?)));
    let Some((run, own)) = found.filter(|(_, own)| own.cut_length_mm > 0.0) else {
        response
            .widget_info(|| WidgetInfo::labeled(Role::Group, true, "Bench strip, no hose chosen"));
        return None;
    };
    let unit = bay.show_units;
    let cut = Length::from_mm(own.cut_length_mm).bench(unit);
    let right = frame.right_top() + vec2(-12.0, 9.0);
    let said = format!("{}, laid straight, {cut}", words::run_name(run));
    title(right, Align2::RIGHT_TOP, &said);
    let (left, right) = (f64::from(frame.min.x) + 58.0, f64::from(frame.max.x) - 58.0);
    let measure = |text: &str| {
        let font = theme::font(size::SMALL);
        f64::from(painter.layout_no_wrap(text.to_owned(), font, colours.ink).size().x)
    };
    let strip = StripLayout::new(own, &run.id, (left, right), unit, &measure);
    let (hose, curve) = heights(frame);
    let limit = format!("R {}", Length::from_mm(own.radius_limit_mm).number(unit));
    let chosen = &app.chosen.things;
    let paint = Paint { painter: &painter, colours, strip: &strip, hose, curve, limit, chosen };
    paint.hose();

    let here = pointed_at(ui, app, &response, &strip, own, unit, actions);
    let from_view = app.canvas.pointed_along(&run.id);
    let at_mm = here.or(from_view);
    let words = at_mm.map(|at_mm| place_words(own, at_mm, strip.x(own, at_mm), &strip, unit));
    if let (Some(at_mm), Some(words)) = (at_mm, &words) {
        paint.cursor(strip.x(own, at_mm), on_the_bench.max.y + 3.0, words);
    }
    name(&response, &said, words.as_deref());
    if response.clicked()
        && let Some(at) = response.interact_pointer_pos()
    {
        let thing = strip.thing_at(f64::from(at.x)).cloned();
        actions.push(Action::Select(thing.unwrap_or_else(|| Thing::Hose(run.id.clone()))));
    }
    if response.has_focus() {
        let ring = Stroke::new(2.0, colours.accent);
        painter.rect_stroke(frame.shrink(2.0), 4.0, ring, StrokeKind::Inside);
    }
    here
}

/// Where hose and curvature are in a strip of this height.
fn heights(frame: Rect) -> ((f32, f32), Option<(f32, f32)>) {
    let is_tall = frame.height() > 150.0;
    let below = 3.0 * ROW + 12.0;
    let bottom = if is_tall { frame.max.y - below - 8.0 } else { frame.max.y - below };
    let hose = (bottom - 16.0, bottom);
    (hose, is_tall.then_some((hose.0 - 12.0, frame.min.y + 56.0)))
}

/// "22 3/4 in from A, in a bend tighter than this hose may".
fn place_words(
    run: &RunSolution,
    at_mm: f64,
    x: f64,
    strip: &StripLayout,
    unit: LengthUnit,
) -> String {
    let from_a = Length::from_mm(run.on_bench_mm(at_mm)).show(unit);
    if strip.is_tight_at(x) {
        format!("{from_a} from A, tighter than this hose may bend")
    } else {
        format!("{from_a} from A")
    }
}

fn name(response: &Response, said: &str, place: Option<&str>) {
    let name = match place {
        Some(place) => format!("Bench strip, {said}; {place}"),
        None => format!("Bench strip, {said}"),
    };
    response.widget_info(|| WidgetInfo::labeled(Role::Group, true, &name));
}

/// Where the strip is pointed at, by the pointer or, while it has the focus, by the arrow keys.
fn pointed_at(
    ui: &Ui,
    app: &App,
    response: &Response,
    strip: &StripLayout,
    run: &RunSolution,
    unit: LengthUnit,
    actions: &mut Vec<Action>,
) -> Option<f64> {
    if let Some(at) = response.hover_pos() {
        let (x, reach) = (f64::from(at.x), 12.0);
        let on_hose = x >= strip.left - reach && x <= strip.right + reach;
        return on_hose.then(|| run.drawn_at_mm(strip.bench_mm(x)));
    }
    if !response.has_focus() {
        return None;
    }
    let filter = EventFilter { horizontal_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    let step = bench_step_mm(unit) * if ui.input(|i| i.modifiers.shift) { 10.0 } else { 1.0 };
    let presses = |key: Key| ui.input(|i| i.num_presses(key)) as f64;
    let by = (presses(Key::ArrowRight) - presses(Key::ArrowLeft)) * step;
    let now = app.strip_cursor_mm.clamp(0.0, run.cut_length_mm);
    let new = (now + by).clamp(0.0, run.cut_length_mm);
    if (new - app.strip_cursor_mm).abs() > 0.0 {
        actions.push(Action::StripCursor(new));
    }
    Some(run.drawn_at_mm(new))
}

/// What the cut length is rounded up to.
fn bench_step_mm(unit: LengthUnit) -> f64 {
    match unit {
        LengthUnit::Mm => 1.0,
        LengthUnit::Inch => 25.4 / 16.0,
    }
}
