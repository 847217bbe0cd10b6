//! The cut list of least cost for cutting one kind of hose, with its proof.
//!
//! Exact in whole numbers and the same every time: the search is limited by steps, never by a clock.
//! Where a limit is met the cut list is still good, and [`Answer::bound`] says what no cut list can be below.

#![allow(clippy::cast_possible_wrap, reason = "counts of pieces and bars are far below 2^63")]

mod bounds;
mod columns;
mod cost;
mod pack;
mod problem;
mod search;
mod start;
mod verify;
mod work;

pub use cost::Cost;
pub use problem::{ByMetre, Problem, StockLength};
pub use verify::Flaw;
pub use work::{Watch, Work};

use problem::Steps;

/// The cut list for a [`Problem`].
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The lengths cut into, the longest first; of those alike the fullest first.
    pub bars: Vec<BarCut>,
    /// Pieces to buy by the metre, as places in [`Problem::pieces_mm`].
    pub by_metre: Vec<usize>,
    /// Pieces longer than anything there is.
    pub too_long: Vec<usize>,
    /// Pieces that what there is does not reach for.
    pub short_of: Vec<usize>,
    /// What the cut list costs.
    pub cost: Cost,
    /// What no cut list can cost less than; equal to `cost` where the cut list is proven best.
    pub bound: Cost,
}

/// One length cut up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BarCut {
    /// Its place in [`Problem::stock`].
    pub stock: usize,
    /// The pieces, as places in [`Problem::pieces_mm`], longest first.
    pub pieces: Vec<usize>,
}

impl Answer {
    /// Whether no cut list is better.
    pub fn is_proven(&self) -> bool {
        self.bound == self.cost
    }

    /// The money spent, without what is bought at a price not known.
    pub fn money(&self) -> f64 {
        cost::amount(self.cost.money)
    }

    /// Hose bought at a price that is not known, mm.
    pub fn unpriced_mm(&self) -> f64 {
        problem::mm(i64::try_from(self.cost.unpriced).unwrap_or(i64::MAX))
    }

    /// The money that any cut list costs at least that is as good in all that comes before money; 0 where no such
    /// bound was found.
    pub fn money_bound(&self) -> f64 {
        let alike =
            (self.bound.unplaced, self.bound.unpriced) == (self.cost.unplaced, self.cost.unpriced);
        if alike { cost::amount(self.bound.money) } else { 0.0 }
    }
}

/// The best cut list found: least hose that cannot be had, then least bought at a price not known, then
/// least money, then least hose opened, then fewest lengths cut into.
pub fn solve(problem: &Problem) -> Answer {
    solve_within(problem, &Work::default())
}

/// The same with no more than this work: where it is spent or stopped, the best cut list so far.
pub fn solve_within(problem: &Problem, work: &Work) -> Answer {
    let steps = Steps::of(problem, work);
    let found = search::search(&steps);
    let mut alike = steps.places.clone();
    for places in &mut alike {
        places.reverse();
    }
    let mut bars: Vec<BarCut> = Vec::new();
    for (kind, sizes) in &found.draft.bars {
        let pieces = sizes.iter().filter_map(|size| alike[*size].pop()).collect();
        bars.push(BarCut { stock: steps.stock[*kind].place, pieces });
    }
    bars.sort_by_key(|bar| {
        let stock = problem::rounded_down(problem.stock[bar.stock].length_mm);
        let used: i64 = bar.pieces.iter().map(|place| problem.takes(*place)).sum();
        std::cmp::Reverse((stock, used))
    });
    let rest: Vec<usize> = alike.into_iter().flat_map(|places| places.into_iter().rev()).collect();
    let can_be_had = problem.by_metre != ByMetre::No;
    let (by_metre, short_of) = if can_be_had { (rest, Vec::new()) } else { (Vec::new(), rest) };
    Answer {
        bars,
        by_metre,
        too_long: steps.too_long,
        short_of,
        cost: found.draft.cost,
        bound: found.bound,
    }
}

/// What is left of one bar of the cut list, mm, once its pieces and their cuts are off; nothing where
/// less than a cut is left.
pub fn left_of(problem: &Problem, bar: &BarCut) -> f64 {
    let Some(stock) = problem.stock.get(bar.stock) else { return 0.0 };
    let taken: i64 = bar.pieces.iter().map(|place| problem.takes(*place)).sum();
    problem::mm((problem::rounded_down(stock.length_mm) - taken).max(0))
}

/// Hose to buy by the metre for the cut list, mm: each piece with its trim and a cut.
pub fn metres_for(problem: &Problem, pieces: &[usize]) -> f64 {
    problem::mm(pieces.iter().map(|place| problem.takes(*place)).sum())
}
