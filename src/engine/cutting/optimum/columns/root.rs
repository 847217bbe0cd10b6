//! The program at the root: columns made as they are needed, and the bound by its duals.

use std::sync::Arc;

use super::Worth;
use super::filling::{Bar, Filling};
use super::scale::Scale;
use super::simplex::{Asks, BITS, Column, Program};
use super::super::problem::Steps;

/// Steps for one most valuable filling.
const STEPS_OF_FILLING: u64 = 300_000;
/// Rounds of new columns.
const MOST_ROUNDS: usize = 400;
const MOST_PIVOTS: usize = 2_000;

/// What a column stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum What {
    /// A bar of a kind of stock, filled.
    Bar(usize, Arc<Filling>),
    /// One piece of a size that is cut from no stock.
    Outside(usize),
    /// What a row has over.
    Slack,
    /// A row not met, at a price that no plan pays.
    Mend,
}

pub(super) struct Root<'a> {
    steps: &'a Steps,
    demand: &'a [usize],
    costs: Vec<Worth>,
    counted: Vec<Option<usize>>,
    program: Program<What>,
    /// Worth of one of each size; what a bar of each kind is worth beyond its cost at most.
    worth: Vec<Worth>,
    beyond: Vec<Worth>,
    /// In fixed point.
    bound: Worth,
}

impl<'a> Root<'a> {
    pub(super) fn new(steps: &'a Steps, demand: &'a [usize], scale: &Scale) -> Self {
        let pieces: usize = demand.iter().sum();
        let mut rows: Vec<Asks> = demand.iter().map(|n| Asks::AtLeast(*n as i64)).collect();
        let mut first = Vec::new();
        for (i, size) in steps.sizes.iter().enumerate() {
            let cost = scale.number(steps.outside.times(i128::from(*size)));
            first.push(Column::new(cost, vec![(i as u32, 1)], What::Outside(i)));
        }
        let mut counted = Vec::new();
        for bar in &steps.stock {
            counted.push((bar.count < pieces).then_some(rows.len()));
            if bar.count < pieces {
                first.push(Column::new(0, vec![(rows.len() as u32, 1)], What::Slack));
                rows.push(Asks::AtMost(bar.count as i64));
            }
        }
        let mut program = Program::new(rows, first);
        for row in 0..demand.len() {
            program.columns.push(Column::new(0, vec![(row as u32, -1)], What::Slack));
        }
        let mut root = Self {
            steps,
            demand,
            costs: steps.stock.iter().map(|bar| scale.number(bar.cost)).collect(),
            counted,
            program,
            worth: vec![0; demand.len()],
            beyond: vec![0; steps.stock.len()],
            bound: 0,
        };
        root.generate();
        root
    }

    /// What no plan costs less than.
    pub(super) fn bound(&self) -> Worth {
        up(self.bound)
    }

    fn bar<'b>(&'b self, kind: usize, worth: &'b [Worth]) -> Bar<'b> {
        Bar { sizes: &self.steps.sizes, demand: self.demand, worth, room: self.steps.stock[kind].room }
    }

    fn generate(&mut self) {
        for _ in 0..MOST_ROUNDS {
            let duals = self.program.optimise(MOST_PIVOTS);
            let worth: Vec<Worth> = duals[..self.demand.len()].iter().map(|dual| (*dual).max(0)).collect();
            let mut beyond = Vec::new();
            let mut more = Vec::new();
            for kind in 0..self.steps.stock.len() {
                let most = self.bar(kind, &worth).most(STEPS_OF_FILLING);
                beyond.push((most.at_most - (self.costs[kind] << BITS)).max(0));
                let dual = self.counted[kind].map_or(0, |row| duals[row].min(0));
                let gain = most.worth + dual - (self.costs[kind] << BITS);
                if gain > 1 << (BITS - 6) {
                    more.push(self.column(kind, most.filling));
                }
            }
            self.learn(worth, beyond);
            if more.is_empty() {
                break;
            }
            self.program.columns.extend(more);
        }
    }

    /// Keeps the best bound. It holds for any worths that are not negative and not above the cost of
    /// the piece from outside: a plan is worth no more than its bars are.
    fn learn(&mut self, mut worth: Vec<Worth>, beyond: Vec<Worth>) {
        // A lower worth makes no bar worth more.
        for (i, worth) in worth.iter_mut().enumerate() {
            *worth = (*worth).min(self.program.columns[i].cost << BITS);
        }
        let all: Worth = worth.iter().zip(self.demand).map(|(worth, n)| worth * *n as Worth).sum();
        let counts = self.steps.stock.iter().map(|bar| bar.count as Worth);
        let too_much: Worth = beyond.iter().zip(counts).map(|(beyond, n)| beyond * n).sum();
        if all - too_much > self.bound || self.worth.iter().all(|worth| *worth == 0) {
            (self.bound, self.worth, self.beyond) = (all - too_much, worth, beyond);
        }
    }

    fn column(&self, kind: usize, filling: Filling) -> Column<What> {
        let mut entries: Vec<(u32, i32)> = filling.iter().map(|(i, n)| (*i as u32, *n as i32)).collect();
        entries.extend(self.counted[kind].map(|row| (row as u32, 1)));
        Column::new(self.costs[kind], entries, What::Bar(kind, Arc::new(filling)))
    }

    /// The program with every column that a plan of less than `target` can have; none where they are
    /// too many.
    pub(super) fn program_below(&self, target: Worth, limit: usize) -> Option<Program<What>> {
        let spare = ((target - 1) << BITS) - self.bound;
        let mut program = self.program.clone();
        program.retain(|at, column| match &column.what {
            What::Bar(kind, filling) => self.beyond_bound(*kind, filling) <= spare,
            What::Outside(i) => at < self.demand.len() || (column.cost << BITS) - self.worth[*i] <= spare,
            What::Slack | What::Mend => true,
        });
        for kind in 0..self.steps.stock.len() {
            let needed = (self.costs[kind] << BITS) + self.beyond[kind] - spare;
            let fillings = self.bar(kind, &self.worth).all(needed, limit)?;
            program.columns.extend(fillings.into_iter().filter(|filling| !filling.is_empty()).map(|filling| self.column(kind, filling)));
            if program.columns.len() > limit {
                return None;
            }
        }
        Some(program)
    }

    fn beyond_bound(&self, kind: usize, filling: &Filling) -> Worth {
        let worth: Worth = filling.iter().map(|(i, n)| self.worth[*i] * *n as Worth).sum();
        (self.costs[kind] << BITS) + self.beyond[kind] - worth
    }
}

/// A bound in fixed point as a whole cost: plans cost whole numbers.
pub(super) fn up(bound: Worth) -> Worth {
    -((-bound) >> BITS)
}
