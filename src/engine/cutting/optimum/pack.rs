//! As many pieces as go into a given set of bars: by length, the most.
//!
//! Depth first: the longest piece left goes into a bar of some room, whose whole filling is then
//! settled, or is left out. Fillings are looked at only where nothing left over would still go in, and
//! where no piece in it could be changed for a longer one: any other packing can be turned into one of
//! these without losing length (an exchange; Martello and Toth, Knapsack Problems, 1990, ch. 8, from
//! memory). States that led nowhere are remembered.

use std::collections::BTreeMap;

use super::Work;
use super::bounds::Bounds;

/// States remembered at most.
const MOST_STATES: usize = 200_000;

/// What was filled into one bar: its room's place and the sizes' places.
pub(super) type Filling = (usize, Vec<usize>);

/// How a search ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Packed {
    /// The best packing that holds at least what was asked for.
    pub(super) best: Option<(i64, Vec<Filling>)>,
    /// False where the search was given up before everything was looked at.
    pub(super) is_whole: bool,
    /// Steps taken.
    pub(super) nodes: u64,
}

pub(super) struct Packer<'a> {
    sizes: &'a [i64],
    rooms: &'a [i64],
    bounds: &'a Bounds,
    /// Pieces of each size not placed and not left out.
    left: Vec<usize>,
    bars: Vec<usize>,
    fillings: Vec<Filling>,
    /// Length placed, and length of what is left.
    placed: i64,
    rest: i64,
    /// What a packing has to hold to be of use.
    needed: i64,
    best: Option<(i64, Vec<Filling>)>,
    /// For what is left of pieces and bars, the most length placed from which it led nowhere.
    failed: BTreeMap<Box<[u16]>, i64>,
    nodes: u64,
    limit: u64,
    total: i64,
    work: &'a Work,
}

impl<'a> Packer<'a> {
    /// `demand` pieces of `sizes` (longest first) into `bars` bars of `rooms`, at least `needed` long
    /// together.
    pub(super) fn new(
        (sizes, demand): (&'a [i64], &[usize]),
        (rooms, bars): (&'a [i64], &[usize]),
        bounds: &'a Bounds,
        work: &'a Work,
    ) -> Self {
        let total = sizes.iter().zip(demand).map(|(size, n)| size * *n as i64).sum();
        Self {
            sizes,
            rooms,
            bounds,
            left: demand.to_vec(),
            bars: bars.to_vec(),
            fillings: Vec::new(),
            placed: 0,
            rest: total,
            needed: 0,
            best: None,
            failed: BTreeMap::new(),
            nodes: 0,
            limit: 0,
            total,
            work,
        }
    }

    /// The packing of most length, if it holds `needed`; at most `limit` steps.
    pub(super) fn most(mut self, needed: i64, limit: u64) -> Packed {
        (self.needed, self.limit) = (needed, limit);
        self.place();
        let is_whole = self.nodes < limit && !self.work.is_spent();
        Packed { best: self.best, is_whole, nodes: self.nodes }
    }

    fn is_over(&self) -> bool {
        self.nodes >= self.limit || self.needed > self.total || self.work.is_spent()
    }

    /// Settles where the longest piece left goes.
    fn place(&mut self) {
        self.nodes += 1;
        if self.is_over() {
            return;
        }
        if self.placed >= self.needed {
            self.best = Some((self.placed, self.fillings.clone()));
            self.needed = self.placed + 1;
        }
        let Some(longest) = self.left.iter().position(|n| *n > 0) else { return };
        // And as much again to remember it.
        self.work.take(2 * self.bounds.work());
        let hopeless = self.bounds.left_over(&self.left, &self.bars);
        if self.placed + self.rest - hopeless < self.needed {
            return;
        }
        let state = self.state();
        if self.failed.get(&state).is_some_and(|placed| *placed >= self.placed) {
            return;
        }
        self.put_into_bars(longest);
        self.leave_out(longest);
        if self.nodes < self.limit && !self.work.is_spent() && self.failed.len() < MOST_STATES {
            self.failed.insert(state, self.placed);
        }
    }

    /// What is left, of pieces and of bars.
    fn state(&self) -> Box<[u16]> {
        let counts = self.left.iter().chain(&self.bars);
        counts.map(|n| u16::try_from(*n).unwrap_or(u16::MAX)).collect()
    }

    fn put_into_bars(&mut self, longest: usize) {
        let size = self.sizes[longest];
        for bar in 0..self.rooms.len() {
            if self.bars[bar] == 0 || self.rooms[bar] < size {
                continue;
            }
            self.bars[bar] -= 1;
            self.fillings.push((bar, Vec::new()));
            let others: i64 =
                self.rooms.iter().zip(&self.bars).map(|(room, n)| room * *n as i64).sum();
            // More than this may not stay empty.
            let spare = self.placed + self.rooms[bar] + others - self.needed;
            self.take(longest);
            self.fill(longest, self.rooms[bar] - size, spare, i64::MAX);
            self.give_back(longest);
            self.fillings.pop();
            self.bars[bar] += 1;
        }
    }

    fn leave_out(&mut self, longest: usize) {
        let size = self.sizes[longest];
        if self.placed + self.rest - size < self.needed || self.is_over() {
            return;
        }
        self.left[longest] -= 1;
        self.rest -= size;
        self.place();
        self.left[longest] += 1;
        self.rest += size;
    }

    /// Fills up the bar begun last with sizes from `from` on. `shunned` is the shortest size passed
    /// over: less than that must be empty in the end.
    fn fill(&mut self, mut from: usize, room: i64, spare: i64, mut shunned: i64) {
        loop {
            self.nodes += 1;
            if self.is_over() {
                return;
            }
            self.work.take((self.sizes.len() - from) as u64);
            let mut rest = from..self.sizes.len();
            let Some(next) = rest.find(|i| self.left[*i] > 0 && self.sizes[*i] <= room) else {
                break;
            };
            let shorter = self.sizes.iter().zip(&self.left).skip(next);
            let could_be: i64 = shorter.map(|(size, n)| size * *n as i64).sum();
            if room - could_be > spare || room - could_be >= shunned {
                return;
            }
            self.take(next);
            self.fill(next, room - self.sizes[next], spare, shunned);
            self.give_back(next);
            shunned = shunned.min(self.sizes[next]);
            from = next + 1;
        }
        if room <= spare && room < shunned && !self.has_better_change(room) {
            self.place();
        }
    }

    /// Whether a piece in the bar begun last could be changed for a longer one that is left.
    fn has_better_change(&self, room: i64) -> bool {
        let Some((_, filling)) = self.fillings.last() else { return false };
        filling.iter().any(|at| {
            let longer = (0..*at).rev().find(|i| self.left[*i] > 0);
            longer.is_some_and(|i| self.sizes[i] - self.sizes[*at] <= room)
        })
    }

    fn take(&mut self, at: usize) {
        self.left[at] -= 1;
        self.rest -= self.sizes[at];
        self.placed += self.sizes[at];
        if let Some((_, filling)) = self.fillings.last_mut() {
            filling.push(at);
        }
    }

    fn give_back(&mut self, at: usize) {
        self.left[at] += 1;
        self.rest += self.sizes[at];
        self.placed -= self.sizes[at];
        if let Some((_, filling)) = self.fillings.last_mut() {
            filling.pop();
        }
    }
}
