//! Changes that are asked for in words: from a menu or by a key, on what is selected.

use glam::DVec3;

use crate::app::actions::Edit;
use crate::app::canvas::thing::{Thing, find_run};
use crate::app::tools::Hand;
use crate::app::work::Work;
use crate::document::{Command, Item, fresh_id};
use crate::model::{Bay, Clamp, Corner, Motion, MovingGroup, Nature, Obstacle, Port, Run, Via};

/// How far a copy lies from its original, mm: to be seen beside it (our own default).
const COPY_BY: DVec3 = DVec3::new(40.0, 40.0, 0.0);
/// How far a new group pivots to either side, degrees: a placeholder to be replaced by what the mounts
/// allow (our own default).
const PIVOT_DEG: f64 = 2.0;

impl Hand {
    /// Carries out a change asked for in words.
    pub(in crate::app) fn edit(&mut self, work: &mut Work, edit: Edit) {
        match edit {
            Edit::Delete => work.delete_selection(),
            Edit::Duplicate => {
                work.make_copies(|items| Command::Copy { items, by: COPY_BY });
            }
            Edit::Copy => self.copied.clone_from(&work.selected.things),
            Edit::Paste => {
                let Some(document) = &work.document else { return };
                let (bay, routing) = (document.bay(), work.routing);
                self.copied.retain(|thing| thing.exists(bay, routing));
                if !self.copied.is_empty() {
                    work.selected.things = self.copied.clone();
                    work.make_copies(|items| Command::Copy { items, by: COPY_BY });
                }
            }
            Edit::Mirror { copy: true } => {
                work.make_copies(|items| Command::Mirror { items, copy: true });
            }
            Edit::Mirror { copy: false } => {
                if let Some(items) = work.selected_items() {
                    work.apply(&Command::Mirror { items, copy: false });
                }
            }
            Edit::HoseFrom(port) => self.hose_from(work, &port),
            Edit::AddPort { view, at } => self.add_port(work, view, at, false),
            Edit::AddCorner { run, at_mm } => work.add_corner(&run, at_mm),
            Edit::AddClamp { run, at_mm } => work.add_clamp(&run, at_mm),
            Edit::TurnVia { run, via } => work.turn_via(&run, via),
            Edit::SwapEnds(run) => {
                let length_mm = work.ask_run(&run, |solved, _| solved.centreline_mm);
                work.change_run(&run, "Swap ends", |run| swap_ends(run, length_mm));
            }
            Edit::SetNature(id, nature) => work.set_nature(&id, nature),
            Edit::SetLocked(locked) => work.set_locked(locked),
            Edit::NewGroup => work.new_group(),
            Edit::PutOn(group) => work.put_on(group.as_deref()),
            Edit::Rename(thing) => {
                let Some(document) = &work.document else { return };
                let name = thing.name(document.bay(), work.routing);
                self.renaming = Some((thing, name));
            }
            Edit::Renamed(thing, name) => {
                self.renaming = None;
                work.rename(&thing, name.trim());
            }
            Edit::StopRenaming => self.renaming = None,
        }
    }
}

impl Work {
    fn delete_selection(&mut self) {
        let Some(items) = self.selected_items() else { return };
        self.apply(&Command::Delete(items));
        self.selected.things.clear();
    }

    /// Copies become what is selected, to be moved to where they belong.
    fn make_copies(&mut self, command: impl Fn(Vec<Item>) -> Command) {
        let (Some(items), Some(document)) = (self.selected_items(), &self.document) else { return };
        let before = document.bay().clone();
        self.apply(&command(items));
        if let Some(document) = &self.document {
            let new = new_things(&before, document.bay(), self.routing);
            if !new.is_empty() {
                self.selected.select_fresh(new);
            }
        }
    }

    fn change_run(&mut self, id: &str, label: &'static str, change: impl Fn(&mut Run)) {
        let Some(bay) = self.bay() else { return };
        let (Some(routing), Some(run)) =
            (bay.routings.get(self.routing), find_run(bay, self.routing, id))
        else {
            return;
        };
        let mut run = run.clone();
        change(&mut run);
        let (routing, id) = (routing.id.clone(), id.to_owned());
        self.apply(&Command::SetRun { routing, id, run: Box::new(run), label });
    }

    fn turn_via(&mut self, run: &str, via: usize) {
        let along = self.ask_run(run, |solved, _| {
            use crate::engine::BendPlace;
            let corner = BendPlace::Corner(via as u32);
            let bend = solved.bends().into_iter().find(|bend| bend.place == corner);
            bend.map(|bend| solved.centre_line.direction_at(bend.at_mm))
        });
        let along = along.flatten().unwrap_or(DVec3::X);
        self.change_run(run, "Turn corner into clamp or back", |run| {
            let Some(step) = run.via.get_mut(via) else { return };
            *step = match step {
                Via::Corner(corner) => Via::Clamp(Clamp {
                    at: corner.at,
                    along,
                    extra: corner.extra.clone(),
                    ..Clamp::default()
                }),
                Via::Clamp(clamp) => Via::Corner(Corner {
                    at: clamp.at,
                    extra: clamp.extra.clone(),
                    ..Corner::default()
                }),
            };
        });
    }

    fn set_nature(&mut self, id: &str, nature: Nature) {
        let Some(obstacle) = self.bay().and_then(|bay| bay.obstacle(id)) else {
            return;
        };
        let obstacle = Box::new(Obstacle { nature, ..obstacle.clone() });
        self.apply(&Command::SetObstacle { id: id.to_owned(), obstacle, label: "Change nature" });
    }

    /// Locks the selected ports and obstacles, or unlocks them.
    fn set_locked(&mut self, locked: bool) {
        let Some(bay) = self.bay() else { return };
        let label = if locked { "Lock" } else { "Unlock" };
        let set = |thing: &Thing| match thing {
            Thing::Port(id) => {
                let mut port = Box::new(bay.port(id)?.clone());
                port.lock(locked);
                Some(Command::SetPort { id: id.clone(), port, label })
            }
            Thing::Obstacle(id) => {
                let mut obstacle = Box::new(bay.obstacle(id)?.clone());
                obstacle.lock(locked);
                Some(Command::SetObstacle { id: id.clone(), obstacle, label })
            }
            _ => None,
        };
        let commands: Vec<Command> = self.selected.things.iter().filter_map(set).collect();
        self.selected.fresh.clear();
        self.apply(&Command::Many { label, commands });
    }

    fn new_group(&mut self) {
        let Some(bay) = self.bay() else { return };
        let places = self.selected.things.iter().filter(|t| rides(t));
        let places: Vec<DVec3> = places.filter_map(|t| t.place(bay, self.routing)).collect();
        if places.is_empty() {
            self.say("Select the ports and obstacles that move together first");
            return;
        }
        let middle = places.iter().sum::<DVec3>() / places.len() as f64;
        let group = MovingGroup {
            id: fresh_id("group-1", |id| bay.group(id).is_some()),
            name: format!("Group {}", bay.groups.len() + 1),
            moves: vec![Motion::Pivot {
                about: middle.round(),
                axis: DVec3::X,
                from_deg: -PIVOT_DEG,
                to_deg: PIVOT_DEG,
                extra: Vec::new(),
            }],
            extra: Vec::new(),
        };
        let id = group.id.clone();
        let mut commands = vec![Command::AddGroup(Box::new(group))];
        commands.extend(self.rides_on(bay, Some(&id)));
        self.apply(&Command::Many { label: "Put on a new group", commands });
        self.selected.things = vec![Thing::MovingGroup(id)];
        self.say("The new group pivots by 2\u{b0} to either side: set what its mounts allow");
    }

    fn put_on(&mut self, group: Option<&str>) {
        let Some(document) = &self.document else { return };
        let commands = self.rides_on(document.bay(), group);
        if !commands.is_empty() {
            let label = if group.is_some() { "Put on group" } else { "Fix to the bay" };
            self.apply(&Command::Many { label, commands });
        }
    }

    /// The selected ports and obstacles, put on a group, and the ports that are screwed into those obstacles.
    fn rides_on(&self, bay: &Bay, group: Option<&str>) -> Vec<Command> {
        let group = group.map(str::to_owned);
        let label = "Put on group";
        let put = |thing: &Thing| match thing {
            Thing::Port(id) => {
                let port = Box::new(Port { group: group.clone(), ..bay.port(id)?.clone() });
                Some(Command::SetPort { id: id.clone(), port, label })
            }
            Thing::Obstacle(id) => {
                let obstacle =
                    Box::new(Obstacle { group: group.clone(), ..bay.obstacle(id)?.clone() });
                Some(Command::SetObstacle { id: id.clone(), obstacle, label })
            }
            _ => None,
        };
        let selected = &self.selected.things;
        let is_along = |port: &&Port| {
            let on = port.on.clone().map(Thing::Obstacle);
            on.is_some_and(|on| selected.contains(&on))
                && !selected.contains(&Thing::Port(port.id.clone()))
        };
        let along = bay.ports.iter().filter(is_along).map(|port| Thing::Port(port.id.clone()));
        selected.iter().cloned().chain(along).filter_map(|thing| put(&thing)).collect()
    }

    fn rename(&mut self, thing: &Thing, name: &str) {
        let Some(bay) = self.bay() else { return };
        let name = name.to_owned();
        let command = match thing {
            Thing::Port(id) => bay.port(id).map(|port| Command::SetPort {
                id: id.clone(),
                port: Box::new(Port { name, ..port.clone() }),
                label: "Rename port",
            }),
            Thing::Obstacle(id) => bay.obstacle(id).map(|obstacle| Command::SetObstacle {
                id: id.clone(),
                obstacle: Box::new(Obstacle { name, ..obstacle.clone() }),
                label: "Rename obstacle",
            }),
            Thing::MovingGroup(id) => bay.group(id).map(|group| Command::SetGroup {
                id: id.clone(),
                group: Box::new(MovingGroup { name, ..group.clone() }),
                label: "Rename group",
            }),
            Thing::Hose(id) => find_run(bay, self.routing, id).map(|run| Command::SetRun {
                routing: bay.routings[self.routing].id.clone(),
                id: id.clone(),
                run: Box::new(Run { name, ..run.clone() }),
                label: "Rename hose",
            }),
            Thing::Via { .. } => None,
        };
        if let Some(command) = command {
            self.apply(&command);
        }
    }
}

fn rides(thing: &Thing) -> bool {
    matches!(thing, Thing::Port(_) | Thing::Obstacle(_))
}

/// End A becomes end B; the route stays where it is, and so do the sleeves where its length is known.
fn swap_ends(run: &mut Run, centreline_mm: Option<f64>) {
    if let Some(length_mm) = centreline_mm {
        let sleeves = std::mem::take(&mut run.sleeves).into_iter();
        run.sleeves = sleeves.map(|sleeve| sleeve.swapped(length_mm)).collect();
    }
    std::mem::swap(&mut run.from, &mut run.to);
    run.via.reverse();
    for step in &mut run.via {
        if let Via::Clamp(clamp) = step {
            clamp.along = -clamp.along;
        }
    }
}

/// What a bay has that it had not before.
fn new_things(before: &Bay, after: &Bay, routing: usize) -> Vec<Thing> {
    let mut new = Vec::new();
    let ports = after.ports.iter().filter(|port| before.port(&port.id).is_none());
    new.extend(ports.map(|port| Thing::Port(port.id.clone())));
    let obstacles =
        after.obstacles.iter().filter(|obstacle| before.obstacle(&obstacle.id).is_none());
    new.extend(obstacles.map(|obstacle| Thing::Obstacle(obstacle.id.clone())));
    let runs = after.routings.get(routing).map(|o| o.runs.as_slice()).unwrap_or_default();
    for run in runs {
        match find_run(before, routing, &run.id) {
            None => new.push(Thing::Hose(run.id.clone())),
            Some(old) if old.via.len() < run.via.len() => {
                let added = (0..run.via.len()).filter(|via| !old.via.contains(&run.via[*via]));
                new.extend(added.map(|via| Thing::Via { run: run.id.clone(), via }));
            }
            Some(_) => {}
        }
    }
    new
}
