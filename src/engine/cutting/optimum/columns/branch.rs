//! Branch and bound over columns that are all there.

use super::Worth;
use super::root::{What, up};
use super::scale::Scale;
use super::simplex::{Asks, BITS, Column, Program, reduced};
use super::super::problem::Steps;
use super::super::start::Draft;

const NEAR: f64 = 1e-4;
const MOST_PIVOTS: usize = 2_000;
const MOST_ROUNDS: usize = 12;
const MOST_ROWS: usize = 160;

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
    /// Half of how many of these three sizes, rounded down: bars that share them out.
    Triple([usize; 3]),
}

impl Set {
    fn has(&self, what: &What) -> i32 {
        if let Self::Triple(three) = self {
            let What::Bar(_, filling) = what else { return 0 };
            let n: usize = filling.iter().filter(|(i, _)| three.contains(i)).map(|(_, n)| n).sum();
            return n as i32 / 2;
        }
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
        let (duals, bound) = self.bounded(&mut program);
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
        if taken.iter().any(|(column, _)| column.what == What::Mend) {
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
            let mut child = program.clone();
            if asks == Asks::AtMost(0) {
                child.retain(|_, column| set.has(&column.what) == 0);
            }
            child.add_row(asks, What::Slack, What::Mend, self.below << 16, |column| set.has(&column.what));
            self.node(child, depth + 1);
        }
    }

    /// Goes on to the best, cutting off what no whole plan is as long as that raises the bound.
    fn bounded(&self, program: &mut Program<What>) -> (Vec<Worth>, Worth) {
        let duals = program.optimise(MOST_PIVOTS);
        let (mut duals, mut bound) = self.bound(program, duals);
        for _ in 0..MOST_ROUNDS {
            if up(bound) >= self.below || program.rows.len() >= MOST_ROWS {
                break;
            }
            let spare = ((self.below - 1) << BITS) - bound;
            program.retain(|_, column| column.what == What::Slack || reduced(column, &duals) <= spare);
            let cuts = self.cuts(program);
            if cuts.is_empty() {
                break;
            }
            for (set, most) in cuts {
                program.add_row(Asks::AtMost(most), What::Slack, What::Mend, self.below << 16, |column| set.has(&column.what));
            }
            let found = program.optimise(MOST_PIVOTS);
            let (better, raised) = self.bound(program, found);
            let is_enough = raised - bound > spare / 50;
            if raised > bound { (duals, bound) = (better, raised); } else { duals.resize(program.rows.len(), 0); }
            if !is_enough { break; }
        }
        duals.resize(program.rows.len(), 0);
        (duals, bound)
    }

    /// Triples of sizes of which the bars taken hold pairs too often.
    fn cuts(&self, program: &Program<What>) -> Vec<(Set, i64)> {
        let n = self.demand.len();
        let taken = program.taken();
        let bars: Vec<(Vec<i64>, f64)> = taken.iter().filter(|(_, x)| *x > NEAR && *x < 1e9).filter_map(|(at, x)| {
            let What::Bar(_, filling) = &program.columns[*at].what else { return None };
            let mut holds = vec![0; n];
            filling.iter().for_each(|(i, n)| holds[*i] = *n as i64);
            Some((holds, *x))
        }).collect();
        let mut found = Vec::new();
        for i in 0..n { for j in i + 1..n { for k in j + 1..n {
            let most = (self.demand[i] + self.demand[j] + self.demand[k]) as i64 / 2;
            let much: f64 = bars.iter().map(|(holds, x)| ((holds[i] + holds[j] + holds[k]) / 2) as f64 * x).sum();
            let over = much - most as f64;
            if over > 0.04 { found.push((over, [i, j, k], most)); }
        }}}
        found.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        let mut used = vec![0; n];
        found.retain(|(_, three, _)| {
            let few = three.iter().all(|i| used[*i] < 5);
            if few { three.iter().for_each(|i| used[*i] += 1); }
            few
        });
        found.into_iter().take(20).map(|(_, three, most)| (Set::Triple(three), most)).collect()
    }

    /// The duals made allowable, and the bound by them in fixed point.
    fn bound(&self, program: &Program<What>, mut duals: Vec<Worth>) -> (Vec<Worth>, Worth) {
        for (dual, asks) in duals.iter_mut().zip(&program.rows) {
            *dual = match asks {
                Asks::AtLeast(_) => (*dual).max(0),
                Asks::AtMost(_) => (*dual).min(0),
            };
        }
        let pieces: usize = self.demand.iter().sum();
        let worth: Worth = duals.iter().zip(&program.rows).map(|(dual, asks)| dual * Worth::from(asks.much())).sum();
        let real = program.columns.iter().filter(|column| matches!(column.what, What::Bar(..) | What::Outside(_)));
        let least = real.map(|column| reduced(column, &duals)).min().unwrap_or(0).min(0);
        (duals, worth + least * pieces as Worth)
    }

    /// A set of which the plan takes a part only.
    fn split(&self, taken: &[(Column<What>, f64)]) -> Option<(Set, f64)> {
        let kinds = (0..self.steps.stock.len()).map(Set::Kind).collect();
        let outside = (0..self.demand.len()).map(Set::Outside).collect();
        most_parted(kinds, taken).or_else(|| most_parted(outside, taken)).or_else(|| {
            let mut pairs = std::collections::BTreeSet::new();
            for (column, _) in taken {
                let What::Bar(_, filling) = &column.what else { continue };
                for (at, (i, n)) in filling.iter().enumerate() {
                    if *n > 1 { pairs.insert((*i, *i)); }
                    filling[at + 1..].iter().for_each(|(j, _)| { pairs.insert(((*i).min(*j), (*i).max(*j))); });
                }
            }
            most_parted(pairs.into_iter().map(|(i, j)| Set::Pair(i, j)).collect(), taken)
        }).or_else(|| {
            most_parted(taken.iter().filter(|(column, _)| matches!(column.what, What::Bar(..))).map(|(column, _)| Set::Same(column.what.clone())).collect(), taken)
        })
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

fn most_parted(sets: Vec<Set>, taken: &[(Column<What>, f64)]) -> Option<(Set, f64)> {
    let parts = sets.into_iter().map(|set| {
        let much: f64 = taken.iter().map(|(column, n)| n * f64::from(set.has(&column.what))).sum();
        (set, much)
    });
    let off = |much: f64| (much - much.round()).abs();
    parts.filter(|(_, much)| off(*much) > NEAR).max_by(|(_, a), (_, b)| off(*a).total_cmp(&off(*b)))
}
