//! Things of a bay by their ids.

use std::collections::BTreeSet;

use super::CommandError;
use crate::model::{Bay, MovingGroup, Obstacle, Port, Routing, Run, Via};

/// A thing of a bay, by its ids.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Item {
    /// A port.
    Port(String),
    /// An obstacle.
    Obstacle(String),
    /// A group.
    MovingGroup(String),
    /// A hose of a routing.
    Run {
        /// Id of the routing.
        routing: String,
        /// Id of the run.
        run: String,
    },
    /// A corner or a clamp of it.
    Via {
        /// Id of the routing.
        routing: String,
        /// Id of the run.
        run: String,
        /// Place in `Run::via`.
        via: usize,
    },
}

/// An id made of `base` that is not taken: `base` itself, or with the first free number behind it.
pub fn fresh_id(base: &str, taken: impl Fn(&str) -> bool) -> String {
    if !base.is_empty() && !taken(base) {
        return base.to_owned();
    }
    // "feed-2" becomes "feed-3", not "feed-2-2".
    let stem = match base.rsplit_once('-') {
        Some((stem, number))
            if !number.is_empty() && number.bytes().all(|b| b.is_ascii_digit()) =>
        {
            stem
        }
        _ => base,
    };
    let mut number = 2_u64;
    loop {
        let id = format!("{stem}-{number}");
        if !taken(&id) {
            return id;
        }
        number += 1;
    }
}

pub(super) fn port_mut<'a>(bay: &'a mut Bay, id: &str) -> Result<&'a mut Port, CommandError> {
    let found = bay.ports.iter_mut().find(|port| port.id == id);
    found.ok_or_else(|| CommandError::NoPort(id.to_owned()))
}

pub(super) fn obstacle_mut<'a>(
    bay: &'a mut Bay,
    id: &str,
) -> Result<&'a mut Obstacle, CommandError> {
    let found = bay.obstacles.iter_mut().find(|obstacle| obstacle.id == id);
    found.ok_or_else(|| CommandError::NoObstacle(id.to_owned()))
}

pub(super) fn group_mut<'a>(
    bay: &'a mut Bay,
    id: &str,
) -> Result<&'a mut MovingGroup, CommandError> {
    let found = bay.groups.iter_mut().find(|group| group.id == id);
    found.ok_or_else(|| CommandError::NoGroup(id.to_owned()))
}

pub(super) fn routing_mut<'a>(bay: &'a mut Bay, id: &str) -> Result<&'a mut Routing, CommandError> {
    let found = bay.routings.iter_mut().find(|routing| routing.id == id);
    found.ok_or_else(|| CommandError::NoRouting(id.to_owned()))
}

pub(super) fn run_mut<'a>(
    bay: &'a mut Bay,
    routing: &str,
    run: &str,
) -> Result<&'a mut Run, CommandError> {
    let runs = bay.routings.iter_mut().find(|o| o.id == routing).map(|o| &mut o.runs);
    let found = runs.and_then(|runs| runs.iter_mut().find(|r| r.id == run));
    found.ok_or_else(|| CommandError::NoRun { routing: routing.to_owned(), run: run.to_owned() })
}

pub(super) fn via_mut<'a>(
    bay: &'a mut Bay,
    routing: &str,
    run: &str,
    via: usize,
) -> Result<&'a mut Via, CommandError> {
    let steps = &mut run_mut(bay, routing, run)?.via;
    steps.get_mut(via).ok_or_else(|| CommandError::NoVia { run: run.to_owned(), via })
}

pub(super) fn find_via<'a>(bay: &'a Bay, routing: &str, run: &str, via: usize) -> Option<&'a Via> {
    let routing = bay.routings.iter().find(|o| o.id == routing)?;
    routing.runs.iter().find(|r| r.id == run)?.via.get(via)
}

/// The words for one thing of each kind, then for several: port, obstacle, group, hose, corner, clamp.
pub(super) struct Words {
    one: [&'static str; 6],
    several: &'static str,
}

macro_rules! words {
    ($name:ident, $verb:literal) => {
        pub(super) const $name: Words = Words {
            one: [
                concat!($verb, " port"),
                concat!($verb, " obstacle"),
                concat!($verb, " group"),
                concat!($verb, " hose"),
                concat!($verb, " corner"),
                concat!($verb, " clamp"),
            ],
            several: concat!($verb, " several things"),
        };
    };
}

words!(MOVE, "Move");
words!(DELETE, "Delete");
words!(COPY, "Copy");
words!(MIRROR, "Mirror");
words!(MIRROR_COPY, "Mirror a copy of");

/// "Move port", "Move several things".
pub(super) fn label(bay: &Bay, items: &[Item], words: &Words) -> &'static str {
    let kind = |item: &Item| match item {
        Item::Port(_) => 0,
        Item::Obstacle(_) => 1,
        Item::MovingGroup(_) => 2,
        Item::Run { .. } => 3,
        Item::Via { routing, run, via } => match find_via(bay, routing, run, *via) {
            Some(Via::Clamp(_)) => 5,
            _ => 4,
        },
    };
    let distinct: BTreeSet<&Item> = items.iter().collect();
    match distinct.into_iter().collect::<Vec<_>>()[..] {
        [item] => words.one[kind(item)],
        _ => words.several,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fresh_id_counts_on() {
        let taken = ["feed", "feed-2", "x-9"];
        let fresh = |base: &str| fresh_id(base, |id| taken.contains(&id));
        assert_eq!(fresh("return"), "return");
        assert_eq!(fresh("feed"), "feed-3");
        assert_eq!(fresh("feed-2"), "feed-3");
        assert_eq!(fresh("x-9"), "x-2");
    }
}
