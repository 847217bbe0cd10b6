//! Selecting, moving, and pulling a bend out of a hose.

use std::sync::Arc;

use crate::app::actions::Edit;
use crate::app::canvas::gesture::{Gesture, Hit};
use crate::app::canvas::thing::Thing;
use crate::app::tools::Hand;
use crate::app::tools::drag::{Drag, Held};
use crate::app::work::Work;
use crate::engine::RunSolution;
use crate::model::{Bay, Port, Run};

impl Hand {
    pub(super) fn click_selecting(&mut self, work: &mut Work, gesture: &Gesture) {
        match gesture.hit.clone() {
            Some(Hit::Thing { thing, .. }) if gesture.adds => work.add_or_remove(thing),
            Some(Hit::Thing { thing, .. }) => work.select_thing(thing),
            Some(Hit::Finding(finding)) => work.look_at(finding),
            None if gesture.adds => {}
            None => {
                self.measurement = None;
                work.look_away();
            }
        }
    }

    pub(super) fn begin_rename(&mut self, work: &mut Work, thing: Thing) {
        if !matches!(thing, Thing::Via { .. }) {
            work.select_thing(thing.clone());
            self.edit(work, Edit::Rename(thing));
        }
    }
}

impl Work {
    pub(super) fn begin_selecting(&mut self, gesture: &Gesture) {
        match gesture.hit.clone() {
            Some(Hit::Thing { thing: Thing::Hose(run), along_mm: Some(at_mm) })
                if !gesture.adds =>
            {
                self.pull_bend(gesture, run, at_mm);
            }
            Some(Hit::Thing { thing, .. }) if self.holds_fast(&thing) => {
                self.begin_on_locked(gesture, &thing);
            }
            Some(Hit::Thing { thing, .. }) => self.begin_moving(gesture, thing),
            Some(Hit::Finding(_)) | None => self.begin_frame(gesture),
        }
    }

    fn holds_fast(&self, thing: &Thing) -> bool {
        self.bay().is_some_and(|bay| self.selected.holds_fast(thing, bay))
    }

    fn begin_frame(&mut self, gesture: &Gesture) {
        let place = gesture.view.with(glam::DVec3::ZERO, gesture.at);
        self.hold(Drag::new(Held::Frame { adds: gesture.adds }, gesture, place));
    }

    /// A drag never moves what is locked: it takes the hose that it was aimed at, or selects what it goes round.
    fn begin_on_locked(&mut self, gesture: &Gesture, thing: &Thing) {
        let is_selected = self.selected.things.contains(thing);
        let is_obstacle = matches!(thing, Thing::Obstacle(_));
        match gesture.near_hose.clone() {
            Some((run, at_mm)) if is_obstacle && !is_selected && !gesture.adds => {
                self.pull_bend(gesture, run, at_mm);
            }
            _ if is_selected => {
                let name = self.bay().map(|bay| thing.name(bay, self.routing)).unwrap_or_default();
                self.say(format!(
                    "{name} is locked. To drag it, unlock it in its menu (right button)"
                ));
            }
            _ => self.begin_frame(gesture),
        }
    }

    fn begin_moving(&mut self, gesture: &Gesture, thing: Thing) {
        if !self.selected.things.contains(&thing) {
            if gesture.adds {
                self.selected.things.push(thing.clone());
            } else {
                self.select_thing(thing.clone());
            }
        }
        let Some(bay) = self.bay() else { return };
        let Some(from) = thing.place(bay, self.routing) else { return };
        let mut all = self.selected.things.clone();
        let count = all.len();
        all.retain(|thing| !self.selected.holds_fast(thing, bay));
        let stay = count - all.len();
        let bay = Arc::clone(bay);
        if stay > 0 {
            let things = if stay == 1 { "thing stays" } else { "things stay" };
            self.say(format!("{stay} locked {things}"));
        }
        // They go with what they are screwed into, and are no marks to go by meanwhile.
        let is_on = |port: &&Port| {
            let on = port.on.clone().map(Thing::Obstacle);
            on.is_some_and(|on| all.contains(&on))
        };
        let along: Vec<Thing> =
            bay.ports.iter().filter(is_on).map(|port| Thing::Port(port.id.clone())).collect();
        all.extend(along);
        self.hold(Drag::new(Held::Things { grabbed: thing, all }, gesture, from));
    }

    /// Pulls a bend out of a hose, at a place along its drawn centre line.
    fn pull_bend(&mut self, gesture: &Gesture, run: String, at_mm: f64) {
        let Some((at, from)) = self.ask_run(&run, |solved, run| {
            (place_in_via(solved, run, at_mm), solved.centre_line.point_at(at_mm))
        }) else {
            return;
        };
        self.select_thing(Thing::Hose(run.clone()));
        self.hold(Drag::new(Held::NewCorner { run, at }, gesture, from));
    }

    fn add_or_remove(&mut self, thing: Thing) {
        let things = &mut self.selected.things;
        match things.iter().position(|other| *other == thing) {
            Some(at) => {
                things.remove(at);
            }
            None => things.push(thing),
        }
    }

    /// Selects what lies in the rectangle.
    pub(super) fn select_in_frame(&mut self, drag: &Drag, adds: bool) {
        if let Some(document) = &mut self.document {
            document.abort();
        }
        let Some(solved) = &self.solved else { return };
        let (from, to) = (drag.pointer, drag.view.project(drag.from));
        let found = self.canvas.things_between(
            &solved.scene,
            drag.view,
            from,
            to,
            self.selected.run.as_deref(),
        );
        if !adds {
            self.selected.things.clear();
        }
        for thing in found {
            if !self.selected.things.contains(&thing) {
                self.selected.things.push(thing);
            }
        }
        if let [thing] = &self.selected.things[..] {
            let thing = thing.clone();
            self.select_thing(thing);
        }
    }

    /// Everything, or everything of the kind that is selected.
    pub(in crate::app) fn select_all(&mut self, of_kind: bool) {
        let Some(document) = &self.document else { return };
        let like = self.selected.thing().cloned();
        let all = all_things(document.bay(), self.routing);
        self.selected.things = match (of_kind, like) {
            (true, Some(like)) => {
                let kind = std::mem::discriminant(&like);
                all.into_iter().filter(|t| std::mem::discriminant(t) == kind).collect()
            }
            _ => all,
        };
    }
}

fn all_things(bay: &Bay, routing: usize) -> Vec<Thing> {
    let ports = bay.ports.iter().map(|port| Thing::Port(port.id.clone()));
    let obstacles = bay.obstacles.iter().map(|obstacle| Thing::Obstacle(obstacle.id.clone()));
    let runs = bay.routings.get(routing).map(|routing| routing.runs.as_slice()).unwrap_or_default();
    let runs = runs.iter().map(|run| Thing::Hose(run.id.clone()));
    ports.chain(obstacles).chain(runs).collect()
}

/// The place in `Run::via` that a new corner or clamp takes, at a distance along the drawn centre
/// line.
pub(super) fn place_in_via(solved: &RunSolution, run: &Run, at_mm: f64) -> usize {
    use crate::engine::BendPlace;
    let bends = solved.bends();
    let reached = |via: usize| {
        let corner = bends.iter().find(|bend| bend.place == BendPlace::Corner(via as u32));
        let clamp = solved.clamps.iter().find(|clamp| clamp.via == via);
        corner.map(|bend| bend.at_mm).or_else(|| clamp.map(|clamp| clamp.at_mm))
    };
    // A corner that does not turn has no place of its own: it goes with the one before it.
    (0..run.via.len())
        .rev()
        .find(|via| reached(*via).is_some_and(|mm| mm < at_mm))
        .map_or(0, |v| v + 1)
}
