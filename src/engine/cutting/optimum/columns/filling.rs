//! Fillings of one bar: the one worth most, and all that are worth enough.

use std::cell::Cell;

use super::super::Work;
use super::Worth;
use super::simplex::BITS;

/// How many of each size are in a bar; none that are not.
pub(super) type Filling = Vec<(usize, usize)>;

/// The question for one bar.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bar<'a> {
    pub(super) sizes: &'a [i64],
    /// The most of each size.
    pub(super) demand: &'a [usize],
    /// What one of each size is worth; none is negative.
    pub(super) worth: &'a [Worth],
    pub(super) room: i64,
}

/// The filling worth most.
#[derive(Debug, Clone)]
pub(super) struct Most {
    /// No filling is worth more.
    pub(super) bound: Worth,
    /// The best found, and what it is worth.
    pub(super) worth: Worth,
    pub(super) filling: Filling,
    /// Steps taken.
    pub(super) steps: u64,
    /// Work taken.
    pub(super) work: u64,
}

impl<'a> Bar<'a> {
    /// Sizes worth something that fit, most worth for its length first.
    fn order(&self, with_worthless: bool) -> Vec<usize> {
        let fits = |i: &usize| self.sizes[*i] <= self.room && self.demand[*i] > 0;
        let counts = |i: &usize| with_worthless || self.worth[*i] > 0;
        let mut order: Vec<usize> = (0..self.sizes.len()).filter(fits).filter(counts).collect();
        order.sort_by(|a, b| {
            let left = self.worth[*b] * Worth::from(self.sizes[*a]);
            left.cmp(&(self.worth[*a] * Worth::from(self.sizes[*b]))).then(a.cmp(b))
        });
        order
    }

    fn search(self, with_worthless: bool, limit: u64) -> Search<'a> {
        let order = self.order(with_worthless);
        let sorted = order.iter().map(|i| Sorted {
            size: self.sizes[*i],
            worth: self.worth[*i] as f64,
            all_long: self.sizes[*i] * self.demand[*i] as i64,
            all_worth: self.worth[*i] as f64 * self.demand[*i] as f64,
        });
        let sorted = sorted.collect();
        Search {
            bar: self,
            order,
            sorted,
            limit,
            steps: 0,
            work: Cell::new(0),
            most_work: u64::MAX,
            taken: Vec::new(),
            best: 0,
            filling: Vec::new(),
        }
    }

    /// The filling worth most but for [`SLACK`], with at most `limit` steps.
    pub(super) fn most(self, limit: u64) -> Most {
        let mut search = self.search(false, limit);
        let all = search.bound(0, self.room, f64::INFINITY);
        let at_most = (all * (1.0 + ROUGH)) as Worth + 1;
        search.go(0, self.room, 0);
        let at_most = if search.steps < limit { at_most.min(search.best + SLACK) } else { at_most };
        Most {
            bound: at_most,
            worth: search.best,
            filling: search.filling,
            steps: search.steps,
            work: search.work.get(),
        }
    }

    /// Every filling worth at least `needed` into which nothing more of what is wanted goes, and the
    /// steps taken; none where they are more than `limit` or it takes too many steps to say.
    pub(super) fn all(
        self,
        needed: Worth,
        limit: usize,
        work: &Work,
    ) -> (Option<Vec<Filling>>, u64) {
        let mut search = self.search(true, 300 * limit as u64);
        search.most_work = work.left();
        let mut found = Vec::new();
        let is_all = search.each(0, self.room, 0, needed, i64::MAX, limit, &mut found);
        work.take(search.work.get());
        (is_all.then_some(found), search.steps)
    }
}

/// What may be left on the table when the best filling is looked for: next to nothing of a cost's step.
const SLACK: Worth = 1 << (BITS - 8);
/// More than floating point is ever off by here, as a share.
const ROUGH: f64 = 1e-11;

/// A size in the order of the search.
struct Sorted {
    size: i64,
    worth: f64,
    all_long: i64,
    all_worth: f64,
}

struct Search<'a> {
    bar: Bar<'a>,
    order: Vec<usize>,
    sorted: Vec<Sorted>,
    limit: u64,
    steps: u64,
    work: Cell<u64>,
    most_work: u64,
    taken: Filling,
    best: Worth,
    filling: Filling,
}

impl Search<'_> {
    /// What the sizes from `at` on can be worth in this room, were they to be had in parts; calculating
    /// stops above `enough`.
    fn bound(&self, at: usize, mut room: i64, enough: f64) -> f64 {
        let mut sum = 0.0;
        // What a step takes besides.
        let mut work = 12;
        for one in &self.sorted[at..] {
            work += 1;
            if one.all_long > room {
                sum += one.worth * room as f64 / one.size as f64;
                break;
            }
            sum += one.all_worth;
            room -= one.all_long;
            if sum > enough {
                break;
            }
        }
        self.work.set(self.work.get() + work);
        sum
    }

    /// Whether the sizes from `at` on may raise this worth above `aim`.
    fn may_reach(&self, at: usize, room: i64, worth: Worth, aim: Worth) -> bool {
        let missing = (aim - worth) as f64 - aim as f64 * ROUGH;
        missing < 0.0 || self.bound(at, room, missing) > missing
    }

    fn go(&mut self, mut at: usize, room: i64, worth: Worth) {
        if worth > self.best {
            self.best = worth;
            self.filling.clone_from(&self.taken);
        }
        while at < self.order.len() {
            self.steps += 1;
            let i = self.order[at];
            let size = self.bar.sizes[i];
            if size > room {
                at += 1;
                continue;
            }
            if self.steps >= self.limit || !self.may_reach(at, room, worth, self.best + SLACK) {
                return;
            }
            let most = self.bar.demand[i].min((room / size) as usize);
            for n in (1..=most).rev() {
                self.taken.push((i, n));
                self.go(at + 1, room - size * n as i64, worth + self.bar.worth[i] * n as Worth);
                self.taken.pop();
            }
            at += 1;
        }
    }

    /// `shunned`: the shortest size of which less than wanted was taken; less must be empty in the end.
    #[allow(clippy::too_many_arguments, reason = "the state of one search, told step by step")]
    fn each(
        &mut self,
        at: usize,
        room: i64,
        worth: Worth,
        needed: Worth,
        shunned: i64,
        limit: usize,
        found: &mut Vec<Filling>,
    ) -> bool {
        self.steps += 1;
        self.work.set(self.work.get() + 8);
        if self.steps >= self.limit || self.work.get() >= self.most_work {
            return false;
        }
        if !self.may_reach(at, room, worth, needed) {
            return true;
        }
        let Some(i) = self.order.get(at).copied() else {
            if room < shunned && worth >= needed {
                found.push(self.taken.clone());
            }
            return found.len() <= limit;
        };
        let size = self.bar.sizes[i];
        let wanted = self.bar.demand[i];
        for n in (0..=wanted.min((room / size) as usize)).rev() {
            if n > 0 {
                self.taken.push((i, n));
            }
            let shunned = if n < wanted { shunned.min(size) } else { shunned };
            let goes_on = self.each(
                at + 1,
                room - size * n as i64,
                worth + self.bar.worth[i] * n as Worth,
                needed,
                shunned,
                limit,
                found,
            );
            if n > 0 {
                self.taken.pop();
            }
            if !goes_on {
                return false;
            }
        }
        true
    }
}
