//! What the pointer and the keyboard do in the turning view, told as actions.

use eframe::egui::{
    self, CursorIcon, EventFilter, Key, PointerButton, Role, Sense, Ui, WidgetInfo,
};
use glam::{DVec2, dvec2};

use super::super::interact::Pointed;
use super::super::thing::Thing;
use super::super::{Hover, Looking, paint};
use super::picture::{Of, Picture};
use crate::app::actions::Action;
use crate::app::canvas::turn::deed::Deed;

/// A press of an arrow key turns by as much as a drag of so many points: 15°.
const KEY_POINTS: f64 = 35.0;

/// The view takes pointer and keys. Says which obstacle is under the pointer, and where that is.
pub(in super::super) fn show(
    ui: &Ui,
    picture: &Picture,
    looking: &Looking<'_>,
    pointed: &mut Pointed,
    actions: &mut Vec<Action>,
) -> Option<(usize, DVec2)> {
    let frame = paint::rect(picture.area());
    let paper = ui.interact(frame, ui.scope_id().with("3-D view"), Sense::click_and_drag());
    paper.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, "3-D view"));
    turn(ui, &paper, actions);
    wheel(ui, &paper, actions);
    keys(ui, &paper, actions);
    if paper.double_clicked() {
        actions.push(Action::Turn(Deed::Fit));
    }
    let under = |at: egui::Pos2| under(picture, looking, screen(at));
    if paper.clicked() {
        let hit = paper.interact_pointer_pos().and_then(under);
        actions.push(hit.map_or(Action::LookAway, |hit| Action::Select(hit.thing(looking))));
    }
    let at = paper.hover_pos().filter(|_| !paper.dragged())?;
    match under(at)? {
        Hit::Thing(hover) => {
            pointed.hover = Some(hover);
            ui.set_cursor_icon(CursorIcon::PointingHand);
            None
        }
        Hit::Obstacle(index) => {
            let mark = &looking.scene.obstacles[index];
            pointed.hover = Hover::of(Thing::Obstacle(mark.id.clone()), None, looking);
            Some((index, screen(at)))
        }
    }
}

enum Hit {
    Thing(Hover),
    Obstacle(usize),
}

impl Hit {
    fn thing(self, looking: &Looking<'_>) -> Thing {
        match self {
            Self::Thing(hover) => hover.thing,
            Self::Obstacle(index) => Thing::Obstacle(looking.scene.obstacles[index].id.clone()),
        }
    }
}

fn under(picture: &Picture, looking: &Looking<'_>, at: DVec2) -> Option<Hit> {
    if let Some(port) = picture.port_under(at, 7.0) {
        let mark = &looking.scene.ports[port];
        return Hover::of(Thing::Port(mark.id.clone()), None, looking).map(Hit::Thing);
    }
    match picture.under(at)? {
        Of::Hose(index) => {
            let hose = &looking.scene.hoses[index];
            let along = picture.along(index, at);
            Hover::of(Thing::Hose(hose.run.clone()), along, looking).map(Hit::Thing)
        }
        Of::Obstacle(index) => Some(Hit::Obstacle(index)),
    }
}

fn screen(p: egui::Pos2) -> DVec2 {
    dvec2(f64::from(p.x), f64::from(p.y))
}

/// Any button turns; with Shift or the space bar it moves the paper.
fn turn(ui: &Ui, paper: &egui::Response, actions: &mut Vec<Action>) {
    let buttons = [PointerButton::Primary, PointerButton::Middle, PointerButton::Secondary];
    if !buttons.into_iter().any(|button| paper.dragged_by(button)) {
        return;
    }
    ui.set_cursor_icon(CursorIcon::Grabbing);
    let by = paper.drag_delta();
    let by = dvec2(f64::from(by.x), f64::from(by.y));
    let pans = ui.input(|i| i.modifiers.shift || i.key_down(Key::Space));
    if by != DVec2::ZERO {
        actions.push(Action::Turn(if pans { Deed::Pan(by) } else { Deed::Turn(by) }));
    }
}

fn wheel(ui: &Ui, paper: &egui::Response, actions: &mut Vec<Action>) {
    if !paper.contains_pointer() {
        return;
    }
    let (scroll, pinch, at) =
        ui.input(|i| (i.smooth_scroll_delta().y, i.zoom_delta(), i.pointer.hover_pos()));
    let factor = f64::from(pinch) * (f64::from(scroll) / 240.0).exp();
    if let (Some(at), true) = (at, (factor - 1.0).abs() > 1e-6) {
        actions.push(Action::Turn(Deed::Zoom { factor, at: screen(at) }));
    }
}

fn keys(ui: &Ui, paper: &egui::Response, actions: &mut Vec<Action>) {
    if !paper.has_focus() {
        return;
    }
    let filter =
        EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(paper.id, filter));
    for (key, by) in [
        (Key::ArrowRight, DVec2::X),
        (Key::ArrowLeft, DVec2::NEG_X),
        (Key::ArrowDown, DVec2::Y),
        (Key::ArrowUp, DVec2::NEG_Y),
    ] {
        let count = ui.input(|i| i.num_presses(key));
        if count > 0 {
            actions.push(Action::Turn(Deed::Turn(by * KEY_POINTS * count as f64)));
        }
    }
}
