//! Changes that are asked for in words: from a menu or by a key, on what is chosen.

use glam::{DVec2, DVec3};

use crate::app::App;
use crate::app::canvas::camera::View;
use crate::app::canvas::thing::{Thing, find_run};
use crate::document::{Command, Document, Item, fresh_id};
use crate::model::{Bay, Body, Clamp, Corner, Motion, Nature, Port, Run, Solid, Via};

/// A change asked for.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs, reason = "the names say it; fields are those of the things they name")]
pub enum Edit {
    /// Takes out what is chosen.
    Delete,
    Duplicate,
    /// Remembers what is chosen.
    Copy,
    /// Puts in again what was copied.
    Paste,
    Mirror {
        copy: bool,
    },
    /// Begins a hose on a port.
    HoseFrom(String),
    AddPort {
        view: View,
        at: DVec2,
    },
    AddCorner {
        run: String,
        at_mm: f64,
    },
    AddClamp {
        run: String,
        at_mm: f64,
    },
    /// A corner becomes a clamp, a clamp a corner.
    TurnVia {
        run: String,
        via: usize,
    },
    SwapEnds(String),
    SetNature(String, Nature),
    /// Puts the chosen ports and solids on a new body that rocks.
    NewBody,
    /// Puts them on a body, or fixes them to the bay.
    PutOn(Option<String>),
    /// Opens the little box to type a name in.
    Rename(Thing),
    /// The name that was typed there.
    Renamed(Thing, String),
    /// Closes it.
    StopRenaming,
}

/// How far a copy lies from its original, mm: to be seen beside it (our own default).
const COPY_BY: DVec3 = DVec3::new(40.0, 40.0, 0.0);
/// How far a new body rocks to either side, degrees: a placeholder to be replaced by what the mounts
/// allow (our own default).
const ROCK_DEG: f64 = 2.0;

impl App {
    /// Carries out a change asked for in words.
    pub(in crate::app) fn edit(&mut self, edit: Edit) {
        match edit {
            Edit::Delete => self.delete_chosen(),
            Edit::Duplicate => {
                self.make_copies(|items| Command::Copy { items, by: COPY_BY });
            }
            Edit::Copy => self.copied.clone_from(&self.chosen.things),
            Edit::Paste => {
                let Some(document) = &self.document else { return };
                let (bay, option) = (document.bay(), self.option);
                self.copied.retain(|thing| thing.exists(bay, option));
                if !self.copied.is_empty() {
                    self.chosen.things = self.copied.clone();
                    self.make_copies(|items| Command::Copy { items, by: COPY_BY });
                }
            }
            Edit::Mirror { copy: true } => {
                self.make_copies(|items| Command::Mirror { items, copy: true });
            }
            Edit::Mirror { copy: false } => {
                if let Some(items) = self.chosen_items() {
                    self.apply(&Command::Mirror { items, copy: false });
                }
            }
            Edit::HoseFrom(port) => self.hose_from(&port),
            Edit::AddPort { view, at } => self.add_port(view, at, false),
            Edit::AddCorner { run, at_mm } => self.add_corner(&run, at_mm),
            Edit::AddClamp { run, at_mm } => self.add_clamp(&run, at_mm),
            Edit::TurnVia { run, via } => self.turn_via(&run, via),
            Edit::SwapEnds(run) => self.change_run(&run, "Swap ends", swap_ends),
            Edit::SetNature(id, nature) => self.set_nature(&id, nature),
            Edit::NewBody => self.new_body(),
            Edit::PutOn(body) => self.put_on(body.as_deref()),
            Edit::Rename(thing) => {
                let Some(document) = &self.document else { return };
                let name = thing.name(document.bay(), self.option);
                self.renaming = Some((thing, name));
            }
            Edit::Renamed(thing, name) => {
                self.renaming = None;
                self.rename(&thing, name.trim());
            }
            Edit::StopRenaming => self.renaming = None,
        }
    }

    /// What is chosen, for the document; none where nothing is.
    pub(super) fn chosen_items(&self) -> Option<Vec<Item>> {
        let document = self.document.as_ref()?;
        let things = self.chosen.things.iter();
        let items: Vec<Item> =
            things.filter_map(|thing| thing.item(document.bay(), self.option)).collect();
        (!items.is_empty()).then_some(items)
    }

    fn delete_chosen(&mut self) {
        let Some(items) = self.chosen_items() else { return };
        self.apply(&Command::Delete(items));
        self.chosen.things.clear();
    }

    /// Copies become what is chosen, to be moved to where they belong.
    fn make_copies(&mut self, command: impl Fn(Vec<Item>) -> Command) {
        let (Some(items), Some(document)) = (self.chosen_items(), &self.document) else { return };
        let before = document.bay().clone();
        self.apply(&command(items));
        if let Some(document) = &self.document {
            let new = new_things(&before, document.bay(), self.option);
            if !new.is_empty() {
                self.chosen.things = new;
            }
        }
    }

    fn change_run(&mut self, id: &str, label: &'static str, change: impl Fn(&mut Run)) {
        let Some(bay) = self.document.as_ref().map(Document::bay) else { return };
        let (Some(option), Some(run)) =
            (bay.options.get(self.option), find_run(bay, self.option, id))
        else {
            return;
        };
        let mut run = run.clone();
        change(&mut run);
        let (option, id) = (option.id.clone(), id.to_owned());
        self.apply(&Command::SetRun { option, id, run: Box::new(run), label });
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
        let Some(solid) = self.document.as_ref().and_then(|d| d.bay().solid(id)) else { return };
        let solid = Box::new(Solid { nature, ..solid.clone() });
        self.apply(&Command::SetSolid { id: id.to_owned(), solid, label: "Change nature" });
    }

    fn new_body(&mut self) {
        let Some(document) = &self.document else { return };
        let bay = document.bay();
        let places = self.chosen.things.iter().filter(|t| rides(t));
        let places: Vec<DVec3> = places.filter_map(|t| t.place(bay, self.option)).collect();
        if places.is_empty() {
            self.say("Choose the ports and solids that move together first");
            return;
        }
        let middle = places.iter().sum::<DVec3>() / places.len() as f64;
        let body = Body {
            id: fresh_id("body-1", |id| bay.body(id).is_some()),
            name: format!("Body {}", bay.bodies.len() + 1),
            moves: vec![Motion::Rock {
                about: middle.round(),
                axis: DVec3::X,
                from_deg: -ROCK_DEG,
                to_deg: ROCK_DEG,
                extra: Vec::new(),
            }],
            extra: Vec::new(),
        };
        let id = body.id.clone();
        let mut commands = vec![Command::AddBody(Box::new(body))];
        commands.extend(self.rides_on(bay, Some(&id)));
        self.apply(&Command::Many { label: "Put on a new body", commands });
        self.chosen.things = vec![Thing::Body(id)];
        self.say("The new body rocks by 2\u{b0} to either side: set what its mounts allow");
    }

    fn put_on(&mut self, body: Option<&str>) {
        let Some(document) = &self.document else { return };
        let commands = self.rides_on(document.bay(), body);
        if !commands.is_empty() {
            let label = if body.is_some() { "Put on body" } else { "Fix to the bay" };
            self.apply(&Command::Many { label, commands });
        }
    }

    /// The chosen ports and solids, put on a body.
    fn rides_on(&self, bay: &Bay, body: Option<&str>) -> Vec<Command> {
        let body = body.map(str::to_owned);
        let label = "Put on body";
        let put = |thing: &Thing| match thing {
            Thing::Port(id) => {
                let port = Box::new(Port { body: body.clone(), ..bay.port(id)?.clone() });
                Some(Command::SetPort { id: id.clone(), port, label })
            }
            Thing::Solid(id) => {
                let solid = Box::new(Solid { body: body.clone(), ..bay.solid(id)?.clone() });
                Some(Command::SetSolid { id: id.clone(), solid, label })
            }
            _ => None,
        };
        self.chosen.things.iter().filter_map(put).collect()
    }

    fn rename(&mut self, thing: &Thing, name: &str) {
        let Some(document) = &self.document else { return };
        let bay = document.bay();
        let name = name.to_owned();
        let command = match thing {
            Thing::Port(id) => bay.port(id).map(|port| Command::SetPort {
                id: id.clone(),
                port: Box::new(Port { name, ..port.clone() }),
                label: "Rename port",
            }),
            Thing::Solid(id) => bay.solid(id).map(|solid| Command::SetSolid {
                id: id.clone(),
                solid: Box::new(Solid { name, ..solid.clone() }),
                label: "Rename solid",
            }),
            Thing::Body(id) => bay.body(id).map(|body| Command::SetBody {
                id: id.clone(),
                body: Box::new(Body { name, ..body.clone() }),
                label: "Rename body",
            }),
            Thing::Hose(id) => find_run(bay, self.option, id).map(|run| Command::SetRun {
                option: bay.options[self.option].id.clone(),
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
    matches!(thing, Thing::Port(_) | Thing::Solid(_))
}

/// End A becomes end B; the route stays where it is.
fn swap_ends(run: &mut Run) {
    std::mem::swap(&mut run.from, &mut run.to);
    run.via.reverse();
    for step in &mut run.via {
        if let Via::Clamp(clamp) = step {
            clamp.along = -clamp.along;
        }
    }
}

/// What a bay has that it had not before.
fn new_things(before: &Bay, after: &Bay, option: usize) -> Vec<Thing> {
    let mut new = Vec::new();
    let ports = after.ports.iter().filter(|port| before.port(&port.id).is_none());
    new.extend(ports.map(|port| Thing::Port(port.id.clone())));
    let solids = after.solids.iter().filter(|solid| before.solid(&solid.id).is_none());
    new.extend(solids.map(|solid| Thing::Solid(solid.id.clone())));
    let runs = after.options.get(option).map(|o| o.runs.as_slice()).unwrap_or_default();
    for run in runs {
        match find_run(before, option, &run.id) {
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
