//! What the pointer and the keyboard do in the views, told as actions. Everything that can be taken
//! hold of has a named stop: Tab reaches it, Enter selects it, arrow keys move it.

use std::sync::Arc;

use eframe::egui::{
    self, CursorIcon, EventFilter, Key, Rect, Response, Role, Sense, Ui, WidgetInfo, accesskit,
    vec2,
};
use glam::{DVec2, dvec2};

use super::camera::View;
use super::gesture::{Hit, Kind};
use super::layout::{Open, ViewLayout};
use super::pointer::{Paper, screen};
use super::scene::Scene;
use super::thing::Thing;
use super::{Canvas, Hover, Looking, MenuAt, menu, paint};
use crate::app::actions::Action;

/// What the pointer or the keyboard is at, in any view.
#[derive(Debug, Default)]
pub(super) struct Pointed {
    pub(super) hover: Option<Hover>,
    pub(super) finding: Option<(View, usize)>,
}

struct Place<'a> {
    layout: &'a ViewLayout,
    looking: &'a Looking<'a>,
    id: egui::Id,
    frame: Rect,
}

/// All views.
pub(super) fn views(
    ui: &mut Ui,
    canvas: &mut Canvas,
    layouts: &[Arc<ViewLayout>],
    looking: &Looking<'_>,
    actions: &mut Vec<Action>,
) -> Pointed {
    let mut pointed = Pointed::default();
    let open = Open { run: looking.run, finding: looking.finding };
    for layout in layouts {
        let frame = paint::rect(layout.area);
        let id = ui.scope_id().with(("view", layout.view));
        let place = Place { layout, looking, id, frame };
        let response = ui.interact(frame, id, Sense::click_and_drag());
        let name = format!("{} view", layout.view.name());
        response.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, &name));
        pointed_at(ui, &place, &response, open, &mut pointed);
        // Nobody walks through what is there while the pointer holds something; a screen reader may look.
        if looking.drag.is_none() || ui.ctx().has_accesskit_node(response.id) {
            stops(ui, &place, open, &mut pointed, actions);
        }
        if response.secondary_clicked() {
            let at = ui.input(|i| i.pointer.interact_pos()).map_or(layout.area.centre(), screen);
            let hit = layout.hit(looking.scene, at, open);
            let at_mm = layout.camera.from_screen(layout.area, at);
            canvas.menu = Some(MenuAt { view: layout.view, at_mm, hit });
        }
        if let Some(at) = canvas.menu.as_ref().filter(|menu| menu.view == layout.view) {
            response.context_menu(|ui| menu::show(ui, at, looking, actions));
        }
        wheel(ui, &place, &pointed, actions);
    }
    pointed
}

/// What was done with the pointer in the views as they were shown last. It is heard before anything is
/// drawn, so that a drag shows in the frame in which it was made.
pub(in crate::app) fn listen(
    ui: &Ui,
    canvas: &mut Canvas,
    scene: &Scene,
    open: Open<'_>,
    is_moving: bool,
    actions: &mut Vec<Action>,
) {
    let layouts = canvas.shown_last();
    let covered = std::mem::take(&mut canvas.covered);
    let paper = Paper { scene, layouts: &layouts, open, covered: &covered };
    let told = canvas.pointer.read(ui, &paper);
    canvas.covered = covered;
    for gesture in told.gestures {
        if gesture.kind != Kind::Move || is_moving || canvas.pointer.is_down() {
            actions.push(Action::Gesture(gesture));
        }
    }
    for (view, by) in told.pans {
        ui.set_cursor_icon(CursorIcon::Grabbing);
        actions.push(Action::Pan { view, by });
    }
}

/// What is under the pointer in one view.
fn pointed_at(ui: &Ui, place: &Place<'_>, paper: &Response, open: Open<'_>, pointed: &mut Pointed) {
    let Place { layout, looking, .. } = place;
    let Some(at) = paper.hover_pos().map(screen) else { return };
    if looking.drag.is_some() {
        ui.set_cursor_icon(CursorIcon::Grabbing);
        return;
    }
    let hit = layout.hit(looking.scene, at, open);
    let cursor = match looking.tool.cursor(hit.as_ref()) {
        // What is locked can be clicked.
        CursorIcon::Grab
            if hit.as_ref().and_then(Hit::thing).is_some_and(|t| looking.holds_fast(t)) =>
        {
            CursorIcon::PointingHand
        }
        cursor => cursor,
    };
    ui.set_cursor_icon(cursor);
    match hit {
        Some(Hit::Finding(finding)) => pointed.finding = Some((layout.view, finding)),
        Some(Hit::Thing { thing, along_mm }) => {
            pointed.hover = Hover::of(thing, along_mm, looking);
        }
        None => {}
    }
}

fn wheel(ui: &Ui, place: &Place<'_>, pointed: &Pointed, actions: &mut Vec<Action>) {
    let looking = place.looking;
    if !ui.rect_contains_pointer(place.frame) {
        return;
    }
    let (scroll, pinch, at) =
        ui.input(|i| (i.smooth_scroll_delta().y, i.zoom_delta(), i.pointer.hover_pos()));
    let factor = f64::from(pinch) * (f64::from(scroll) / 240.0).exp();
    if let (Some(at), true) = (at, (factor - 1.0).abs() > 1e-6) {
        let view = place.layout.view;
        // The selected hose, else the whole bay, stays in sight where the pointer is at nothing.
        let run = looking.run.map(|run| Thing::Hose(run.to_owned()));
        let hose = run.and_then(|hose| Hover::of(hose, None, looking)).map(|hover| hover.point);
        let middle = looking.scene.bounds.map(|(lo, hi)| (lo + hi) / 2.0);
        let anchor = pointed.hover.as_ref().map(|hover| hover.point).or(hose).or(middle);
        let at = screen(at);
        actions.push(Action::Zoom { view, factor, area: place.layout.area, at, anchor });
    }
}

/// A named stop for the keyboard and for screen readers at everything that can be selected. The
/// pointer goes through them to the paper.
fn stops(
    ui: &Ui,
    place: &Place<'_>,
    open: Open<'_>,
    pointed: &mut Pointed,
    actions: &mut Vec<Action>,
) {
    let Place { layout, looking, .. } = place;
    let scene = looking.scene;
    for shape in &layout.obstacles {
        let mark = &scene.obstacles[shape.index];
        let thing = Thing::Obstacle(mark.id.clone());
        let (lo, hi) = mark.shape.bounds();
        let middle = layout.view.project((lo + hi) / 2.0);
        let at = layout.camera.to_screen(layout.area, middle);
        let name = || format!("Obstacle {}", mark.name);
        stop(ui, place, &thing, &name, at, 8.0, pointed, actions);
    }
    for (mark, line) in scene.hoses.iter().zip(&layout.hoses) {
        let thing = Thing::Hose(mark.run.clone());
        let name = || format!("Hose {}", mark.name);
        stop(ui, place, &thing, &name, line.middle, 6.0, pointed, actions);
    }
    findings(ui, place, open, pointed, actions);
    for port in &layout.ports {
        let mark = &scene.ports[port.index];
        let thing = Thing::Port(mark.id.clone());
        let name = || format!("Port {}", mark.name);
        stop(ui, place, &thing, &name, port.at, port.radius + 3.0, pointed, actions);
    }
    for via in layout.vias.iter().filter(|via| open.has_via(via)) {
        stop(ui, place, &via.thing, &|| via.name.clone(), via.at, 9.0, pointed, actions);
    }
}

fn findings(
    ui: &Ui,
    place: &Place<'_>,
    open: Open<'_>,
    pointed: &mut Pointed,
    actions: &mut Vec<Action>,
) {
    let Place { layout, looking, .. } = place;
    for marker in layout.markers.iter().rev().filter(|marker| marker.is_shown(open.finding)) {
        let area = Rect::from_center_size(paint::at(marker.at), vec2(17.0, 17.0));
        if !place.frame.contains_rect(area) {
            continue;
        }
        let id = place.id.with(("finding", marker.finding));
        let response = ui.interact(area, id, Sense::focusable_noninteractive());
        response.widget_info(|| {
            let mark = looking.scene.finding(marker.finding);
            let said = mark.map_or("", |mark| &mark.of.message);
            let name = format!("{}: {said}, {}", marker.severity.noun(), lower(layout.view));
            WidgetInfo::labeled(Role::Button, true, name)
        });
        focus_ring(ui, &response);
        if response.has_focus() {
            pointed.finding = Some((layout.view, marker.finding));
        }
        if is_selected_by_key(ui, &response) {
            actions.push(Action::LookAt(marker.finding));
        }
    }
}

#[allow(
    clippy::too_many_arguments,
    reason = "one call site a kind of thing; a struct would only rename them"
)]
fn stop(
    ui: &Ui,
    place: &Place<'_>,
    thing: &Thing,
    name: &dyn Fn() -> String,
    at: DVec2,
    reach: f64,
    pointed: &mut Pointed,
    actions: &mut Vec<Action>,
) {
    let Place { layout, looking, .. } = place;
    let area = Rect::from_center_size(paint::at(at), vec2(2.0, 2.0) * reach as f32);
    if !place.frame.intersects(area) {
        return;
    }
    let area = area.intersect(place.frame);
    let response = ui.interact(area, place.id.with(thing), Sense::focusable_noninteractive());
    let selected = looking.selected.contains(thing);
    response.widget_info(|| {
        let name = format!("{}, {}", name(), lower(layout.view));
        WidgetInfo::selected(Role::Button, true, selected, name)
    });
    focus_ring(ui, &response);
    if is_selected_by_key(ui, &response) {
        actions.push(Action::Select(thing.clone()));
    }
    if response.has_focus() {
        if pointed.hover.is_none() {
            pointed.hover = Hover::of(thing.clone(), None, looking);
        }
        nudge(ui, layout.view, thing, &response, actions);
    }
}

/// Enter, the space bar, or a screen reader's click.
fn is_selected_by_key(ui: &Ui, response: &Response) -> bool {
    let asked = ui.input(|i| i.has_accesskit_action_request(response.id, accesskit::Action::Click));
    let pressed = |key: Key| ui.input_mut(|i| i.consume_key(egui::Modifiers::NONE, key));
    asked || (response.has_focus() && (pressed(Key::Enter) || pressed(Key::Space)))
}

/// Arrow keys move what has the focus.
fn nudge(ui: &Ui, view: View, thing: &Thing, response: &Response, actions: &mut Vec<Action>) {
    let filter =
        EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    if let Some(by) = arrows(ui) {
        actions.push(Action::Nudge { thing: Some(thing.clone()), view, by });
    }
}

/// How many steps of the bench the arrow keys of this frame move, in the plane of a view: with Shift ten, with
/// Alt a tenth.
pub(super) fn arrows(ui: &Ui) -> Option<DVec2> {
    let keys = [
        (Key::ArrowRight, DVec2::X),
        (Key::ArrowLeft, DVec2::NEG_X),
        (Key::ArrowUp, DVec2::Y),
        (Key::ArrowDown, DVec2::NEG_Y),
    ];
    let by = keys
        .iter()
        .fold(DVec2::ZERO, |by, (key, way)| by + *way * ui.input(|i| i.num_presses(*key)) as f64);
    let modifiers = ui.input(|i| i.modifiers);
    let step = match (modifiers.shift, modifiers.alt) {
        (true, _) => 10.0,
        (false, true) => 0.1,
        (false, false) => 1.0,
    };
    (by != dvec2(0.0, 0.0)).then_some(by * step)
}

fn lower(view: View) -> String {
    view.name().to_lowercase()
}

fn focus_ring(ui: &Ui, response: &Response) {
    if response.has_focus() {
        let stroke = egui::Stroke::new(2.0, crate::app::theme::palette(ui).accent);
        let ring = response.rect.expand(3.0);
        let painter = ui.ctx().layer_painter(egui::LayerId::new(
            egui::Order::Foreground,
            egui::Id::unique("focus ring"),
        ));
        painter.rect_stroke(ring, 4.0, stroke, egui::StrokeKind::Outside);
    }
}
