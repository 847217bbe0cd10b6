//! A cut list gone over again, from the question alone.

use super::Answer;
use super::Work;
use super::cost::Cost;
use super::problem::{ByMetre, Problem, Steps, rounded_down, rounded_up};

/// What is wrong with a cut list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Flaw {
    /// A piece is not told of, or more than once, or is not there.
    #[error("piece {piece} stands in the cut list {times} times")]
    Piece {
        /// Its place in [`Problem::pieces_mm`].
        piece: usize,
        /// How often it was found.
        times: usize,
    },
    /// A length that is not there.
    #[error("there is no stock {stock}")]
    NoStock {
        /// Its place.
        stock: usize,
    },
    /// More of a length than there are.
    #[error("stock {stock} is used {used} times")]
    OverUsed {
        /// Its place in [`Problem::stock`].
        stock: usize,
        /// How often.
        used: usize,
    },
    /// The pieces of a bar and the cuts between them are longer than it.
    #[error("bar {bar} is too short for its pieces")]
    TooFull {
        /// Its place in [`Answer::bars`].
        bar: usize,
    },
    /// Hose by the metre where there is none.
    #[error("hose is bought by the metre that cannot be")]
    NoMetres,
    /// The cost is not the sum of what is bought, or is less than the bound.
    #[error("the cost does not add up")]
    Cost,
}

impl Answer {
    /// Goes over the cut list again: every piece once, no length over-used, a cut between pieces, the cost
    /// the sum of what is bought and not below the bound.
    ///
    /// # Errors
    /// The first [`Flaw`] found.
    pub fn verify(&self, problem: &Problem) -> Result<(), Flaw> {
        self.verify_pieces(problem)?;
        self.verify_stock(problem)?;
        if problem.by_metre == ByMetre::No && !self.by_metre.is_empty() {
            return Err(Flaw::NoMetres);
        }
        let adds_up = self.sum(problem) == self.cost && self.bound <= self.cost;
        if adds_up { Ok(()) } else { Err(Flaw::Cost) }
    }

    fn verify_pieces(&self, problem: &Problem) -> Result<(), Flaw> {
        let mut times = vec![0; problem.pieces_mm.len()];
        let in_bars = self.bars.iter().flat_map(|bar| &bar.pieces);
        let others = self.by_metre.iter().chain(&self.too_long).chain(&self.short_of);
        for piece in in_bars.chain(others) {
            match times.get_mut(*piece) {
                Some(found) => *found += 1,
                None => return Err(Flaw::Piece { piece: *piece, times: 1 }),
            }
        }
        match times.iter().position(|found| *found != 1) {
            Some(piece) => Err(Flaw::Piece { piece, times: times[piece] }),
            None => Ok(()),
        }
    }

    fn verify_stock(&self, problem: &Problem) -> Result<(), Flaw> {
        let mut used = vec![0; problem.stock.len()];
        let kerf = rounded_up(problem.kerf_mm);
        for (bar, cut) in self.bars.iter().enumerate() {
            let stock = problem.stock.get(cut.stock).ok_or(Flaw::NoStock { stock: cut.stock })?;
            used[cut.stock] += 1;
            let taken: i64 = cut.pieces.iter().map(|piece| problem.takes(*piece)).sum();
            if taken > rounded_down(stock.length_mm) + kerf {
                return Err(Flaw::TooFull { bar });
            }
        }
        let over = |(used, stock): (&usize, &super::StockLength)| {
            stock.count.is_some_and(|count| *used > count as usize)
        };
        match used.iter().zip(&problem.stock).position(over) {
            Some(stock) => Err(Flaw::OverUsed { stock, used: used[stock] }),
            None => Ok(()),
        }
    }

    fn sum(&self, problem: &Problem) -> Cost {
        let steps = Steps::of(problem, &Work::default());
        let outside = self.by_metre.iter().chain(&self.short_of);
        let outside: i64 = outside.map(|piece| problem.takes(*piece)).sum();
        let mut sum = steps.outside.times(i128::from(outside));
        for cut in &self.bars {
            let kind = steps.stock.iter().find(|bar| bar.place == cut.stock);
            sum += kind.map_or(Cost::default(), |bar| bar.cost);
        }
        sum
    }
}
