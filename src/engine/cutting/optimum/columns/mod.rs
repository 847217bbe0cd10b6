//! Plans proven by columns (Gilmore and Gomory, A linear programming approach to the cutting-stock
//! problem, 1961, from memory): every way to fill one length is a column, and a cut list takes a whole
//! number of each. What the linear program says of a piece's worth is made a whole number and gone over
//! in whole numbers before anything is concluded from it, so that rounding proves nothing that is false.
//!
//! First the numbers of lengths of each kind are branched on, with columns made as they are needed;
//! then, part by part, all columns that a cut list below a target can have are listed and branched on. The
//! target is raised until the cut list found, or what no cut list can be below, meets the other.

mod branch;
mod dive;
mod filling;
mod root;
mod scale;
mod simplex;
#[cfg(test)]
mod tests;

use std::cmp::Reverse;

use super::cost::Cost;
use super::problem::Steps;
use super::start::Draft;
use branch::Branch;
use root::Root;
use scale::Scale;

/// Cost as one number; a dual or a worth in fixed point.
type Worth = i128;

/// Columns of one program.
const MOST_COLUMNS: usize = 100_000;
/// Steps of everything together: about columns looked at.
const MOST_STEPS: u64 = 1_000_000_000;
/// Plans made at a guess, from one set of worths.
const GUESSES: u64 = 150;

/// What was found.
#[derive(Debug, Clone)]
pub(super) struct Proved {
    pub(super) draft: Draft,
    pub(super) bound: Cost,
}

/// Some of all cut lists, and the least they can cost.
struct Part<'a> {
    least: Worth,
    root: Root<'a>,
    /// How far above that the next target is; none where it was not yet looked at closely.
    step: Option<Worth>,
}

struct Prover<'a> {
    steps: &'a Steps,
    demand: &'a [usize],
    scale: &'a Scale,
    draft: Draft,
    /// What the draft costs.
    reached: Worth,
    parts: Vec<Part<'a>>,
    /// The least that cut lists not looked at can cost.
    given_up: Option<Worth>,
    left: u64,
}

/// Improves a cut list to the best there is, and what no cut list can be below; none where the numbers of the
/// question are too large for it.
pub(super) fn prove(steps: &Steps, best: &Draft) -> Option<Proved> {
    let demand = steps.demand();
    let scale = Scale::of(steps, &demand)?;
    let reached = scale.number(best.cost);
    let mut prover = Prover {
        steps,
        demand: &demand,
        scale: &scale,
        draft: best.clone(),
        reached,
        parts: Vec::new(),
        given_up: None,
        left: MOST_STEPS,
    };
    prover.run();
    let reached = prover.reached;
    let bound = prover.given_up.filter(|bound| *bound < reached);
    let bound = bound.map_or(prover.draft.cost, |bound| scale.cost(bound));
    Some(Proved { draft: prover.draft, bound })
}

impl<'a> Prover<'a> {
    fn run(&mut self) {
        let whole = Root::new(self.steps, self.demand, self.scale);
        self.guess(&whole);
        self.add(whole);
        while let Some(part) = self.next() {
            if part.least >= self.reached {
                break;
            }
            if self.left == 0 || self.steps.work.is_spent() {
                self.give_up(part.least);
                break;
            }
            self.look_at(part);
        }
    }

    fn add(&mut self, root: Root<'a>) {
        self.left = self.left.saturating_sub(root.taken);
        self.parts.push(Part { least: root.bound(), root, step: None });
    }

    /// The part that could hold the cheapest cut list; of those alike the newest.
    fn next(&mut self) -> Option<Part<'a>> {
        let places = 0..self.parts.len();
        let at = places.min_by_key(|at| (self.parts[*at].least, Reverse(*at)))?;
        Some(self.parts.swap_remove(at))
    }

    fn give_up(&mut self, least: Worth) {
        self.given_up = Some(self.given_up.map_or(least, |known| known.min(least)));
    }

    /// Plans at a guess: none is the worse for it.
    fn guess(&mut self, root: &Root<'_>) {
        let mut dive = root.dive();
        let before = self.steps.work.left();
        for attempt in 0..GUESSES {
            // Guesses leave most of the work for the proof.
            let is_over = self.steps.work.left() < before / 2;
            if self.reached <= root.bound() || is_over {
                break;
            }
            let found = dive.cut_list(attempt);
            let number = self.scale.number(found.cost);
            if number < self.reached {
                (self.reached, self.draft) = (number, found);
            }
        }
        self.left = self.left.saturating_sub(dive.taken);
    }

    fn look_at(&mut self, mut part: Part<'a>) {
        if part.step.is_none() {
            // A row not met must cost more than any cut list.
            if let Some(two) = part.root.parts(self.reached << 10) {
                for root in two {
                    self.add(root);
                }
                return;
            }
            self.guess(&part.root);
            if part.least >= self.reached {
                return;
            }
        }
        let gap = self.reached - part.least;
        let mut step = part.step.unwrap_or(gap / 4).max(1);
        part.root.taken = 0;
        let program = loop {
            let target = self.reached.min(part.least + step);
            if let Some(program) = part.root.program_below(target, MOST_COLUMNS) {
                break Some((target, program));
            }
            if step <= 8 || step <= gap / 500 {
                break None;
            }
            step /= 4;
        };
        self.left = self.left.saturating_sub(part.root.taken);
        let Some((target, program)) = program else {
            self.give_up(part.least);
            return;
        };
        let mut branch = Branch::new(self.steps, self.demand, self.scale, target, self.left);
        branch.node(program, 0);
        self.left = branch.left;
        if let Some(found) = branch.best {
            self.reached = self.scale.number(found.cost);
            self.draft = found;
        }
        if let Some(open) = branch.open {
            self.give_up(open.max(part.least));
        } else if target < self.reached {
            self.parts.push(Part { least: target, step: Some(step * 2), ..part });
        }
    }
}
