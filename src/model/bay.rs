//! The bay itself: groups, ports, and everything else hung on it.

use std::fmt::Arguments;

use glam::DVec3;
use serde_json::Value;

use super::{Background, BackgroundEntry, Obstacle, Routing, Stock, Tilt};
use crate::units::LengthUnit;

/// Keys of the file that this version does not know, kept in order so that saving loses nothing.
pub type Extra = Vec<(String, Value)>;

/// One engine bay, with every routing of its hoses.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bay {
    /// Shown at the top of window and sheet.
    pub title: String,
    /// The builder's own notes.
    pub notes: String,
    /// Units for display.
    pub show_units: LengthUnit,
    /// Rigid things that ports and obstacles may ride on.
    pub groups: Vec<MovingGroup>,
    /// Where hoses are screwed on.
    pub ports: Vec<Port>,
    /// What a hose must stay clear of.
    pub obstacles: Vec<Obstacle>,
    /// Photos and outlines under a view, the lowest first.
    pub backgrounds: Vec<BackgroundEntry>,
    /// How far the vehicle or boat tilts in service; level only where absent.
    pub tilt: Option<Tilt>,
    /// What this bay adds to, or overrides in, the built-in catalogue.
    pub stock: Stock,
    /// Routings of the whole bay; the first is shown on opening. Never empty in a loaded bay.
    pub routings: Vec<Routing>,
    /// Unknown keys of the file's top object.
    pub extra: Extra,
}

impl Bay {
    /// The port of this id.
    pub fn port(&self, id: &str) -> Option<&Port> {
        // Ids mostly differ in their last letter, and this is asked hundreds of times in a step of a drag.
        let last = id.as_bytes().last();
        self.ports.iter().find(|port| port.id.as_bytes().last() == last && port.id == id)
    }

    /// The group of this id.
    pub fn group(&self, id: &str) -> Option<&MovingGroup> {
        self.groups.iter().find(|b| b.id == id)
    }

    /// The obstacle of this id.
    pub fn obstacle(&self, id: &str) -> Option<&Obstacle> {
        self.obstacles.iter().find(|s| s.id == id)
    }

    /// The background of this id.
    pub fn background(&self, id: &str) -> Option<&Background> {
        self.backgrounds.iter().filter_map(BackgroundEntry::known).find(|u| u.id == id)
    }

    /// The place in `routings` of the routing of this id.
    pub fn routing_index(&self, id: &str) -> Option<usize> {
        self.routings.iter().position(|o| o.id == id)
    }

    /// The same; where no routing has this id, that of this letter, as the routings are shown: A is the
    /// first, in either case.
    pub fn routing_called(&self, wanted: &str) -> Option<usize> {
        self.routing_index(wanted).or_else(|| {
            let mut letters = wanted.chars();
            let (letter, more) = (letters.next()?.to_ascii_uppercase(), letters.next());
            let is_this = |place: &usize| routing_letter(*place) == letter && more.is_none();
            (0..self.routings.len()).find(is_this)
        })
    }
}

/// The letter that a routing is shown with, by its place in the bay; past the 26th all have Z.
pub fn routing_letter(place: usize) -> char {
    char::from(b'A'.saturating_add(place.min(25) as u8))
}

/// A rigid thing that moves against the bay: an engine on its mounts, a steering arm.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MovingGroup {
    /// Unique among groups.
    pub id: String,
    /// Shown to the user.
    pub name: String,
    /// How it moves.
    pub moves: Vec<Motion>,
    /// Unknown keys.
    pub extra: Extra,
}

/// One movement of a group, between two extremes; the position as drawn is the drawn one.
#[derive(Debug, Clone, PartialEq)]
pub enum Motion {
    /// A rotation about a line.
    Pivot {
        /// A point on the line.
        about: DVec3,
        /// The line's direction, not of unit length.
        axis: DVec3,
        /// First extreme.
        from_deg: f64,
        /// Second extreme.
        to_deg: f64,
        /// Unknown keys.
        extra: Extra,
    },
    /// A translation.
    Slide {
        /// First extreme.
        from: DVec3,
        /// Second extreme.
        to: DVec3,
        /// Unknown keys.
        extra: Extra,
    },
}

/// A seat that an end fitting is screwed on to.
#[derive(Debug, Clone, PartialEq)]
pub struct Port {
    /// Unique among ports.
    pub id: String,
    /// Shown to the user.
    pub name: String,
    /// Centre of the sealing seat.
    pub at: DVec3,
    /// The way a straight end's hose leaves; non-zero, not of unit length.
    pub toward: DVec3,
    /// Its size; unchecked where absent.
    pub dash: Option<u32>,
    /// The group it rides on.
    pub group: Option<String>,
    /// The obstacle it is screwed into.
    pub on: Option<String>,
    /// Whether the pointer leaves it where it is; absent, it does where it is screwed into something.
    pub locked: Option<bool>,
    /// Unknown keys.
    pub extra: Extra,
}

impl Port {
    /// Whether it is not to be dragged.
    pub fn is_locked(&self) -> bool {
        self.locked.unwrap_or(self.on.is_some())
    }

    /// Locks or unlocks it; what goes without saying is not said.
    pub fn lock(&mut self, locked: bool) {
        self.locked = (locked != self.on.is_some()).then_some(locked);
    }
}

/// The JSON Pointers (RFC 6901) of every key in the bay that this version does not know, in the
/// order of the file.
pub fn unknown_keys(bay: &Bay) -> Vec<String> {
    let mut found = Vec::new();
    let mut at = |place: Arguments<'_>, extra: &Extra| {
        found.extend(extra.iter().map(|(key, _)| format!("{place}/{}", escape_pointer(key))));
    };
    at(format_args!(""), &bay.extra);
    for (i, group) in bay.groups.iter().enumerate() {
        at(format_args!("/groups/{i}"), &group.extra);
        for (j, motion) in group.moves.iter().enumerate() {
            let (Motion::Pivot { extra, .. } | Motion::Slide { extra, .. }) = motion;
            at(format_args!("/groups/{i}/moves/{j}"), extra);
        }
    }
    for (i, port) in bay.ports.iter().enumerate() {
        at(format_args!("/ports/{i}"), &port.extra);
    }
    for (i, obstacle) in bay.obstacles.iter().enumerate() {
        at(format_args!("/obstacles/{i}"), &obstacle.extra);
    }
    for (i, entry) in bay.backgrounds.iter().enumerate() {
        match entry {
            BackgroundEntry::Known(background) => {
                at(format_args!("/backgrounds/{i}"), &background.extra);
            }
            // All of it is not known.
            BackgroundEntry::Other(whole) => {
                at(format_args!("/backgrounds"), &vec![(i.to_string(), whole.clone())]);
            }
        }
    }
    if let Some(tilt) = &bay.tilt {
        at(format_args!("/tilt_deg"), &tilt.extra);
    }
    at(format_args!("/stock"), &bay.stock.extra);
    for (i, hose) in bay.stock.hoses.iter().enumerate() {
        at(format_args!("/stock/hoses/{i}"), &hose.extra);
        for (j, size) in hose.sizes.iter().enumerate() {
            at(format_args!("/stock/hoses/{i}/sizes/{j}"), &size.extra);
        }
    }
    for (i, end) in bay.stock.ends.iter().enumerate() {
        at(format_args!("/stock/ends/{i}"), &end.extra);
        for (j, size) in end.sizes.iter().enumerate() {
            at(format_args!("/stock/ends/{i}/sizes/{j}"), &size.extra);
        }
    }
    for (i, length) in bay.stock.lengths.iter().enumerate() {
        at(format_args!("/stock/lengths/{i}"), &length.extra);
    }
    for (i, clamp) in bay.stock.clamps.iter().enumerate() {
        at(format_args!("/stock/clamps/{i}"), &clamp.extra);
    }
    for (i, routing) in bay.routings.iter().enumerate() {
        at(format_args!("/routings/{i}"), &routing.extra);
        for (j, run) in routing.runs.iter().enumerate() {
            let place = format!("/routings/{i}/runs/{j}");
            at(format_args!("{place}"), &run.extra);
            at(format_args!("{place}/from"), &run.from.extra);
            at(format_args!("{place}/to"), &run.to.extra);
            at(format_args!("{place}/service"), &run.service.extra);
            at(format_args!("{place}/bench"), &run.bench.extra);
            for (k, test) in run.bench.leak_tests.iter().enumerate() {
                let place = format!("{place}/bench/leak_tests/{k}");
                at(format_args!("{place}"), &test.extra);
                at(format_args!("{place}/before"), &test.before.extra);
                at(format_args!("{place}/after"), &test.after.extra);
            }
            for (k, sleeve) in run.sleeves.iter().enumerate() {
                at(format_args!("{place}/sleeves/{k}"), &sleeve.extra);
            }
            for (k, via) in run.via.iter().enumerate() {
                at(format_args!("{place}/via/{k}"), via.extra());
            }
        }
    }
    found
}

/// A key as a JSON Pointer token (RFC 6901 §3: `~` is written `~0`, `/` is written `~1`).
fn escape_pointer(key: &str) -> String {
    key.replace('~', "~0").replace('/', "~1")
}
