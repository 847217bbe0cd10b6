//! The bench strip: the selected hose laid straight, as it will lie on the bench, with its marks from
//! cut end A; above it how sharply it bends, against its limit. Pointing at it shows the place in every
//! view, and the reverse.

mod label;
mod layout;
mod menu;
mod paint;
mod slack;
mod words;

use eframe::egui::{
    Align2, CursorIcon, EventFilter, Key, Painter, Rect, Response, Role, Sense, Stroke, StrokeKind,
    Ui, WidgetInfo, accesskit, vec2,
};
use glam::dvec2;

use self::layout::{Shown, StripLayout};
use self::paint::Paint;
use crate::app::actions::Action;
use crate::app::canvas::camera::Area;
use crate::app::canvas::thing::Thing;
use crate::app::canvas::{OnStrip, PointedBy};
use crate::app::seen::Seen;
use crate::app::theme::{self, Palette, size};
use crate::app::tools::drag::Drag;
use crate::units::Length;

/// Its height in a window of this height, points.
pub(in crate::app) fn height(window_height: f32) -> f32 {
    if window_height < 860.0 { 116.0 } else { 190.0 }
}

/// Shows the strip; says where on the selected hose it is pointed at.
pub(in crate::app) fn bench(
    ui: &mut Ui,
    seen: &Seen<'_>,
    actions: &mut Vec<Action>,
) -> Option<OnStrip> {
    let colours = theme::palette(ui);
    let frame = ui.available_rect_before_wrap();
    let response = ui.allocate_rect(frame, Sense::click_and_drag());
    let painter = ui.painter_at(frame);
    painter.rect_filled(frame, 4.0, colours.sheet);
    painter.rect_stroke(frame, 4.0, Stroke::new(1.0, colours.hairline), StrokeKind::Inside);
    let title = painter.text(
        frame.min + vec2(12.0, 8.0),
        Align2::LEFT_TOP,
        "On the bench",
        theme::font(size::SMALL),
        colours.soft,
    );
    let Some(shown) = shown(seen) else {
        let name = "Bench strip, no hose selected";
        response.widget_info(|| WidgetInfo::labeled(Role::Group, true, name));
        return None;
    };
    let measure = |text: &str| {
        let font = theme::font(size::SMALL);
        f64::from(painter.layout_no_wrap(text.to_owned(), font, colours.ink).size().x)
    };
    let strip = StripLayout::new(shown, area(frame), &measure);
    let looked_at = seen.work.selected.finding;
    let paint = Paint {
        painter: &painter,
        colours,
        strip: &strip,
        selected: &seen.work.selected.things,
        looked_at,
    };
    paint.hose();
    menu::menu(ui, &response, &strip, shown, actions);
    slack::pull(ui, &response, &strip, shown, routing_id(seen), actions);
    let on_strip = pointed_at(ui, seen, &response, &strip, shown, actions);
    let at_mm = match &on_strip {
        Some(OnStrip { at_mm, by: PointedBy::Pointer, .. }) => Some(*at_mm),
        by_key => in_views(seen, &strip, shown).or(by_key.as_ref().map(|on| on.at_mm)),
    };
    let words = at_mm.map(|at_mm| strip.words_at(shown.solved, at_mm, shown.unit));
    let cursor = at_mm
        .zip(words.as_ref())
        .map(|(at_mm, words)| paint.cursor(strip.x(shown.solved, at_mm), words, title));
    let said = heading(shown);
    hose_title(&painter, frame, &said, cursor, title, colours);
    let place = words.map(|words| words.join(", "));
    name(&response, &said, place.as_deref());
    if response.has_focus() {
        let ring = Stroke::new(2.0, colours.accent);
        painter.rect_stroke(frame.shrink(2.0), 4.0, ring, StrokeKind::Inside);
    }
    on_strip
}

/// Where the views are pointed at, or something of the hose is held, along the drawn centre line.
fn in_views(seen: &Seen<'_>, strip: &StripLayout, shown: Shown<'_>) -> Option<f64> {
    seen.work.canvas.pointed_along(&shown.run.id).or_else(|| {
        let held = seen.work.drag.as_ref().and_then(Drag::thing);
        let thing = held.as_ref().or_else(|| seen.work.canvas.pointed_thing())?;
        Some(shown.solved.drawn_at_mm(strip.bench_mm(strip.middle_of(thing)?)))
    })
}

/// The id of the routing in view.
fn routing_id<'a>(seen: &Seen<'a>) -> Option<&'a str> {
    let bay = seen.work.bay()?;
    Some(bay.routings.get(seen.work.routing)?.id.as_str())
}

/// The selected hose, where it has a length.
fn shown<'a>(seen: &Seen<'a>) -> Option<Shown<'a>> {
    let (document, solved) = (seen.work.document.as_ref()?, seen.work.solved.as_ref()?);
    let bay = document.bay();
    let selected = seen.work.selected.run.as_deref()?;
    let mut runs = bay.routings.get(seen.work.routing)?.runs.iter().enumerate();
    let (index, run) = runs.find(|(_, run)| run.id == selected)?;
    let own = solved.answer.solution.run(index).filter(|own| own.cut_length_mm > 0.0)?;
    let unit = bay.show_units;
    let (findings, looked_at) = (solved.answer.findings.as_slice(), seen.work.selected.finding);
    let installed = solved
        .answer
        .solution
        .lay_of(index)
        .filter(|_| seen.work.canvas.installed)
        .map(|lay| &lay.installed);
    let told = &solved.answer.told;
    Some(Shown { run, solved: own, findings, told, looked_at, unit, installed })
}

fn area(frame: Rect) -> Area {
    let place = |p: eframe::egui::Pos2| dvec2(f64::from(p.x), f64::from(p.y));
    Area { min: place(frame.min), max: place(frame.max) }
}

fn heading(shown: Shown<'_>) -> String {
    let cut = Length::from_mm(shown.solved.cut_length_mm).bench(shown.unit);
    format!("{}, laid straight, {cut}", crate::app::words::run_name(shown.run))
}

/// The hose's name in the other corner, where the words at the cursor leave room for it.
fn hose_title(
    painter: &Painter,
    frame: Rect,
    said: &str,
    cursor: Option<Rect>,
    title: Rect,
    colours: &Palette,
) {
    let galley = painter.layout_no_wrap(said.to_owned(), theme::font(size::SMALL), colours.soft);
    let place = frame.right_top() + vec2(-12.0, 8.0);
    let own = Align2::RIGHT_TOP.anchor_size(place, galley.size());
    let taken = cursor.is_some_and(|cursor| cursor.intersects(own));
    if !taken && own.min.x > title.max.x + 8.0 {
        painter.galley(own.min, galley, colours.soft);
    }
}

/// For a screen reader: what is shown, and the place of the cursor as its value.
fn name(response: &Response, said: &str, place: Option<&str>) {
    let name = match place {
        Some(place) => format!("Bench strip, {said}; {place}"),
        None => format!("Bench strip, {said}"),
    };
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(Role::Slider, true, &name);
        info.current_text_value = place.map(str::to_owned);
        info
    });
    response.ctx.accesskit_node_builder(response.id, |node| {
        node.add_action(accesskit::Action::Increment);
        node.add_action(accesskit::Action::Decrement);
    });
}

/// Where the strip is pointed at, by the pointer or, while it has the focus, by the arrow keys.
fn pointed_at(
    ui: &Ui,
    seen: &Seen<'_>,
    response: &Response,
    strip: &StripLayout,
    shown: Shown<'_>,
    actions: &mut Vec<Action>,
) -> Option<OnStrip> {
    let hose = || Thing::Hose(shown.run.id.clone());
    let place = |bench_mm: f64, by: PointedBy| {
        let at_mm = shown.solved.drawn_at_mm(bench_mm);
        let via = strip.thing_at(strip.x(shown.solved, at_mm)).filter(|via| via.run().is_some());
        OnStrip { thing: via.cloned().unwrap_or_else(hose), at_mm, by }
    };
    if let Some(at) = response.hover_pos().or(response.interact_pointer_pos()) {
        let (x, y, reach) = (f64::from(at.x), f64::from(at.y), 12.0);
        if x < strip.left - reach || x > strip.right + reach {
            return None;
        }
        ui.set_cursor_icon(CursorIcon::PointingHand);
        let mark = strip.mark_at(x, y);
        if let Some(finding) = mark.and_then(|mark| shown.findings.get(mark)) {
            response.show_tooltip_text(&finding.message);
        }
        if response.clicked() {
            actions.push(match (mark, strip.thing_at(x)) {
                (Some(finding), _) => Action::LookAt(finding),
                (None, thing) => Action::Select(thing.cloned().unwrap_or_else(hose)),
            });
        }
        return Some(place(strip.bench_mm(x), PointedBy::Pointer));
    }
    let bench_mm = by_key(ui, seen, response, strip, shown, actions)?;
    Some(place(bench_mm, PointedBy::Keys))
}

/// Left and right go a bench step along, with Shift ten, Home and End to the cut ends; Enter selects
/// what is there.
fn by_key(
    ui: &Ui,
    seen: &Seen<'_>,
    response: &Response,
    strip: &StripLayout,
    shown: Shown<'_>,
    actions: &mut Vec<Action>,
) -> Option<f64> {
    let reader = |action| ui.input(|i| i.num_accesskit_action_requests(response.id, action)) as f64;
    let read = reader(accesskit::Action::Increment) - reader(accesskit::Action::Decrement);
    if !response.has_focus() && read == 0.0 {
        return None;
    }
    let filter = EventFilter { horizontal_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    let whole = shown.solved.cut_length_mm;
    let step =
        shown.unit.bench_step_mm() * if ui.input(|i| i.modifiers.shift) { 10.0 } else { 1.0 };
    let presses = |key: Key| ui.input(|i| i.num_presses(key)) as f64;
    let by = presses(Key::ArrowRight) - presses(Key::ArrowLeft) + read;
    let now = seen.strip_cursor_mm.clamp(0.0, whole);
    let new = match (presses(Key::Home) > 0.0, presses(Key::End) > 0.0) {
        (true, _) => 0.0,
        (_, true) => whole,
        _ => (now + by * step).clamp(0.0, whole),
    };
    if new != seen.strip_cursor_mm {
        actions.push(Action::StripCursor(new));
    }
    if response.clicked() {
        let thing = strip.thing_at(strip.x(shown.solved, shown.solved.drawn_at_mm(new))).cloned();
        let hose = || Thing::Hose(shown.run.id.clone());
        actions.push(Action::Select(thing.unwrap_or_else(hose)));
    }
    Some(new)
}
