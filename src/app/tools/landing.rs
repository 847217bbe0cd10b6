//! Where what is held or put down lands: by what was typed, by what it snaps to, else on whole steps.

use glam::{DVec2, DVec3};

use super::hold::{Drag, Held};
use crate::app::App;
use crate::app::canvas::camera::View;
use crate::app::canvas::snap::{
    self, CutLengthTrial, RouteBeside, SnapRequest, Snapped, ThirdCoordinate,
};
use crate::app::canvas::thing::Thing;
use crate::engine::RunSolution;
use crate::model::Run;
use crate::units::LengthUnit;

impl App {
    /// Where what is held goes.
    pub(super) fn landing(&self) -> Option<Snapped> {
        let (drag, solved) = (self.drag.as_ref()?, self.solved.as_ref()?);
        let unit = solved.scene.unit;
        let raw = drag.pointer + drag.grip;
        if matches!(drag.held, Held::NewPort(_)) {
            return Some(Snapped::free(drag.from));
        }
        if self.drag_free || matches!(drag.held, Held::Frame { .. } | Held::NewHose) {
            return Some(Snapped::free(drag.typed.fix(
                drag.view.with(drag.from, raw),
                drag.view,
                unit,
            )));
        }
        let scale = self.canvas.cameras.of(drag.view).points_per_mm;
        let moving = drag.moving();
        // Before the first preview what is made has no place on its hose.
        let lead = drag.lead().filter(|_| drag.snapped.is_some());
        let route = lead.as_ref().and_then(|thing| self.beside(thing));
        let trial = lead.as_ref().and_then(|thing| {
            CutLengthTrial::new(self.document.as_ref()?.bay(), self.hose_of(thing)?, thing)
        });
        let alone = moving.len() <= 1;
        let cut_length = |place| trial.as_ref()?.cut_length(place);
        let view = (drag.view, scale);
        let request = SnapRequest {
            moving: &moving,
            route: route.as_ref().filter(|_| alone),
            cut_length: (trial.is_some() && alone).then_some(&cut_length),
            previous: drag.snapped.as_ref(),
            fixed: fixed(drag, raw, unit),
            ..match &drag.held {
                Held::Things { .. } => SnapRequest::moving(&solved.scene, view, drag.from, raw),
                _ => SnapRequest::placing(&solved.scene, view, third(drag), raw),
            }
        };
        Some(snap::snap(&request))
    }

    /// Where something new goes that is put down at `raw` in a view, mm.
    pub(super) fn landing_at(
        &self,
        view: View,
        raw: DVec2,
        free: bool,
    ) -> (DVec3, ThirdCoordinate) {
        let scale = self.canvas.cameras.of(view).points_per_mm;
        let axis = (0..3).find(|axis| !view.axes().contains(axis)).unwrap_or(2);
        let last_used = self.last_place.map(|place| place[axis]);
        let empty = crate::app::canvas::scene::Scene::default();
        let scene = self.solved.as_ref().map_or(&empty, |solved| &solved.scene);
        let third = snap::third_coordinate(scene, view, raw, scale, last_used);
        let mut place = view.with(DVec3::ZERO, raw);
        place[axis] = third.mm;
        if !free {
            place = snap::snap(&SnapRequest::placing(scene, (view, scale), third.mm, raw)).place;
        }
        (place, third)
    }

    /// What is before and after a corner or a clamp on its hose.
    fn beside(&self, thing: &Thing) -> Option<RouteBeside> {
        let Thing::Via { run, via } = thing else { return None };
        let (hose, solved) = self.hoses().find(|(hose, _)| hose.id == *run)?;
        RouteBeside::of(self.document.as_ref()?.bay(), hose, solved, *via)
    }

    /// The hoses of the option in view that could be solved.
    fn hoses(&self) -> impl Iterator<Item = (&Run, &RunSolution)> {
        let document = self.document.as_ref();
        let option = document.and_then(|document| document.bay().options.get(self.option));
        let runs = option.map(|option| option.runs.as_slice()).unwrap_or_default();
        runs.iter().enumerate().filter_map(|(i, run)| {
            let solved = self.solved.as_ref()?;
            Some((run, solved.routing.run(i)?))
        })
    }

    /// The one hose whose length changes with a thing: of several on one port, the chosen one.
    fn hose_of(&self, thing: &Thing) -> Option<&Run> {
        let changes = |run: &&Run| match thing {
            Thing::Port(port) => run.from.port == *port || run.to.port == *port,
            Thing::Via { run: id, .. } => run.id == *id,
            Thing::Hose(_) | Thing::Solid(_) | Thing::Body(_) => false,
        };
        let hoses = || self.hoses().map(|(run, _)| run).filter(changes);
        let chosen = hoses().find(|run| self.chosen.run.as_deref() == Some(run.id.as_str()));
        chosen.or_else(|| hoses().next().filter(|_| hoses().count() == 1))
    }
}

/// The coordinates that nothing moves: those that were typed, and of things that were there those that
/// the pointer has not moved by half a step.
fn fixed(drag: &Drag, raw: DVec2, unit: LengthUnit) -> [Option<f64>; 2] {
    let typed = drag.typed.values(unit);
    if !matches!(drag.held, Held::Things { .. }) {
        return typed;
    }
    let was = drag.view.project(drag.from);
    let stays = |axis: usize| (raw[axis] - was[axis]).abs() < snap::step_mm(unit) / 2.0;
    [0, 1].map(|axis| typed[axis].or_else(|| stays(axis).then_some(was[axis])))
}

/// The coordinate that the view of a drag does not show, mm.
fn third(drag: &Drag) -> f64 {
    let axis = (0..3).find(|axis| !drag.view.axes().contains(axis)).unwrap_or(2);
    drag.from[axis]
}

/// A place in a view, on whole steps of the unit.
pub(super) fn on_steps(at: DVec2, unit: LengthUnit) -> DVec2 {
    let step = snap::step_mm(unit);
    (at / step).round() * step
}
