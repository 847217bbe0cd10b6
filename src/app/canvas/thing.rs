//! What can be pointed at, selected and taken hold of.

use glam::DVec3;

use crate::document::Item;
use crate::model::{Bay, Obstacle, Port, Run, Via};

/// A thing of the bay, by its ids; hoses are those of the routing in view.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Thing {
    /// A port.
    Port(String),
    /// An obstacle.
    Obstacle(String),
    /// A group.
    MovingGroup(String),
    /// A hose.
    Hose(String),
    /// A corner or a clamp of it.
    Via {
        /// Id of the run.
        run: String,
        /// Place in `Run::via`.
        via: usize,
    },
}

impl Thing {
    /// The run it is or belongs to.
    pub fn run(&self) -> Option<&str> {
        match self {
            Self::Hose(run) | Self::Via { run, .. } => Some(run),
            Self::Port(_) | Self::Obstacle(_) | Self::MovingGroup(_) => None,
        }
    }

    /// Where it is, where it has one place: a hose and a group have none.
    pub fn place(&self, bay: &Bay, routing: usize) -> Option<DVec3> {
        match self {
            Self::Port(id) => bay.port(id).map(|port| port.at),
            Self::Obstacle(id) => bay.obstacle(id).map(|obstacle| {
                let (lo, hi) = obstacle.shape.bounds();
                (lo + hi) / 2.0
            }),
            Self::Via { run, via } => Some(find_run(bay, routing, run)?.via.get(*via)?.at()),
            Self::Hose(_) | Self::MovingGroup(_) => None,
        }
    }

    /// Whether it is not to be dragged; what a hose is drawn by always is.
    pub fn is_locked(&self, bay: &Bay) -> bool {
        match self {
            Self::Port(id) => bay.port(id).is_some_and(Port::is_locked),
            Self::Obstacle(id) => bay.obstacle(id).is_some_and(Obstacle::is_locked),
            Self::MovingGroup(_) | Self::Hose(_) | Self::Via { .. } => false,
        }
    }

    /// Whether the pointer leaves it where it is: what is `fresh` from the hand and still selected can be put
    /// right, though it is locked.
    pub fn is_held_fast(&self, bay: &Bay, selected: &[Self], fresh: &[Self]) -> bool {
        self.is_locked(bay) && !(fresh.contains(self) && fresh == selected)
    }

    /// Whether it is there.
    pub fn exists(&self, bay: &Bay, routing: usize) -> bool {
        match self {
            Self::Port(id) => bay.port(id).is_some(),
            Self::Obstacle(id) => bay.obstacle(id).is_some(),
            Self::MovingGroup(id) => bay.group(id).is_some(),
            Self::Hose(run) => find_run(bay, routing, run).is_some(),
            Self::Via { run, via } => {
                find_run(bay, routing, run).is_some_and(|run| *via < run.via.len())
            }
        }
    }

    /// The same for the document.
    pub fn item(&self, bay: &Bay, routing: usize) -> Option<Item> {
        let routing = || bay.routings.get(routing).map(|routing| routing.id.clone());
        Some(match self {
            Self::Port(id) => Item::Port(id.clone()),
            Self::Obstacle(id) => Item::Obstacle(id.clone()),
            Self::MovingGroup(id) => Item::MovingGroup(id.clone()),
            Self::Hose(run) => Item::Run { routing: routing()?, run: run.clone() },
            Self::Via { run, via } => {
                Item::Via { routing: routing()?, run: run.clone(), via: *via }
            }
        })
    }

    /// What it is called: its name, else its id; "Corner 2 of Feed".
    pub fn name(&self, bay: &Bay, routing: usize) -> String {
        let named = |name: &str, id: &str| if name.is_empty() { id } else { name }.to_owned();
        match self {
            Self::Port(id) => bay.port(id).map_or(id.clone(), |port| named(&port.name, id)),
            Self::Obstacle(id) => {
                bay.obstacle(id).map_or(id.clone(), |obstacle| named(&obstacle.name, id))
            }
            Self::MovingGroup(id) => {
                bay.group(id).map_or(id.clone(), |group| named(&group.name, id))
            }
            Self::Hose(id) => {
                find_run(bay, routing, id).map_or(id.clone(), |run| named(&run.name, id))
            }
            Self::Via { run: id, via } => {
                let Some(run) = find_run(bay, routing, id) else { return id.clone() };
                format!("{} of {}", via_name(run, *via), named(&run.name, id))
            }
        }
    }
}

/// The run of this id in a routing.
pub fn find_run<'a>(bay: &'a Bay, routing: usize, run: &str) -> Option<&'a Run> {
    bay.routings.get(routing)?.runs.iter().find(|other| other.id == run)
}

/// "Corner 2", "Clamp 1".
pub fn via_name(run: &Run, via: usize) -> String {
    let is_clamp = |step: &Via| matches!(step, Via::Clamp(_));
    let clamp = run.via.get(via).is_some_and(is_clamp);
    let count = run.via.iter().take(via + 1).filter(|step| is_clamp(step) == clamp).count();
    format!("{} {count}", if clamp { "Clamp" } else { "Corner" })
}
