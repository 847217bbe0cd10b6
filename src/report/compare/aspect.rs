//! What routings are judged by, in the order in which it decides: safety before money.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use crate::engine::compare::{Against, Difference, Found, Sum};
use crate::units::LengthUnit;

use super::all::{All, One};
use super::basis::{Basis, both, figure, gap_of, known, radius_of, share};
use super::judge::{less_is_better, more_is_better};
use super::words::{count, drop, gap, is_cut_into, length, mass, money, obstacle_name, per_cent};

/// One thing to be judged by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Aspect {
    Faults,
    Room,
    Bends,
    Slack,
    Warnings,
    Cost,
    Hose,
    Span,
    Drop,
    Mass,
}

impl Aspect {
    /// All, what decides first first.
    pub(super) const ALL: [Self; 10] = [
        Self::Faults,
        Self::Room,
        Self::Bends,
        Self::Slack,
        Self::Warnings,
        Self::Cost,
        Self::Hose,
        Self::Span,
        Self::Drop,
        Self::Mass,
    ];

    /// What cannot be told, where it cannot.
    pub(super) fn question(self) -> &'static str {
        match self {
            Self::Faults => "which has fewer faults",
            Self::Room => "which keeps more room",
            Self::Bends => "which bends gentler",
            Self::Slack => "which lacks less slack",
            Self::Warnings => "which has fewer warnings",
            Self::Cost => "which costs less",
            Self::Hose => "which takes less hose",
            Self::Span => "which is held closer",
            Self::Drop => "which loses less pressure",
            Self::Mass => "which is lighter",
        }
    }

    /// The best of several in this.
    pub(super) fn best(self) -> &'static str {
        match self {
            Self::Faults => "fewest faults",
            Self::Room => "most room",
            Self::Bends => "gentlest bends",
            Self::Slack => "least slack lacking",
            Self::Warnings => "fewest warnings",
            Self::Cost => "least to buy",
            Self::Hose => "least hose",
            Self::Span => "shortest free length",
            Self::Drop => "least pressure lost in a hose",
            Self::Mass => "least mass",
        }
    }
}

/// Differences that are less than what is shown are none: half a millimetre, half a cent, half of
/// what is shown of a mass, of a share and of per cent.
pub(super) const SAME_MM: f64 = 0.5;
pub(super) const SAME_MONEY: f64 = 0.005;
pub(super) const SAME_KG: f64 = 0.005;
pub(super) const SAME_SHARE: f64 = 0.005;
pub(super) const SAME_PCT: f64 = 0.05;
/// Of the greater of two pressure drops: formulas of flow are worth no more.
pub(super) const SAME_DROP: f64 = 0.05;

/// Whether two routings have the same hoses, by id.
pub(super) fn has_same_hoses(a: &One<'_>, b: &One<'_>) -> bool {
    let ids =
        |one: &One<'_>| one.figures.runs.iter().map(|run| run.id.clone()).collect::<BTreeSet<_>>();
    ids(a) == ids(b)
}

impl All<'_> {
    pub(super) fn unit(&self) -> LengthUnit {
        self.bay.show_units
    }

    /// Whether one routing is better (`Less`) than another; none where that cannot be told.
    pub(super) fn order(&self, aspect: Aspect, one: usize, other: usize) -> Option<Ordering> {
        let (a, b) = (self.routings.get(one)?, self.routings.get(other)?);
        match aspect {
            Aspect::Faults => Some(a.counts.faults.cmp(&b.counts.faults)),
            Aspect::Warnings => Some(a.counts.warnings.cmp(&b.counts.warnings)),
            Aspect::Room => {
                let basis = self.basis(gap_of);
                let spare = |place| figure(&self.gap(place, basis), Against::spare_mm);
                both(spare(one), spare(other), |a, b| more_is_better(a, b, SAME_MM))
            }
            Aspect::Bends => {
                let basis = self.basis(radius_of);
                let share = |place| share(&self.radius(place, basis));
                more_is_better(share(one), share(other), SAME_SHARE)
            }
            Aspect::Slack => {
                let lack = |place| figure(&self.lack(place), |lack| lack.pct());
                both(lack(one), lack(other), |a, b| less_is_better(a, b, SAME_PCT))
            }
            // Sums over other hoses say nothing about the routing.
            Aspect::Cost | Aspect::Mass | Aspect::Hose if !has_same_hoses(a, b) => None,
            Aspect::Cost => a.figures.cost.less(&b.figures.cost).sign(SAME_MONEY),
            Aspect::Mass => a.figures.mass_kg.less(&b.figures.mass_kg).sign(SAME_KG),
            Aspect::Hose => less_is_better(a.figures.hose_mm, b.figures.hose_mm, SAME_MM),
            Aspect::Span => {
                let span = |place| figure(&self.span(place), |span| *span);
                both(span(one), span(other), |a, b| less_is_better(a, b, SAME_MM))
            }
            Aspect::Drop => {
                let drop = |place| figure(&self.greatest_drop(place), |bar| *bar);
                let order = both(drop(one), drop(other), |a, b| {
                    let greater = a.unwrap_or(0.0).max(b.unwrap_or(0.0));
                    less_is_better(a, b, SAME_DROP * greater)
                });
                order.filter(|_| self.has_same_flows(one, other))
            }
        }
    }

    /// What one routing does where another does otherwise, in words that follow its name.
    pub(super) fn clause(&self, aspect: Aspect, one: usize, other: usize) -> String {
        let (a, b) = (&self.routings[one], &self.routings[other]);
        let unit = self.unit();
        match aspect {
            Aspect::Faults => {
                let (faults, others) = (count(a.counts.faults, "fault"), b.counts.faults);
                format!("has {faults} where {} has {others}", b.short)
            }
            Aspect::Warnings => {
                let (warns, others) = (count(a.counts.warnings, "warning"), b.counts.warnings);
                format!("has {warns} where {} has {others}", b.short)
            }
            Aspect::Room => self.room_clause(one, other),
            Aspect::Bends => {
                let basis = self.basis(radius_of);
                let share = |place| match self.radius(place, basis) {
                    Found::Known((_, bend)) => Some(format!("{:.0} %", 100.0 * bend.share())),
                    _ => None,
                };
                let one = share(one).map_or_else(
                    || "has no bend".to_owned(),
                    |share| {
                        let basis = basis.words();
                        format!("has its tightest bend at {share} of the minimum radius{basis}")
                    },
                );
                let other = share(other).unwrap_or_else(|| "no bend".to_owned());
                format!("{one} where {} has {other}", b.short)
            }
            Aspect::Slack => self.slack_clause(one, other),
            Aspect::Cost => {
                let less = a.figures.cost.less(&b.figures.cost);
                format!("costs {}", difference(less, ["less", "more"], money))
            }
            Aspect::Mass => {
                let less = a.figures.mass_kg.less(&b.figures.mass_kg);
                format!("weighs {}", difference(less, ["less", "more"], |kg| mass(kg, unit)))
            }
            Aspect::Hose => {
                let mm = a.figures.hose_mm.unwrap_or(0.0) - b.figures.hose_mm.unwrap_or(0.0);
                let words = if mm < 0.0 { "less" } else { "more" };
                format!("takes {} {words} hose", length(mm.abs(), unit))
            }
            Aspect::Span => {
                let span = |place| length(known(&self.span(place), |span| *span), unit);
                format!(
                    "hangs free over {} at most where {} hangs over {}",
                    span(one),
                    b.short,
                    span(other)
                )
            }
            Aspect::Drop => {
                let words = |place| drop(known(&self.greatest_drop(place), |bar| *bar), unit);
                format!(
                    "loses {} of pressure in its worst hose where {} loses {}",
                    words(one),
                    b.short,
                    words(other)
                )
            }
        }
    }

    /// The figure of one routing, in short.
    pub(super) fn brief(&self, aspect: Aspect, place: usize) -> String {
        let (one, unit) = (&self.routings[place], self.unit());
        match aspect {
            Aspect::Faults => one.counts.faults.to_string(),
            Aspect::Warnings => one.counts.warnings.to_string(),
            Aspect::Room => match self.gap(place, self.basis(gap_of)) {
                Found::Known((_, near)) => gap(&near, unit),
                _ => "nothing near".to_owned(),
            },
            Aspect::Bends => self.share_words(place, self.basis(radius_of)),
            Aspect::Slack => match self.lack(place) {
                Found::Known((_, lack)) if lack.pct().is_finite() => per_cent(lack.pct()),
                Found::Known(_) => "none will do".to_owned(),
                _ => "none".to_owned(),
            },
            Aspect::Cost => money(one.figures.cost.known),
            Aspect::Mass => mass(one.figures.mass_kg.known, unit),
            Aspect::Hose => one.figures.hose_mm.map_or_else(String::new, |mm| length(mm, unit)),
            Aspect::Span => length(known(&self.span(place), |span| *span), unit),
            Aspect::Drop => drop(known(&self.greatest_drop(place), |bar| *bar), unit),
        }
    }

    fn room_clause(&self, one: usize, other: usize) -> String {
        let basis = self.basis(gap_of);
        let unit = self.unit();
        let (a, b) = (self.gap(one, basis), self.gap(other, basis));
        let other_name = self.routings[other].short;
        let (Found::Known((_, a)), Found::Known((_, b))) = (&a, &b) else {
            return "has something near where another has not".to_owned();
        };
        let is_one_obstacle = a.obstacle == b.obstacle;
        let keeps = |near: &Against, to_keep: bool, names: bool| {
            let obstacle = obstacle_name(self.bay, near);
            let kept = if to_keep {
                format!(" (minimum {})", length(near.limit_mm, unit))
            } else {
                String::new()
            };
            match (is_cut_into(near), names) {
                (true, true) => format!("fouls {obstacle} by {}{kept}", length(-near.mm, unit)),
                (true, false) => format!("fouls it by {}{kept}", length(-near.mm, unit)),
                (false, true) => {
                    format!("keeps {} off {obstacle}{kept}", length(near.mm.max(0.0), unit))
                }
                (false, false) => format!("keeps {}{kept}", length(near.mm.max(0.0), unit)),
            }
        };
        let limits_differ = (a.limit_mm - b.limit_mm).abs() > SAME_MM;
        let first = keeps(a, true, true);
        format!(
            "{first}{} where {other_name} {}",
            basis.words(),
            keeps(b, limits_differ, !is_one_obstacle)
        )
    }

    fn slack_clause(&self, one: usize, other: usize) -> String {
        let lacks = |place: usize| match self.lack(place) {
            Found::Known((_, lack)) if lack.pct() > SAME_PCT => {
                if lack.pct().is_finite() {
                    format!("lacks {} of slack for every position", per_cent(lack.pct()))
                } else {
                    "has a hose that no slack will do for".to_owned()
                }
            }
            _ => "has slack enough for every position".to_owned(),
        };
        format!("{} where {} {}", lacks(one), self.routings[other].short, lacks(other))
    }

    fn share_words(&self, place: usize, basis: Basis) -> String {
        match self.radius(place, basis) {
            Found::Known((_, bend)) => format!("{:.0} %", 100.0 * bend.share()),
            Found::Nothing => "no bend".to_owned(),
            Found::NotKnown(_) => super::words::NOT_KNOWN.to_owned(),
        }
    }
}

/// `12.40 more`, `at least 12.40 more`.
fn difference(less: Difference, words: [&str; 2], number: impl Fn(f64) -> String) -> String {
    let word = |d: f64| words[usize::from(d > 0.0)];
    match less {
        Difference::Exactly(d) => format!("{} {}", number(d.abs()), word(d)),
        Difference::AtLeast(d) | Difference::AtMost(d) => {
            format!("at least {} {}", number(d.abs()), word(d))
        }
        Difference::Unknown => super::words::NOT_KNOWN.to_owned(),
    }
}

/// What of a sum is not known, where that keeps two from being told apart.
pub(super) fn what_is_missing(sums: &[&Sum]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for part in sums.iter().flat_map(|sum| &sum.missing) {
        let amount = |sum: &Sum| {
            let alike = sum.missing.iter().find(|other| other.what == part.what);
            alike.map_or(0.0, |other| other.amount)
        };
        let differs = sums.iter().any(|sum| (amount(sum) - part.amount).abs() > 1e-3);
        if differs && !names.contains(&part.what) {
            names.push(part.what.clone());
        }
    }
    names
}
