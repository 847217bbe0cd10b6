//! Things of a bay by their ids.

use std::collections::BTreeSet;

use super::CommandError;
use crate::model::{Bay, Body, Port, Routing, Run, Solid, Via};

/// A thing of a bay, by its ids.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Item {
    /// A port.
    Port(String),
    /// A solid.
    Solid(String),
    /// A body.
    Body(String),
    /// A hose of an option.
    Run {
        /// Id of the option.
        option: String,
        /// Id of the run.
        run: String,
    },
    /// A corner or a clamp of it.
    Via {
        /// Id of the option.
        option: String,
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

pub(super) fn solid_mut<'a>(bay: &'a mut Bay, id: &str) -> Result<&'a mut Solid, CommandError> {
    let found = bay.solids.iter_mut().find(|solid| solid.id == id);
    found.ok_or_else(|| CommandError::NoSolid(id.to_owned()))
}

pub(super) fn body_mut<'a>(bay: &'a mut Bay, id: &str) -> Result<&'a mut Body, CommandError> {
    let found = bay.bodies.iter_mut().find(|body| body.id == id);
    found.ok_or_else(|| CommandError::NoBody(id.to_owned()))
}

pub(super) fn option_mut<'a>(bay: &'a mut Bay, id: &str) -> Result<&'a mut Routing, CommandError> {
    let found = bay.options.iter_mut().find(|option| option.id == id);
    found.ok_or_else(|| CommandError::NoOption(id.to_owned()))
}

pub(super) fn run_mut<'a>(
    bay: &'a mut Bay,
    option: &str,
    run: &str,
) -> Result<&'a mut Run, CommandError> {
    let runs = bay.options.iter_mut().find(|o| o.id == option).map(|o| &mut o.runs);
    let found = runs.and_then(|runs| runs.iter_mut().find(|r| r.id == run));
    found.ok_or_else(|| CommandError::NoRun { option: option.to_owned(), run: run.to_owned() })
}

pub(super) fn via_mut<'a>(
    bay: &'a mut Bay,
    option: &str,
    run: &str,
    via: usize,
) -> Result<&'a mut Via, CommandError> {
    let steps = &mut run_mut(bay, option, run)?.via;
    steps.get_mut(via).ok_or_else(|| CommandError::NoVia { run: run.to_owned(), via })
}

pub(super) fn find_via<'a>(bay: &'a Bay, option: &str, run: &str, via: usize) -> Option<&'a Via> {
    let option = bay.options.iter().find(|o| o.id == option)?;
    option.runs.iter().find(|r| r.id == run)?.via.get(via)
}

/// The words for one thing of each kind, then for several: port, solid, body, hose, corner, clamp.
pub(super) struct Words {
    one: [&'static str; 6],
    several: &'static str,
}

macro_rules! words {
    ($name:ident, $verb:literal) => {
        pub(super) const $name: Words = Words {
            one: [
                concat!($verb, " port"),
                concat!($verb, " solid"),
                concat!($verb, " body"),
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
        Item::Solid(_) => 1,
        Item::Body(_) => 2,
        Item::Run { .. } => 3,
        Item::Via { option, run, via } => match find_via(bay, option, run, *via) {
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
