//! What the pointer and the keyboard do in a view, told as actions. Everything that can be taken
//! hold of is a widget with a name: Tab reaches it, arrow keys move it.

use eframe::egui::{
    self, CursorIcon, EventFilter, Key, PointerButton, Rect, Response, Role, Sense, Ui, WidgetInfo,
    vec2,
};
use glam::{DVec2, dvec2};

use super::camera::View;
use super::layout::{ViaShape, ViewLayout};
use super::thing::Thing;
use super::tool::Drag;
use super::{Hover, Looking, paint};
use crate::app::actions::Action;
use crate::checks::Severity;

/// What the pointer is over, in any view.
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

pub(super) fn view(
    ui: &mut Ui,
    layout: &ViewLayout,
    looking: &Looking<'_>,
    pointed: &mut Pointed,
    actions: &mut Vec<Action>,
) {
    let frame = paint::rect(layout.area);
    let id = ui.scope_id().with(("view", layout.view));
    let paper = ui.interact(frame, id, Sense::click_and_drag());
    let name = format!("{} view", layout.view.name());
    paper.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, &name));
    let place = Place { layout, looking, id, frame };
    pan(ui, &paper, layout.view, actions);
    if paper.double_clicked() {
        actions.push(Action::FitView(layout.view));
    }
    hoses(ui, &paper, &place, pointed, actions);
    findings(ui, &place, pointed, actions);
    for port in &layout.ports {
        let mark = &looking.scene.ports[port.index];
        let thing = Thing::Port(mark.id.clone());
        let name = format!("Port {}", mark.name);
        grip(ui, &place, &thing, &name, port.at, port.radius + 3.0, pointed, actions);
    }
    // What comes last lies on top: where things overlap, it is the chosen hose's, and of these the
    // one nearest the viewer that is taken hold of.
    let mut vias: Vec<&ViaShape> = layout.vias.iter().filter(|via| is_open(via, looking)).collect();
    vias.sort_by(|a, b| {
        let chosen = |via: &ViaShape| via.thing.run() == looking.run;
        chosen(a).cmp(&chosen(b)).then(a.depth.total_cmp(&b.depth))
    });
    for via in vias {
        grip(ui, &place, &via.thing, &via.name, via.at, 9.0, pointed, actions);
    }
    wheel(ui, &place, pointed, actions);
}

/// Clamps can always be taken hold of; corners only where they are shown, on the chosen hose.
fn is_open(via: &ViaShape, looking: &Looking<'_>) -> bool {
    via.clamp.is_some() || (via.thing.run() == looking.run && looking.run.is_some())
}

fn screen(p: egui::Pos2) -> DVec2 {
    dvec2(f64::from(p.x), f64::from(p.y))
}

/// Middle or right button, or the left one with the space bar held.
fn pan(ui: &Ui, response: &Response, view: View, actions: &mut Vec<Action>) {
    let space = ui.input(|i| i.key_down(Key::Space)) && !ui.ctx().text_edit_focused();
    let pans = response.dragged_by(PointerButton::Middle)
        || response.dragged_by(PointerButton::Secondary)
        || (space && response.dragged_by(PointerButton::Primary));
    if pans {
        ui.set_cursor_icon(CursorIcon::Grabbing);
        let by = response.drag_delta();
        if by != egui::Vec2::ZERO {
            actions.push(Action::Pan { view, by: dvec2(f64::from(by.x), f64::from(by.y)) });
        }
    }
}

fn wheel(ui: &Ui, place: &Place<'_>, pointed: &Pointed, actions: &mut Vec<Action>) {
    if !ui.rect_contains_pointer(place.frame) {
        return;
    }
    let (scroll, pinch, at) =
        ui.input(|i| (i.smooth_scroll_delta().y, i.zoom_delta(), i.pointer.hover_pos()));
    let factor = f64::from(pinch) * (f64::from(scroll) / 240.0).exp();
    if let (Some(at), true) = (at, (factor - 1.0).abs() > 1e-6) {
        let view = place.layout.view;
        let anchor = pointed.hover.as_ref().map(|hover| hover.point);
        actions.push(Action::Zoom {
            view,
            factor,
            area: place.layout.area,
            at: screen(at),
            anchor,
        });
    }
}

fn hoses(
    ui: &Ui,
    paper: &Response,
    place: &Place<'_>,
    pointed: &mut Pointed,
    actions: &mut Vec<Action>,
) {
    let Place { layout, looking, .. } = place;
    let scene = looking.scene;
    if let Some((hose, mm)) = paper.hover_pos().and_then(|at| layout.hose_at(screen(at))) {
        let mark = &scene.hoses[hose];
        let point = mark.line.point_at(mm);
        pointed.hover = Some(Hover { thing: Thing::Hose(mark.run.clone()), point });
        if !paper.dragged() {
            ui.set_cursor_icon(CursorIcon::PointingHand);
        }
    }
    if paper.clicked() {
        let under = paper.interact_pointer_pos().and_then(|at| layout.hose_at(screen(at)));
        actions.push(match under {
            Some((hose, _)) => Action::Select(Thing::Hose(scene.hoses[hose].run.clone())),
            None => Action::LookAway,
        });
    }
    // A named stop for the keyboard and for screen readers in the middle of every hose.
    for (mark, line) in scene.hoses.iter().zip(&layout.hoses) {
        let stop = Rect::from_center_size(paint::at(line.middle), vec2(12.0, 12.0));
        if !place.frame.contains_rect(stop) {
            continue;
        }
        let response = ui.interact(stop, place.id.with(("hose", &mark.run)), Sense::click());
        let chosen = looking.run == Some(mark.run.as_str());
        let name = format!("Hose {}, {}", mark.name, lower(layout.view));
        response.widget_info(|| WidgetInfo::selected(Role::Button, true, chosen, &name));
        focus_ring(ui, &response);
        if response.clicked() {
            actions.push(Action::Select(Thing::Hose(mark.run.clone())));
        }
        if response.hovered() {
            let point = mark.line.point_at(mark.line.length() / 2.0);
            pointed.hover = Some(Hover { thing: Thing::Hose(mark.run.clone()), point });
        }
    }
}

fn findings(ui: &Ui, place: &Place<'_>, pointed: &mut Pointed, actions: &mut Vec<Action>) {
    let Place { layout, looking, .. } = place;
    for marker in layout.markers.iter().rev() {
        let shown = marker.severity != Severity::Note || looking.finding == Some(marker.finding);
        let area = Rect::from_center_size(paint::at(marker.at), vec2(17.0, 17.0));
        if !shown || !place.frame.contains_rect(area) {
            continue;
        }
        let response =
            ui.interact(area, place.id.with(("finding", marker.finding)), Sense::click());
        let said = looking.scene.findings.iter().find(|mark| mark.index == marker.finding);
        let said = said.map_or("", |mark| mark.said.as_str());
        let name = format!("{}: {said}, {}", marker.severity.word(), lower(layout.view));
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
        focus_ring(ui, &response);
        if response.hovered() || response.has_focus() {
            pointed.finding = Some((layout.view, marker.finding));
        }
        if response.clicked() {
            actions.push(Action::LookAt(marker.finding));
        }
    }
}

fn lower(view: View) -> String {
    view.name().to_lowercase()
}

/// A thing that can be taken hold of.
#[allow(
    clippy::too_many_arguments,
    reason = "one call site a kind of thing; a struct would only rename them"
)]
fn grip(
    ui: &Ui,
    place: &Place<'_>,
    thing: &Thing,
    name: &str,
    at: DVec2,
    reach: f64,
    pointed: &mut Pointed,
    actions: &mut Vec<Action>,
) {
    let Place { layout, looking, .. } = place;
    let is_held = looking.drag.is_some_and(|drag| drag.thing == *thing && drag.view == layout.view);
    let area = Rect::from_center_size(paint::at(at), vec2(2.0, 2.0) * reach as f32);
    if !place.frame.intersects(area) && !is_held {
        return;
    }
    // What is being moved stays under the pointer even where it leaves the view.
    let area = if is_held { area } else { area.intersect(place.frame) };
    let response = ui.interact(area, place.id.with(thing), Sense::click_and_drag());
    let name = format!("{name}, {}", lower(layout.view));
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
    focus_ring(ui, &response);
    let Some(point) = thing.place(looking.bay, looking.option) else { return };
    if response.hovered() || response.has_focus() || is_held {
        pointed.hover = Some(Hover { thing: thing.clone(), point });
        ui.set_cursor_icon(if is_held { CursorIcon::Grabbing } else { CursorIcon::Grab });
    }
    if response.clicked() {
        actions.push(Action::Select(thing.clone()));
    }
    if ui.input(|i| i.key_down(Key::Space)) || !response.dragged_by(PointerButton::Primary) {
        pan(ui, &response, layout.view, actions);
    } else {
        drag(ui, place, thing, point, &response, actions);
    }
    if response.drag_stopped_by(PointerButton::Primary) {
        actions.push(Action::DragEnd);
    }
    if response.has_focus() {
        nudge(ui, layout.view, thing, &response, actions);
    }
}

fn drag(
    ui: &Ui,
    place: &Place<'_>,
    thing: &Thing,
    point: glam::DVec3,
    response: &Response,
    actions: &mut Vec<Action>,
) {
    let layout = place.layout;
    let in_view = |p: egui::Pos2| layout.camera.from_screen(layout.area, screen(p));
    if response.drag_started_by(PointerButton::Primary)
        && let Some(origin) = ui.input(|i| i.pointer.press_origin())
    {
        let grip = layout.view.project(point) - in_view(origin);
        let drag =
            Drag { thing: thing.clone(), view: layout.view, from: point, grip, snapped: None };
        actions.push(Action::DragBegin(drag));
    }
    // A pointer that is held still asks for nothing.
    let moved = response.drag_delta() != egui::Vec2::ZERO;
    if let (true, Some(at)) = (moved, response.interact_pointer_pos()) {
        actions.push(Action::DragTo { thing: thing.clone(), view: layout.view, to: in_view(at) });
    }
}

/// Arrow keys move what has the focus: 1 mm, with Shift 10 mm.
fn nudge(ui: &Ui, view: View, thing: &Thing, response: &Response, actions: &mut Vec<Action>) {
    let filter =
        EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    let arrows = [
        (Key::ArrowRight, DVec2::X),
        (Key::ArrowLeft, DVec2::NEG_X),
        (Key::ArrowUp, DVec2::Y),
        (Key::ArrowDown, DVec2::NEG_Y),
    ];
    for (key, by) in arrows {
        let (count, shift) = ui.input(|i| (i.num_presses(key), i.modifiers.shift));
        let step = if shift { 10.0 } else { 1.0 };
        if count > 0 {
            let by = by * step * count as f64;
            actions.push(Action::Nudge { thing: thing.clone(), view, by });
        }
    }
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
