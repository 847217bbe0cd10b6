//! The worst figures of a routing, and in which position of things they are taken.

use std::cmp::Ordering;

use crate::engine::compare::{Against, Found, Lack};

use super::all::All;

/// Which position of things distances and bends are judged in: the worst of all that is known of every
/// routing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Basis {
    Positions,
    Installed,
    Drawn,
}

impl Basis {
    const ALL: [Self; 3] = [Self::Positions, Self::Installed, Self::Drawn];

    pub(super) fn words(self) -> &'static str {
        match self {
            Self::Positions => " in its worst position",
            Self::Installed => " as installed",
            Self::Drawn => " as drawn",
        }
    }
}

impl All<'_> {
    /// The fullest basis that is known of every routing.
    pub(super) fn basis(&self, of: fn(&Self, usize, Basis) -> Found<(usize, Against)>) -> Basis {
        let known = |basis: &Basis| {
            let moves = self.routings.iter().any(|one| one.figures.moves);
            (*basis != Basis::Positions || moves)
                && (0..self.routings.len()).all(|place| !of(self, place, *basis).is_not_known())
        };
        Basis::ALL.into_iter().find(known).unwrap_or(Basis::Drawn)
    }

    pub(super) fn gap(&self, place: usize, basis: Basis) -> Found<(usize, Against)> {
        self.routings[place].figures.worst(
            |run| match basis {
                Basis::Positions => &run.position_gap,
                Basis::Installed => &run.installed_gap,
                Basis::Drawn => &run.gap,
            },
            Against::spare_mm,
        )
    }

    pub(super) fn radius(&self, place: usize, basis: Basis) -> Found<(usize, Against)> {
        self.routings[place].figures.worst(
            |run| match basis {
                Basis::Positions => &run.position_radius,
                Basis::Installed => &run.installed_radius,
                Basis::Drawn => &run.radius,
            },
            Against::share,
        )
    }

    pub(super) fn lack(&self, place: usize) -> Found<(usize, Lack)> {
        self.routings[place].figures.worst_lack()
    }

    /// The greatest pressure drop, where it is known of every hose that a flow is given for.
    pub(super) fn greatest_drop(&self, place: usize) -> Found<(usize, f64)> {
        let (greatest, not_known) = self.routings[place].figures.drops();
        match greatest {
            _ if !not_known.is_empty() => Found::NotKnown("a pressure drop is unknown"),
            Some(greatest) => Found::Known(greatest),
            None => Found::Nothing,
        }
    }

    /// Whether the hoses that two routings have in common have a pressure drop in both, or in neither: a
    /// flow that only one of them is given cannot be held against it.
    pub(super) fn has_same_flows(&self, one: usize, other: usize) -> bool {
        let [one, other] = [one, other].map(|place| &self.routings[place].figures.runs);
        one.iter().all(|run| {
            let alike = other.iter().find(|other| other.id == run.id);
            alike.is_none_or(|alike| alike.has_flow == run.has_flow)
        })
    }

    pub(super) fn span(&self, place: usize) -> Found<(usize, f64)> {
        match self.routings[place].figures.longest_span() {
            Found::Known((run, mm, _)) => Found::Known((run, mm)),
            Found::Nothing => Found::Nothing,
            Found::NotKnown(why) => Found::NotKnown(why),
        }
    }
}

pub(super) fn gap_of(all: &All<'_>, place: usize, basis: Basis) -> Found<(usize, Against)> {
    all.gap(place, basis)
}

pub(super) fn radius_of(all: &All<'_>, place: usize, basis: Basis) -> Found<(usize, Against)> {
    all.radius(place, basis)
}

/// The share of the radius needed; endless where nothing bends, none where it is not known.
pub(super) fn share(found: &Found<(usize, Against)>) -> Option<f64> {
    match found {
        Found::Known((_, bend)) => Some(bend.share()),
        Found::Nothing => Some(f64::INFINITY),
        Found::NotKnown(_) => None,
    }
}

/// A figure of the worst run.
pub(super) fn figure<T>(found: &Found<(usize, T)>, value: impl FnOnce(&T) -> f64) -> Found<f64> {
    match found {
        Found::Known((_, one)) => Found::Known(value(one)),
        Found::Nothing => Found::Nothing,
        Found::NotKnown(why) => Found::NotKnown(why),
    }
}

pub(super) fn known<T>(found: &Found<(usize, T)>, value: impl FnOnce(&T) -> f64) -> f64 {
    found.known().map_or(0.0, |(_, one)| value(one))
}

/// Orders two figures: two that are not there are alike; of one that is there and one that is not,
/// nothing is told.
pub(super) fn both(
    a: Found<f64>,
    b: Found<f64>,
    order: impl FnOnce(Option<f64>, Option<f64>) -> Option<Ordering>,
) -> Option<Ordering> {
    match (a, b) {
        (Found::Nothing, Found::Nothing) => Some(Ordering::Equal),
        (a, b) => order(a.known().copied(), b.known().copied()),
    }
}
