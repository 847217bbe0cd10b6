//! The program at the root: columns made as they are needed, and the bound by its duals.

use std::sync::Arc;

use super::super::problem::Steps;
use super::Worth;
use super::dive::Dive;
use super::filling::{Bar, Filling};
use super::scale::Scale;
use super::simplex::{Asks, BITS, Column, LEAST_GAIN, Program};

/// Nearer than this to a whole number is one.
pub(super) const NEAR: f64 = 1e-4;

/// Steps for one most valuable filling.
const STEPS_OF_FILLING: u64 = 100_000;
/// Rounds of new columns.
const MOST_ROUNDS: usize = 400;
/// What a step of a filling counts, against a column looked at.
const STEPS_OF_ONE: u64 = 4;
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
    /// An artificial variable: a row not met, at a price that no cut list pays.
    Artificial,
}

/// A part of all cut lists: those that keep to some numbers of lengths of each kind.
#[derive(Clone)]
pub(super) struct Root<'a> {
    steps: &'a Steps,
    demand: &'a [usize],
    costs: Vec<Worth>,
    /// Rows about how many bars of a kind there are.
    counted: Vec<(usize, usize)>,
    program: Program<What>,
    /// Worth of one of each size, and what a bar of each kind costs with what its rows ask.
    worth: Vec<Worth>,
    price: Vec<Worth>,
    /// In fixed point.
    bound: Worth,
    /// Steps taken.
    pub(super) taken: u64,
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
        for (kind, bar) in steps.stock.iter().enumerate() {
            if bar.count < pieces {
                counted.push((rows.len(), kind));
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
            price: vec![0; steps.stock.len()],
            bound: Worth::MIN,
            taken: 0,
        };
        root.generate();
        root
    }

    /// What no cut list of this part costs less than.
    pub(super) fn bound(&self) -> Worth {
        up(self.bound)
    }

    /// Plans at a guess by the duals here.
    pub(super) fn dive(&self) -> Dive<'_> {
        Dive {
            steps: self.steps,
            demand: self.demand,
            worth: &self.worth,
            price: &self.price,
            taken: 0,
        }
    }

    /// Two parts where the best of the program takes a part of a bar only; none where it does not.
    pub(super) fn parts(&self, dear: Worth) -> Option<[Self; 2]> {
        let mut much = vec![0.0; self.steps.stock.len()];
        for (at, n) in self.program.taken() {
            if let What::Bar(kind, _) = self.program.columns[at].what {
                much[kind] += n;
            }
        }
        let off = |much: f64| (much - much.round()).abs();
        let kind = (0..much.len()).max_by(|a, b| off(much[*a]).total_cmp(&off(much[*b])))?;
        if off(much[kind]) < NEAR {
            return None;
        }
        let low = much[kind].floor() as i64;
        let part = |asks| {
            let mut part = self.clone();
            part.counted.push((part.program.rows.len(), kind));
            part.program.add_row(asks, (What::Slack, What::Artificial), dear, |column| {
                i32::from(matches!(column.what, What::Bar(of, _) if of == kind))
            });
            part.bound = Worth::MIN;
            part.taken = 0;
            part.generate();
            part.bound = part.bound.max(self.bound);
            part
        };
        Some([part(Asks::AtMost(low)), part(Asks::AtLeast(low + 1))])
    }

    fn bar<'b>(&'b self, kind: usize, worth: &'b [Worth]) -> Bar<'b> {
        Bar {
            sizes: &self.steps.sizes,
            demand: self.demand,
            worth,
            room: self.steps.stock[kind].room,
        }
    }

    fn generate(&mut self) {
        for _ in 0..MOST_ROUNDS {
            self.program.steps = 0;
            let mut duals = self.program.optimise(MOST_PIVOTS);
            self.taken += self.program.steps;
            self.steps.work.take(std::mem::take(&mut self.program.work));
            for (dual, asks) in duals.iter_mut().zip(&self.program.rows) {
                *dual = asks.allowed(*dual);
            }
            let worth = &duals[..self.demand.len()];
            let mut price: Vec<Worth> = self.costs.iter().map(|cost| cost << BITS).collect();
            self.counted.iter().for_each(|(row, kind)| price[*kind] -= duals[*row]);
            let mut more = Vec::new();
            let mut too_much = 0;
            for (kind, price) in price.iter_mut().enumerate() {
                let most = self.bar(kind, worth).most(STEPS_OF_FILLING);
                self.taken += most.steps * STEPS_OF_ONE;
                self.steps.work.take(most.work);
                if most.worth - *price > LEAST_GAIN {
                    more.push(self.column(kind, most.filling));
                }
                let beyond = (most.bound - *price).max(0);
                too_much += beyond * self.steps.stock[kind].count as Worth;
                *price += beyond;
            }
            let rows = duals.iter().zip(&self.program.rows);
            let all: Worth = rows.map(|(dual, asks)| dual * Worth::from(asks.much())).sum();
            if all - too_much > self.bound {
                (self.bound, self.price) = (all - too_much, price);
                self.worth = worth.to_vec();
            }
            if more.is_empty() || self.steps.work.is_spent() {
                break;
            }
            self.program.columns.extend(more);
        }
    }

    fn column(&self, kind: usize, filling: Filling) -> Column<What> {
        let mut entries: Vec<(u32, i32)> =
            filling.iter().map(|(i, n)| (*i as u32, *n as i32)).collect();
        let rows = self.counted.iter().filter(|(_, of)| *of == kind);
        entries.extend(rows.map(|(row, _)| (*row as u32, 1)));
        Column::new(self.costs[kind], entries, What::Bar(kind, Arc::new(filling)))
    }

    /// The program with every column that a cut list of less than `target` can have; none where they are
    /// too many.
    pub(super) fn program_below(&mut self, target: Worth, limit: usize) -> Option<Program<What>> {
        let spare = ((target - 1) << BITS) - self.bound;
        let mut program = self.program.clone();
        program.retain(|at, column| match &column.what {
            What::Bar(..) => false,
            What::Outside(i) => {
                at < self.demand.len() && (column.cost << BITS) - self.worth[*i] <= spare
            }
            What::Slack | What::Artificial => true,
        });
        for kind in 0..self.steps.stock.len() {
            let needed = self.price[kind] - spare;
            let (fillings, steps) =
                self.bar(kind, &self.worth).all(needed, limit, &self.steps.work);
            self.taken += steps * STEPS_OF_ONE;
            let fillings = fillings?;
            program.columns.extend(
                fillings
                    .into_iter()
                    .filter(|filling| !filling.is_empty())
                    .map(|filling| self.column(kind, filling)),
            );
            if program.columns.len() > limit {
                return None;
            }
        }
        Some(program)
    }
}

/// A bound in fixed point as a whole cost: cut lists cost whole numbers.
pub(super) fn up(bound: Worth) -> Worth {
    -((-bound) >> BITS)
}
