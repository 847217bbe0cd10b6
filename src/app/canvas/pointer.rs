//! From the raw events of pointer and keyboard to gestures in a view. Events are taken one by one,
//! in their order: a drag that is over within one slow frame is still a drag from where it was
//! pressed.

use std::sync::Arc;

use eframe::egui::{self, Event, Modifiers, PointerButton, Pos2, Rect, Ui};
use glam::{DVec2, dvec2};

use super::camera::View;
use super::gesture::{Gesture, Kind};
use super::layout::{Open, ViewLayout};
use super::scene::Scene;

/// The pointer between two events.
#[derive(Debug, Clone, Default)]
pub struct Pointer {
    press: Option<Press>,
    /// The last click: where and when, to tell a double one.
    clicked: Option<(DVec2, f64)>,
}

#[derive(Debug, Clone)]
struct Press {
    view: View,
    button: PointerButton,
    at: DVec2,
    last: DVec2,
    moved: bool,
}

/// What the events of one frame come to.
#[derive(Debug, Default)]
pub(super) struct PointerInput {
    pub(super) gestures: Vec<Gesture>,
    /// A view is dragged along with the middle or right button, or with the space bar.
    pub(super) pans: Vec<(View, DVec2)>,
}

/// A press may tremble by this much, screen points.
const TREMBLE: f64 = 4.0;
/// Two clicks within this time and distance are a double one.
const DOUBLE_SECONDS: f64 = 0.4;
const DOUBLE_POINTS: f64 = 6.0;

/// A drag that begins on what is locked takes hold of a hose so near, screen points.
const NEAR_HOSE: f64 = 12.0;

/// What a frame's events are read against.
pub(super) struct Paper<'a> {
    pub(super) scene: &'a Scene,
    pub(super) layouts: &'a [Arc<ViewLayout>],
    pub(super) open: Open<'a>,
    /// Buttons that lie on the views.
    pub(super) covered: &'a [Rect],
}

impl Pointer {
    /// Whether the primary button is down in a view.
    pub fn is_down(&self) -> bool {
        self.press.as_ref().is_some_and(|press| press.button == PointerButton::Primary)
    }

    /// Whether a view is being dragged along.
    pub(super) fn pans(&self) -> bool {
        self.press
            .as_ref()
            .is_some_and(|press| press.moved && press.button != PointerButton::Primary)
    }

    /// Reads the events of this frame.
    pub(super) fn read(&mut self, ui: &Ui, paper: &Paper<'_>) -> PointerInput {
        let mut told = PointerInput::default();
        let (events, space, now) =
            ui.input(|i| (i.events.clone(), i.key_down(egui::Key::Space), i.time));
        let space = space && !ui.ctx().text_edit_focused();
        let mut modifiers = ui.input(|i| i.modifiers);
        for event in &events {
            match *event {
                Event::PointerButton { pos, button, pressed: true, modifiers: with } => {
                    modifiers = with;
                    self.press(ui, paper, pos, button, space);
                }
                Event::PointerButton { pos, button, pressed: false, modifiers: with } => {
                    modifiers = with;
                    self.moved(paper, pos, modifiers, &mut told);
                    self.release(paper, (screen(pos), now), button, modifiers, &mut told);
                }
                Event::PointerMoved(pos) => self.moved(paper, pos, modifiers, &mut told),
                Event::PointerGone if self.press.is_none() => {}
                _ => {}
            }
        }
        told
    }

    fn press(&mut self, ui: &Ui, paper: &Paper<'_>, pos: Pos2, button: PointerButton, space: bool) {
        let at = screen(pos);
        let on_top = ui.ctx().layer_id_at(pos).is_none_or(|layer| layer == ui.layer_id());
        let free = on_top && !paper.covered.iter().any(|rect| rect.contains(pos));
        let layout = paper.layouts.iter().find(|layout| layout.area.contains(at));
        if let (Some(layout), true, None) = (layout, free, &self.press) {
            let button = match button {
                PointerButton::Primary if space => PointerButton::Middle,
                other => other,
            };
            self.press = Some(Press { view: layout.view, button, at, last: at, moved: false });
        }
    }

    fn moved(
        &mut self,
        paper: &Paper<'_>,
        pos: Pos2,
        modifiers: Modifiers,
        told: &mut PointerInput,
    ) {
        let at = screen(pos);
        let Some(press) = &mut self.press else {
            // Only the last place of a pointer that hovers counts; what is drawn follows it.
            let layout = paper.layouts.iter().find(|layout| layout.area.contains(at));
            if let Some(layout) = layout {
                told.gestures.retain(|g| g.kind != Kind::Move);
                told.gestures.push(paper.gesture(Kind::Move, layout.view, at, modifiers));
            }
            return;
        };
        if at == press.last || (!press.moved && at.distance(press.at) <= TREMBLE) {
            return;
        }
        let by = at - press.last;
        let (view, from, began) = (press.view, press.at, !press.moved);
        press.last = at;
        press.moved = true;
        if press.button == PointerButton::Primary {
            if began {
                told.gestures.push(paper.gesture(Kind::Begin, view, from, modifiers));
            }
            told.gestures.push(paper.gesture(Kind::Move, view, at, modifiers));
        } else {
            told.pans.push((view, by));
        }
    }

    fn release(
        &mut self,
        paper: &Paper<'_>,
        (at, now): (DVec2, f64),
        button: PointerButton,
        modifiers: Modifiers,
        told: &mut PointerInput,
    ) {
        let Some(press) = &self.press else { return };
        let same = press.button == button
            || (press.button == PointerButton::Middle && button == PointerButton::Primary);
        if !same {
            return;
        }
        let (view, moved, primary) =
            (press.view, press.moved, press.button == PointerButton::Primary);
        self.press = None;
        if !primary {
            return;
        }
        if moved {
            told.gestures.push(paper.gesture(Kind::End, view, at, modifiers));
            return;
        }
        let double = self.clicked.is_some_and(|(place, time)| {
            now - time <= DOUBLE_SECONDS && place.distance(at) <= DOUBLE_POINTS
        });
        self.clicked = (!double).then_some((at, now));
        let kind = if double { Kind::DoubleClick } else { Kind::Click };
        told.gestures.push(paper.gesture(kind, view, at, modifiers));
    }
}

impl Paper<'_> {
    fn gesture(&self, kind: Kind, view: View, on_screen: DVec2, modifiers: Modifiers) -> Gesture {
        let layout = self.layouts.iter().find(|layout| layout.view == view);
        let camera = layout.map(|layout| layout.camera).unwrap_or_default();
        let area = layout.map(|layout| layout.area).unwrap_or_default();
        Gesture {
            kind,
            view,
            at: camera.from_screen(area, on_screen),
            on_screen,
            hit: layout.and_then(|layout| match kind {
                Kind::Begin => layout.hit_to_drag(self.scene, on_screen, self.open),
                _ => layout.hit(self.scene, on_screen, self.open),
            }),
            near_hose: layout
                .filter(|_| kind == Kind::Begin)
                .and_then(|layout| layout.hose_within(on_screen, NEAR_HOSE))
                .and_then(|(hose, mm)| Some((self.scene.hoses.get(hose)?.run.clone(), mm))),
            points_per_mm: camera.points_per_mm,
            adds: modifiers.shift,
            free: modifiers.alt || modifiers.command,
        }
    }
}

/// To the f64 screen of the layouts.
pub(super) fn screen(p: Pos2) -> DVec2 {
    dvec2(f64::from(p.x), f64::from(p.y))
}
