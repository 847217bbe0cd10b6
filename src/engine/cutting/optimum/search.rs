//! Which bars to take: every choice, in the order of the least it can cost, until none is left that
//! could beat the best cut list found. What a choice of bars holds is then [`Packer`]'s question. What
//! that leaves unproven is gone over by [`columns`].

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::Work;
use super::bounds::Bounds;
use super::columns;
use super::cost::Cost;
use super::pack::Packer;
use super::problem::Steps;
use super::start::{Draft, start};

/// Above so many pieces the quick cut list and its bound have to do.
const MOST_PIECES: usize = 300;

/// How long to search.
#[derive(Debug, Clone, Copy)]
struct Limits {
    /// Choices of bars looked at.
    choices: usize,
    /// Steps of all packings together, and of one.
    in_all: u64,
    of_one: u64,
}

/// At first: nearly every question ends here.
const FIRST: Limits = Limits { choices: 20_000, in_all: 5_000_000, of_one: 2_000_000 };
/// Once more, where columns did not prove it either: what they miss is mostly one hard packing.
const LAST: Limits = Limits { choices: 60_000, in_all: 60_000_000, of_one: 30_000_000 };

/// The best cut list found and what no cut list can be below.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Found {
    pub(super) draft: Draft,
    pub(super) bound: Cost,
}

/// A choice of bars for the first kinds of stock: `bars.len()` of them. Ordered by the least it can
/// cost; of those alike the one settled furthest.
type Choice = Reverse<(Cost, Reverse<usize>, Vec<usize>)>;

struct Search<'a> {
    steps: &'a Steps,
    demand: Vec<usize>,
    bounds: Bounds,
    /// The different rooms, and which of them each kind of stock has.
    rooms: Vec<i64>,
    room_of: Vec<usize>,
    room_bounds: Bounds,
    open: BinaryHeap<Choice>,
    best: Draft,
    /// The least that a choice given up could have cost.
    given_up: Option<Cost>,
    nodes: u64,
    limits: Limits,
    work: Work,
}

pub(super) fn search(steps: &Steps) -> Found {
    let first = search_within(steps, start(steps), FIRST, steps.work.share_of(4));
    let pieces: usize = steps.demand().iter().sum();
    if first.is_proven() || pieces > MOST_PIECES {
        return first;
    }
    if steps.work.is_spent() {
        return first;
    }
    let Some(proved) = columns::prove(steps, &first.draft) else { return first };
    let found = Found { draft: proved.draft, bound: first.bound.max(proved.bound) };
    // By the metre every millimetre changes the cost: there are too many choices for it.
    if found.is_proven() || steps.outside.unplaced == 0 {
        return found;
    }
    let last = search_within(steps, found.draft, LAST, steps.work.clone());
    Found { bound: last.bound.max(found.bound.min(last.draft.cost)), ..last }
}

/// The search over choices of bars, from a cut list on.
fn search_within(steps: &Steps, best: Draft, limits: Limits, work: Work) -> Found {
    let demand = steps.demand();
    let of_stock: Vec<i64> = steps.stock.iter().map(|bar| bar.room).collect();
    let bounds = Bounds::new(&steps.sizes, &demand, &of_stock);
    let mut rooms = of_stock.clone();
    rooms.sort_unstable();
    rooms.dedup();
    let room_of = of_stock.iter().map(|room| rooms.partition_point(|other| other < room)).collect();
    let room_bounds = Bounds::new(&steps.sizes, &demand, &rooms);
    let mut search = Search {
        steps,
        demand,
        bounds,
        rooms,
        room_of,
        room_bounds,
        open: BinaryHeap::new(),
        best,
        given_up: None,
        nodes: 0,
        limits,
        work,
    };
    search.run();
    let bound = search.given_up.map_or(search.best.cost, |cost| cost.min(search.best.cost));
    Found { draft: search.best, bound }
}

impl Found {
    fn is_proven(&self) -> bool {
        self.bound == self.draft.cost
    }
}

impl Search<'_> {
    fn run(&mut self) {
        self.offer(Vec::new());
        if self.demand.iter().sum::<usize>() > MOST_PIECES {
            self.give_up_the_rest();
            return;
        }
        let mut looked_at = 0;
        while let Some(Reverse((least, _, bars))) = self.open.pop() {
            if least >= self.best.cost {
                break;
            }
            looked_at += 1;
            let is_over = looked_at > self.limits.choices || self.nodes >= self.limits.in_all;
            if is_over || self.work.is_spent() {
                self.give_up(least);
                break;
            }
            if bars.len() == self.steps.stock.len() {
                self.pack(&bars, least);
            } else {
                for n in 0..=self.steps.stock[bars.len()].count {
                    let mut more = bars.clone();
                    more.push(n);
                    self.offer(more);
                }
            }
        }
    }

    /// Puts a choice on the list, unless it cannot beat the best cut list.
    fn offer(&mut self, bars: Vec<usize>) {
        let least = self.bounds.least(self.steps, &self.demand, &bars, &self.work);
        if least < self.best.cost {
            self.open.push(Reverse((least, Reverse(bars.len()), bars)));
        }
    }

    fn give_up(&mut self, least: Cost) {
        self.given_up = Some(self.given_up.map_or(least, |cost| cost.min(least)));
    }

    fn give_up_the_rest(&mut self) {
        if let Some(Reverse((least, ..))) = self.open.pop() {
            self.give_up(least);
        }
    }

    /// Looks for the cut list that makes the most of these bars, if it beats the best one.
    fn pack(&mut self, bars: &[usize], least: Cost) {
        let Some(needed) = self.needed(bars) else { return };
        let mut in_rooms = vec![0; self.rooms.len()];
        bars.iter().zip(&self.room_of).for_each(|(n, room)| in_rooms[*room] += n);
        let packer = Packer::new(
            (&self.steps.sizes, &self.demand),
            (&self.rooms, &in_rooms),
            &self.room_bounds,
            &self.work,
        );
        let limit = self.limits.of_one.min(self.limits.in_all - self.nodes);
        let packed = packer.most(needed, limit);
        self.nodes += packed.nodes;
        if let Some((_, fillings)) = packed.best {
            let draft = self.drafted(bars, fillings);
            if draft.cost < self.best.cost {
                self.best = draft;
            }
        }
        if !packed.is_whole {
            self.give_up(least);
        }
    }

    /// The least length that these bars have to hold to beat the best cut list.
    fn needed(&self, bars: &[usize]) -> Option<i64> {
        let stock = self.steps.stock.iter().zip(bars);
        let paid = stock.fold(Cost::default(), |sum, (bar, n)| sum + bar.cost.times(*n as i128));
        let total = self.steps.total();
        let beats =
            |held: i64| paid + self.steps.outside.times(i128::from(total - held)) < self.best.cost;
        if !beats(total) {
            return None;
        }
        // The more they hold the better: the first of all lengths that beats it.
        let (mut low, mut high) = (0, total);
        while low < high {
            let middle = low + (high - low) / 2;
            if beats(middle) { high = middle } else { low = middle + 1 }
        }
        Some(low)
    }

    /// Fillings of rooms as fillings of stock; bars that stayed empty are left out.
    fn drafted(&self, bars: &[usize], fillings: Vec<(usize, Vec<usize>)>) -> Draft {
        let mut there = bars.to_vec();
        let filled = fillings.into_iter().filter_map(|(room, sizes)| {
            let kinds = (0..there.len()).filter(|kind| self.room_of[*kind] == room);
            let kind = kinds
                .filter(|kind| there[*kind] > 0)
                .min_by_key(|kind| (self.steps.stock[*kind].cost, *kind))?;
            there[kind] -= 1;
            Some((kind, sizes))
        });
        let filled = filled.collect();
        Draft::of(self.steps, filled)
    }
}
