//! References of one part of the file to another, looked up once all is read.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::{Bay, EndKind, HoseKind, catalogue};

use super::super::fault::Fault;
use super::doubts::{Doubts, Family};
use super::quoted;

/// A reference and its place.
pub(crate) struct Want {
    pub(crate) order: u32,
    pub(crate) pointer: String,
    pub(crate) found: String,
    pub(crate) what: Wanted,
}

/// What has to exist.
pub(crate) enum Wanted {
    MovingGroup(String),
    Port(String),
    Obstacle(String),
    Hose(String),
    HoseSize { hose: String, dash: u32 },
    End(String),
    EndSize { end: String, hose: String, dash: u32, angle_deg: f64 },
}

/// All that can be referred to.
struct Known<'b> {
    /// What the stock is called.
    stock: &'b str,
    groups: BTreeSet<&'b str>,
    ports: BTreeSet<&'b str>,
    obstacles: BTreeSet<&'b str>,
    hoses: BTreeMap<&'b str, &'b HoseKind>,
    ends: BTreeMap<&'b str, &'b EndKind>,
}

impl<'b> Known<'b> {
    fn of(bay: &'b Bay, stock: &'b str) -> Self {
        Self {
            stock,
            groups: bay.groups.iter().map(|group| group.id.as_str()).collect(),
            ports: bay.ports.iter().map(|port| port.id.as_str()).collect(),
            obstacles: bay.obstacles.iter().map(|obstacle| obstacle.id.as_str()).collect(),
            hoses: bay.stock.hoses.iter().map(|hose| (hose.id.as_str(), hose)).collect(),
            ends: bay.stock.ends.iter().map(|end| (end.id.as_str(), end)).collect(),
        }
    }

    /// The bay's own hose of this id, else the catalogue's.
    fn hose(&self, id: &str) -> Option<&'b HoseKind> {
        self.hoses.get(id).copied().or_else(|| catalogue::hose(id))
    }

    /// The bay's own end of this id, else the catalogue's.
    fn end(&self, id: &str) -> Option<&'b EndKind> {
        self.ends.get(id).copied().or_else(|| catalogue::end(id))
    }
}

/// Faults of all references that lead nowhere, each with its place in the order of the file.
pub(crate) fn unmet(
    wants: &[Want],
    (bay, stock): (&Bay, &str),
    doubts: &Doubts,
) -> Vec<(u32, Fault)> {
    let known = Known::of(bay, stock);
    let look_up = |want: &Want| {
        let expected = missing(&want.what, &known, doubts)?;
        let hint = matches!(want.what, Wanted::EndSize { .. })
            .then(|| "or measure yours and give \"along\", \"across\" and \"socket\"".to_owned());
        let (pointer, found) = (want.pointer.clone(), want.found.clone());
        Some((want.order, Fault { pointer, found, expected, hint }))
    };
    wants.iter().filter_map(look_up).collect()
}

/// What is expected in place of a reference that leads nowhere; none where it leads somewhere, or
/// may only seem not to.
fn missing(what: &Wanted, known: &Known<'_>, doubts: &Doubts) -> Option<String> {
    match what {
        Wanted::MovingGroup(id) => {
            among(id, "a group", &known.groups, doubts.ids(Family::MovingGroup))
        }
        Wanted::Port(id) => among(id, "a port", &known.ports, doubts.ids(Family::Port)),
        Wanted::Obstacle(id) => {
            among(id, "an obstacle", &known.obstacles, doubts.ids(Family::Obstacle))
        }
        Wanted::Hose(id) => {
            let lost = known.hose(id).is_none() && !doubts.ids(Family::Hose);
            lost.then(|| stocked("a hose", known.stock, known.hoses.keys()))
        }
        Wanted::End(id) => {
            let lost = known.end(id).is_none() && !doubts.ids(Family::End);
            lost.then(|| stocked("an end fitting", known.stock, known.ends.keys()))
        }
        Wanted::HoseSize { hose, dash } => {
            let kind = known.hose(hose)?;
            let lost = kind.size(*dash).is_none() && !doubts.sizes(Family::Hose, hose);
            let sizes = kind.sizes.iter().map(|size| size.dash.to_string());
            lost.then(|| format!("a size of hose {} ({})", quoted(hose), shortlist(sizes)))
        }
        Wanted::EndSize { end, hose, dash, angle_deg } => {
            let kind = known.end(end)?;
            if known.hose(hose).is_some_and(|hose| hose.size(*dash).is_none()) {
                // The dash number is wrong, and said to be.
                return None;
            }
            let lost = kind.size(*dash, *angle_deg).is_none() && !doubts.sizes(Family::End, end);
            lost.then(|| end_size(kind, *dash, *angle_deg))
        }
    }
}

fn end_size(kind: &EndKind, dash: u32, angle_deg: f64) -> String {
    let angles = kind.sizes.iter().filter(|size| size.dash == dash).map(|size| size.angle_deg);
    let angles: Vec<String> = angles.map(|angle_deg| format!("{angle_deg}\u{b0}")).collect();
    if !angles.is_empty() {
        let angles = shortlist(angles.into_iter());
        return format!(
            "an end fitting that comes in \u{2212}{dash} at {angle_deg}\u{b0} (this one: {angles})"
        );
    }
    let dashes: BTreeSet<u32> = kind.sizes.iter().map(|size| size.dash).collect();
    let dashes = shortlist(dashes.iter().map(|dash| format!("\u{2212}{dash}")));
    format!("an end fitting that comes in \u{2212}{dash} (this one: {dashes})")
}

fn among(id: &str, what: &str, known: &BTreeSet<&str>, in_doubt: bool) -> Option<String> {
    let lost = !known.contains(id) && !in_doubt;
    lost.then(|| format!("the id of {what} ({})", shortlist(known.iter().map(|id| quoted(id)))))
}

fn stocked<'i>(what: &str, stock: &str, ids: impl Iterator<Item = &'i &'i str>) -> String {
    let own = shortlist(ids.map(|id| quoted(id)));
    format!("the id of {what} of the catalogue or of {stock} ({own})")
}

/// The first few, to choose from.
fn shortlist(items: impl Iterator<Item = String>) -> String {
    const FEW: usize = 12;
    let mut shown: Vec<String> = items.take(FEW + 1).collect();
    if shown.len() > FEW {
        shown.truncate(FEW);
        shown.push("…".to_owned());
    }
    if shown.is_empty() { "there is none".to_owned() } else { shown.join(", ") }
}
