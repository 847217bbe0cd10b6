//! What the finder lists.

use eframe::egui::Context;

use super::rank;
use crate::app::actions::{Action, Appearance, Ask, TABLE};
use crate::app::canvas::thing::Thing;
use crate::app::groups::Group;
use crate::app::key_list::key_words;
use crate::app::routings::routing_name;
use crate::app::samples::SAMPLES;
use crate::app::seen::Seen;
use crate::app::settings::Look;
use crate::app::words;
use crate::document::Document;

/// A line of the list.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Entry {
    pub(super) name: String,
    /// What kind of thing it is.
    pub(super) kind: &'static str,
    /// Its key, or a word more.
    pub(super) aside: String,
    pub(super) tip: String,
    /// Whether it can be done now.
    pub(super) can: bool,
    pub(super) action: Action,
}

/// What fits the letters, best first; what cannot be done now stands last among equals.
pub(super) fn found(ctx: &Context, seen: &Seen<'_>, typed: &str) -> Vec<Entry> {
    let fit = |entry: Entry| {
        let also = other_words(&entry.action).iter().filter_map(|word| rank::fit(typed, word));
        let worth = rank::fit(typed, &entry.name).into_iter().chain(also).max()?;
        Some((worth, entry))
    };
    let mut fitting: Vec<(i32, Entry)> = all(ctx, seen).into_iter().filter_map(fit).collect();
    if typed.trim().is_empty() {
        // Nothing is asked for yet: what can be done, in the order of the menus.
        fitting.retain(|(_, entry)| entry.can);
    }
    fitting.sort_by_key(|(worth, entry)| (std::cmp::Reverse(*worth), !entry.can));
    fitting.into_iter().map(|(_, entry)| entry).collect()
}

/// What else a request may be called.
fn other_words(action: &Action) -> &'static [&'static str] {
    match action {
        Action::Ask(Ask::Shopping) => {
            &["buy", "shop", "order", "price", "cost", "cut list", "spare"]
        }
        Action::Ask(Ask::Parts) => &["catalogue", "stock", "own hoses", "fittings"],
        _ => &[],
    }
}

fn all(ctx: &Context, seen: &Seen<'_>) -> Vec<Entry> {
    let mut entries = requests(ctx, seen);
    entries.extend(looks(seen));
    if let Some(document) = seen.work.document.as_ref() {
        entries.extend(routings(seen, document));
        entries.extend(things(seen, document));
    }
    entries.extend(SAMPLES.iter().enumerate().map(|(index, sample)| Entry {
        name: sample.name.to_owned(),
        kind: "sample",
        aside: String::new(),
        tip: sample.about.to_owned(),
        can: true,
        action: Action::OpenDemo(index),
    }));
    entries
}

fn requests(ctx: &Context, seen: &Seen<'_>) -> Vec<Entry> {
    let listed = TABLE.iter().filter(|spec| !matches!(spec.ask, Ask::Finder | Ask::Escape));
    let entry = |spec: &crate::app::actions::Spec| {
        let group = Group::of(spec.ask);
        let kind = Group::ALL.iter().find(|(other, _)| *other == group).map_or("", |(_, t)| t);
        Entry {
            name: spec.text.to_owned(),
            kind,
            aside: spec.keys.first().map(|key| key_words(ctx, *key)).unwrap_or_default(),
            tip: spec.tooltip.to_owned(),
            can: seen.can(spec.ask),
            action: Action::Ask(spec.ask),
        }
    };
    listed.map(entry).collect()
}

fn looks(seen: &Seen<'_>) -> impl Iterator<Item = Entry> {
    let now = seen.settings.look;
    Look::ALL.into_iter().map(move |(look, _, word)| Entry {
        name: format!("Colours: {}", word.to_lowercase()),
        kind: "View",
        aside: if look == now { "now".to_owned() } else { String::new() },
        tip: look.about().to_owned(),
        can: true,
        action: Action::Appearance(Appearance::Look(look)),
    })
}

fn routings<'a>(seen: &'a Seen<'_>, document: &'a Document) -> impl Iterator<Item = Entry> + 'a {
    document.bay().routings.iter().enumerate().map(|(index, routing)| {
        let name = routing_name(routing);
        Entry {
            name: name.to_owned(),
            kind: "routing",
            aside: if index == seen.work.routing { "in view".to_owned() } else { String::new() },
            tip: "Show this routing".to_owned(),
            can: true,
            action: Action::ShowRouting(index),
        }
    })
}

fn things<'a>(seen: &'a Seen<'_>, document: &'a Document) -> impl Iterator<Item = Entry> + 'a {
    let (bay, routing) = (document.bay(), seen.work.routing);
    let runs = bay.routings.get(routing).map(|routing| routing.runs.as_slice()).unwrap_or_default();
    let hoses = runs.iter().map(|run| (Thing::Hose(run.id.clone()), "hose", words::dash(run.dash)));
    let dash = |dash: Option<u32>| dash.map(words::dash).unwrap_or_default();
    let ports = bay.ports.iter().map(move |p| (Thing::Port(p.id.clone()), "port", dash(p.dash)));
    let obstacles =
        bay.obstacles.iter().map(|s| (Thing::Obstacle(s.id.clone()), "obstacle", String::new()));
    hoses.chain(ports).chain(obstacles).map(move |(thing, kind, aside)| Entry {
        name: thing.name(bay, routing),
        kind,
        aside,
        tip: "Select it and show it".to_owned(),
        can: true,
        action: Action::JumpTo(thing),
    })
}
