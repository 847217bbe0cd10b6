//! Where what is held or put down lands: by what was typed, by what it snaps to, else on whole steps.

use glam::{DVec2, DVec3};

use crate::app::canvas::camera::View;
use crate::app::canvas::gesture::Gesture;
use crate::app::canvas::snap::{
    self, CutLengthTrial, Neighbour, NeighbourKind, RouteBeside, SnapRequest, Snapped,
    ThirdCoordinate, third_axis,
};
use crate::app::canvas::thing::Thing;
use crate::app::tools::Hand;
use crate::app::tools::drag::{Drag, Held, Sketch};
use crate::app::work::Work;
use crate::geom::unit_or_x;
use crate::model::Run;
use crate::units::LengthUnit;

impl Hand {
    /// Where what is held goes.
    pub(super) fn landing(&self, work: &Work) -> Option<Snapped> {
        let (drag, solved) = (work.drag.as_ref()?, work.solved.as_ref()?);
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
        let scale = work.canvas.cameras.of(drag.view).points_per_mm;
        let moving = drag.moving();
        // Before the first preview what is made has no place on its hose.
        let moved = drag.thing().filter(|_| drag.snapped.is_some());
        let route = moved.as_ref().and_then(|thing| work.beside(thing));
        let trial = moved
            .as_ref()
            .and_then(|thing| CutLengthTrial::new(work.bay()?, work.hose_of(thing)?, thing));
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
                Held::Things { grabbed, .. } => SnapRequest {
                    half: work.half_extent(grabbed, drag.view),
                    ..SnapRequest::moving(&solved.scene, view, drag.from, raw)
                },
                Held::NewCorner { .. } => SnapRequest {
                    set_out: Some(drag.view.project(drag.from)),
                    ..SnapRequest::placing(&solved.scene, view, third(drag), raw)
                },
                _ => SnapRequest::placing(&solved.scene, view, third(drag), raw),
            }
        };
        Some(snap::snap(&request))
    }

    /// Where something new goes that is put down at `raw` in a view, mm.
    pub(super) fn landing_at(
        &self,
        work: &Work,
        view: View,
        raw: DVec2,
        free: bool,
    ) -> (DVec3, ThirdCoordinate) {
        let scale = work.canvas.cameras.of(view).points_per_mm;
        let axis = third_axis(view);
        let last_used = self.last_place.map(|place| place[axis]);
        let empty = crate::app::canvas::scene::Scene::default();
        let scene = work.solved.as_ref().map_or(&empty, |solved| &solved.scene);
        let third = snap::third_coordinate(scene, view, raw, scale, last_used);
        let mut place = view.with(DVec3::ZERO, raw);
        place[axis] = third.mm;
        if !free {
            place = snap::snap(&SnapRequest::placing(scene, (view, scale), third.mm, raw)).place;
        }
        (place, third)
    }
}

impl Work {
    /// Where the next corner of a hose goes that is being pulled, as far from the viewer as `before`,
    /// the corner or port that it comes from.
    pub(super) fn next_corner(&self, gesture: &Gesture, sketch: &Sketch, before: DVec3) -> Snapped {
        let at = gesture.view.with(before, gesture.at);
        let Some(solved) = self.solved.as_ref().filter(|_| !gesture.free) else {
            return Snapped::free(at);
        };
        let beyond = match sketch.corners.as_slice() {
            [.., beyond, _] => Some(*beyond),
            [_] => self.bay().and_then(|bay| bay.port(&sketch.port)).map(|p| p.at),
            [] => None,
        };
        let route = beyond.map(|beyond| RouteBeside {
            before: Some(Neighbour {
                at: before,
                toward: unit_or_x(before - beyond),
                kind: NeighbourKind::Corner,
                name: format!("corner {}", sketch.corners.len()),
            }),
            ..RouteBeside::default()
        });
        let view = (gesture.view, gesture.points_per_mm);
        let third = before[third_axis(gesture.view)];
        let previous = sketch.landed.as_ref().filter(|(view, _)| *view == gesture.view);
        snap::snap(&SnapRequest {
            route: route.as_ref(),
            previous: previous.map(|(_, snapped)| snapped),
            ..SnapRequest::placing(&solved.scene, view, third, gesture.at)
        })
    }

    /// Half of what an obstacle takes up in a view; other things are where they are.
    fn half_extent(&self, thing: &Thing, view: View) -> DVec2 {
        let bay = self.bay();
        let obstacle = match thing {
            Thing::Obstacle(id) => bay.and_then(|bay| bay.obstacle(id)),
            _ => None,
        };
        let half = obstacle.map(|obstacle| {
            let (lo, hi) = obstacle.shape.bounds();
            view.project(hi - lo) / 2.0
        });
        half.unwrap_or(DVec2::ZERO)
    }

    /// What is before and after a corner or a clamp on its hose.
    fn beside(&self, thing: &Thing) -> Option<RouteBeside> {
        let Thing::Via { run, via } = thing else { return None };
        let (hose, solved) = self.solved_runs().find(|(hose, _)| hose.id == *run)?;
        RouteBeside::of(self.bay()?, hose, solved, *via)
    }

    /// The one hose whose length changes with a thing: of several on one port, the selected one.
    fn hose_of(&self, thing: &Thing) -> Option<&Run> {
        let changes = |run: &&Run| match thing {
            Thing::Port(port) => run.from.port == *port || run.to.port == *port,
            Thing::Via { run: id, .. } => run.id == *id,
            Thing::Hose(_) | Thing::Obstacle(_) | Thing::MovingGroup(_) => false,
        };
        let hoses = || self.solved_runs().map(|(run, _)| run).filter(changes);
        let selected = hoses().find(|run| self.selected.run.as_deref() == Some(run.id.as_str()));
        selected.or_else(|| hoses().next().filter(|_| hoses().count() == 1))
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
    drag.from[third_axis(drag.view)]
}
