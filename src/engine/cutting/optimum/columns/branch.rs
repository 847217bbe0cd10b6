//! Branch and bound over columns that are all there.

use super::Worth;
use super::root::{What, up};
use super::scale::Scale;
use super::simplex::{Asks, BITS, Column, Program, reduced};
use super::super::problem::Steps;
use super::super::start::Draft;

const NEAR: f64 = 1e-4;
const MOST_PIVOTS: usize = 2_000;


pub(super) struct Branch<'a> {
    steps: &'a Steps,
    demand: &'a [usize],
    scale: &'a Scale,
    /// Only plans below this are of use.
    below: Worth,
    pub(super) best: Option<Draft>,
    /// The least that something not looked at could cost.
    pub(super) open: Option<Worth>,
    pub(super) left: u64,
    pub(super) nodes: u64,
}

/// A set of columns, of which a plan takes a whole number.
#[derive(Debug, Clone)]
enum Set {
    Kind(usize),
    Outside(usize),
    /// Bars with both sizes; twice the same: with two of it.
    Pair(usize, usize),
    Same(What),
}

impl Set {
    fn has(&self, what: &What) -> i32 {
        i32::from(match (self, what) {
            (Self::Kind(kind), What::Bar(of, _)) => kind == of,
            (Self::Outside(size), What::Outside(of)) => size == of,
            (Self::Pair(a, b), What::Bar(_, filling)) => {
                let has = |size: usize| filling.iter().find(|(i, _)| *i == size).map_or(0, |(_, n)| *n);
                if a == b { has(*a) >= 2 } else { has(*a) > 0 && has(*b) > 0 }
            }
            (Self::Same(one), other) => one == other,
            _ => false,
        })
    }
}

impl<'a> Branch<'a> {
    pub(super) fn new(steps: &'a Steps, demand: &'a [usize], scale: &'a Scale, below: Worth, left: u64) -> Self {
        Self { steps, demand, scale, below, best: None, open: None, left, nodes: 0 }
    }

    fn give_up(&mut self, bound: Worth) {
        self.open = Some(self.open.map_or(bound, |open| open.min(bound)));
    }

    pub(super) fn node(&mut self, mut program: Program<What>, depth: usize) {
        self.nodes += 1;
        program.steps = 0;
        let found = program.optimise(MOST_PIVOTS);
        let (duals, bound) = self.bound(&program, found);
        self.left = self.left.saturating_sub(program.steps);
        let least = up(bound);
        if std::env::var("TALK2").is_ok() { eprintln!("{depth} bound {least} of {} columns {} rows {}", self.below, program.columns.len(), program.rows.len()); }
        if least >= self.below {
            return;
        }
        if self.left == 0 || depth > 300 {
            self.give_up(least);
            return;
        }
        let spare = ((self.below - 1) << BITS) - bound;
        program.retain(|_, column| column.what == What::Slack || reduced(column, &duals) <= spare);
        let taken: Vec<(Column<What>, f64)> = program.taken().into_iter().filter(|(_, n)| *n > NEAR).map(|(at, n)| (program.columns[at].clone(), n)).collect();
        if taken.iter().any(|(column, n)| column.what == What::Mend && *n > 0.01) {
            if std::env::var("TALK").is_ok() { eprintln!("mend {:?}", taken.iter().filter(|(column, _)| column.what == What::Mend).map(|x|x.1).collect::<Vec<_>>()); }
            self.give_up(least);
            return;
        }
        let Some((set, much)) = self.split(&program, &taken, depth) else {
            self.whole(&taken, least);
            return;
        };
        let low = much.floor() as i64;
        let mut ways = [Asks::AtMost(low), Asks::AtLeast(low + 1)];
        if matches!(set, Set::Pair(..)) || much - much.floor() > 0.5 {
            ways.reverse();
        }
        for asks in ways {
            let child = self.child(&program, &set, asks);
            self.node(child, depth + 1);
        }
    }

    /// The duals made allowable, and the bound by them in fixed point.
    fn bound(&self, program: &Program<What>, mut duals: Vec<Worth>) -> (Vec<Worth>, Worth) {
        for (dual, asks) in duals.iter_mut().zip(&program.rows) {
            *dual = asks.allowed(*dual);
        }
        let pieces: usize = self.demand.iter().sum();
        let worth: Worth = duals.iter().zip(&program.rows).map(|(dual, asks)| dual * Worth::from(asks.much())).sum();
        let real = program.columns.iter().filter(|column| matches!(column.what, What::Bar(..) | What::Outside(_)));
        let least = real.map(|column| reduced(column, &duals)).min().unwrap_or(0).min(0);
        (duals, worth + least * pieces as Worth)
    }

    /// A set of which the plan takes a part only: of the likely ones, the one whose two sides both
    /// cost most.
    fn split(&mut self, program: &Program<What>, taken: &[(Column<What>, f64)], depth: usize) -> Option<(Set, f64)> {
        let kinds = (0..self.steps.stock.len()).map(Set::Kind).collect();
        if let Some(first) = parted(kinds, taken).into_iter().next() {
            return Some(first);
        }
        let outside = (0..self.demand.len()).map(Set::Outside).collect();
        let mut pairs = std::collections::BTreeSet::new();
        for (column, _) in taken {
            let What::Bar(_, filling) = &column.what else { continue };
            for (at, (i, n)) in filling.iter().enumerate() {
                if *n > 1 { pairs.insert((*i, *i)); }
                filling[at + 1..].iter().for_each(|(j, _)| { pairs.insert(((*i).min(*j), (*i).max(*j))); });
            }
        }
        let pairs = pairs.into_iter().map(|(i, j)| Set::Pair(i, j)).collect();
        let k: usize = std::env::var("K").map_or(4, |k| k.parse().unwrap());
        let d: usize = std::env::var("D").map_or(5, |k| k.parse().unwrap());
        let mut likely: Vec<(Set, f64)> = parted(outside, taken);
        if std::env::var("O").is_ok() { likely.truncate(k); }
        if likely.len() < k || std::env::var("O").is_ok() { likely.extend(parted(pairs, taken)); }
        if likely.is_empty() {
            let bars = taken.iter().filter(|(column, _)| matches!(column.what, What::Bar(..)));
            likely = parted(bars.map(|(column, _)| Set::Same(column.what.clone())).collect(), taken);
        }
        if depth >= d || likely.len() < 2 || k < 2 { return likely.into_iter().next(); }
        let mut best: Option<(Worth, Set, f64)> = None;
        for (set, much) in likely.into_iter().take(if std::env::var("O").is_ok() { 2 * k } else { k }) {
            let mut gains = Vec::new();
            for asks in [Asks::AtMost(much.floor() as i64), Asks::AtLeast(much.floor() as i64 + 1)] {
                let mut child = self.child(program, &set, asks);
                child.steps = 0;
                let found = child.optimise(MOST_PIVOTS);
                self.left = self.left.saturating_sub(child.steps);
                let (_, bound) = self.bound(&child, found);
                gains.push(bound.min(self.below << BITS));
            }
            let worth = gains[0].min(gains[1]) * 4 + gains[0].max(gains[1]);
            if best.as_ref().is_none_or(|(known, ..)| worth > *known) { best = Some((worth, set, much)); }
        }
        best.map(|(_, set, much)| (set, much))
    }

    fn child(&self, program: &Program<What>, set: &Set, asks: Asks) -> Program<What> {
        let mut child = program.clone();
        if asks == Asks::AtMost(0) {
            child.retain(|_, column| set.has(&column.what) == 0);
        }
        child.add_row(asks, What::Slack, What::Mend, self.below << 16, |column| set.has(&column.what));
        child
    }

    fn whole(&mut self, taken: &[(Column<What>, f64)], least: Worth) {
        let mut left = self.demand.to_vec();
        let mut bars = Vec::new();
        for (column, n) in taken {
            let What::Bar(kind, filling) = &column.what else { continue };
            for _ in 0..n.round() as usize {
                let mut sizes = Vec::new();
                for (i, n) in filling.iter() {
                    let n = left[*i].min(*n);
                    left[*i] -= n;
                    sizes.extend(std::iter::repeat_n(*i, n));
                }
                sizes.sort_unstable();
                if !sizes.is_empty() {
                    bars.push((*kind, sizes));
                }
            }
        }
        let draft = Draft::of(self.steps, bars);
        let number = self.scale.number(draft.cost);
        if number < self.below {
            self.below = number;
            self.best = Some(draft);
        }
        if least < self.below {
            self.give_up(least);
        }
    }
}

/// Those of which a part is taken, the most halved first.
fn parted(sets: Vec<Set>, taken: &[(Column<What>, f64)]) -> Vec<(Set, f64)> {
    let parts = sets.into_iter().map(|set| {
        let much: f64 = taken.iter().map(|(column, n)| n * f64::from(set.has(&column.what))).sum();
        (set, much)
    });
    let off = |much: f64| (much - much.round()).abs();
    let mut parts: Vec<(Set, f64)> = parts.filter(|(_, much)| off(*much) > NEAR).collect();
    parts.sort_by(|(_, a), (_, b)| off(*b).total_cmp(&off(*a)));
    parts
}
