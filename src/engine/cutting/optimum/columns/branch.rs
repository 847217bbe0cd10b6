//! Branch and bound over columns that are all there.

use std::collections::BTreeSet;

use super::super::problem::Steps;
use super::super::start::Draft;
use super::Worth;
use super::root::{NEAR, What, up};
use super::scale::Scale;
use super::simplex::{Asks, BITS, Column, Program, reduced};

/// A row that is not met by more than this cannot be.
const UNMET: f64 = 0.01;
const MOST_PIVOTS: usize = 2_000;
const DEEPEST: usize = 300;
/// Work that a column takes in a node: looked at, and copied twice.
const WORK_OF_COLUMN: u64 = 60;

/// A column of the best, and how much of it is taken.
type Taken = (Column<What>, f64);

pub(super) struct Branch<'a> {
    steps: &'a Steps,
    demand: &'a [usize],
    scale: &'a Scale,
    /// Only cut lists below this are of use.
    below: Worth,
    pub(super) best: Option<Draft>,
    /// The least that something not looked at could cost.
    pub(super) open: Option<Worth>,
    pub(super) left: u64,
}

/// A set of columns, of which a cut list takes a whole number.
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
                let least = if a == b { 2 } else { 1 };
                [a, b].iter().all(|size| filling.iter().any(|(i, n)| i == *size && *n >= least))
            }
            (Self::Same(one), other) => one == other,
            _ => false,
        })
    }
}

impl<'a> Branch<'a> {
    pub(super) fn new(
        steps: &'a Steps,
        demand: &'a [usize],
        scale: &'a Scale,
        below: Worth,
        left: u64,
    ) -> Self {
        Self { steps, demand, scale, below, best: None, open: None, left }
    }

    /// Looks at all cut lists that the program allows.
    pub(super) fn node(&mut self, mut program: Program<What>, depth: usize) {
        program.steps = 0;
        let found = program.optimise(MOST_PIVOTS);
        self.left = self.left.saturating_sub(program.steps + 1);
        // Going over the columns, and copying them for two children.
        let columns = program.columns.len() as u64;
        self.steps.work.take(std::mem::take(&mut program.work) + columns * WORK_OF_COLUMN);
        let (duals, bound) = self.bound(&program, found);
        let least = up(bound);
        if least >= self.below {
            return;
        }
        // What a column costs beyond the bound, a cut list with it costs beyond it too.
        let spare = ((self.below - 1) << BITS) - bound;
        program.retain(|_, column| column.what == What::Slack || reduced(column, &duals) <= spare);
        let taken = program.taken().into_iter().filter(|(_, n)| *n > NEAR);
        let taken: Vec<Taken> = taken.map(|(at, n)| (program.columns[at].clone(), n)).collect();
        let is_unmet = |(column, n): &Taken| column.what == What::Artificial && *n > UNMET;
        let is_spent = self.left == 0 || self.steps.work.is_spent();
        if is_spent || depth > DEEPEST || taken.iter().any(is_unmet) {
            self.give_up(least);
            return;
        }
        let Some((set, much)) = self.split(&taken) else {
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

    fn give_up(&mut self, bound: Worth) {
        self.open = Some(self.open.map_or(bound, |open| open.min(bound)));
    }

    fn child(&self, program: &Program<What>, set: &Set, asks: Asks) -> Program<What> {
        let mut child = program.clone();
        if asks == Asks::AtMost(0) {
            child.retain(|_, column| set.has(&column.what) == 0);
        }
        let has = |column: &Column<What>| set.has(&column.what);
        child.add_row(asks, (What::Slack, What::Artificial), self.below << 16, has);
        child
    }

    /// The duals made allowable, and the bound by them in fixed point: a cut list takes no more columns than
    /// there are pieces, so that what one of them falls short of its duals counts that often at most.
    fn bound(&self, program: &Program<What>, mut duals: Vec<Worth>) -> (Vec<Worth>, Worth) {
        for (dual, asks) in duals.iter_mut().zip(&program.rows) {
            *dual = asks.allowed(*dual);
        }
        let pieces: usize = self.demand.iter().sum();
        let rows = duals.iter().zip(&program.rows);
        let worth: Worth = rows.map(|(dual, asks)| dual * Worth::from(asks.much())).sum();
        let is_real =
            |column: &&Column<What>| !matches!(column.what, What::Slack | What::Artificial);
        let real = program.columns.iter().filter(is_real);
        let short = real.map(|column| reduced(column, &duals)).min().unwrap_or(0).min(0);
        (duals, worth + short * pieces as Worth)
    }

    /// A set of which only a part is taken.
    fn split(&self, taken: &[Taken]) -> Option<(Set, f64)> {
        let kinds = (0..self.steps.stock.len()).map(Set::Kind);
        let outside = (0..self.demand.len()).map(Set::Outside);
        let same = taken.iter().filter(|(column, _)| matches!(column.what, What::Bar(..)));
        let same = same.map(|(column, _)| Set::Same(column.what.clone()));
        most_parted(kinds, taken)
            .or_else(|| most_parted(outside, taken))
            .or_else(|| most_parted(pairs(taken).into_iter(), taken))
            .or_else(|| most_parted(same, taken))
    }

    /// Takes a cut list in whole columns; a piece that is in two of them is cut from the first.
    fn whole(&mut self, taken: &[Taken], least: Worth) {
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

/// Sizes that share a bar.
fn pairs(taken: &[Taken]) -> Vec<Set> {
    let mut pairs = BTreeSet::new();
    for (column, _) in taken {
        let What::Bar(_, filling) = &column.what else { continue };
        for (at, (i, n)) in filling.iter().enumerate() {
            if *n > 1 {
                pairs.insert((*i, *i));
            }
            pairs.extend(filling[at + 1..].iter().map(|(j, _)| (*i.min(j), *i.max(j))));
        }
    }
    pairs.into_iter().map(|(i, j)| Set::Pair(i, j)).collect()
}

/// The set of which the most halved number is taken.
fn most_parted(sets: impl Iterator<Item = Set>, taken: &[Taken]) -> Option<(Set, f64)> {
    let much = |set: &Set| -> f64 {
        taken.iter().map(|(column, n)| n * f64::from(set.has(&column.what))).sum()
    };
    let off = |much: f64| (much - much.round()).abs();
    let parts = sets.map(|set| (much(&set), set)).filter(|(much, _)| off(*much) > NEAR);
    let most = parts.max_by(|(a, _), (b, _)| off(*a).total_cmp(&off(*b)));
    most.map(|(much, set)| (set, much))
}
