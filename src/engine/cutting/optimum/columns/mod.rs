//! Plans proven by columns.

mod branch;
mod filling;
mod root;
mod scale;
mod simplex;

use super::cost::Cost;
use super::problem::Steps;
use super::start::Draft;
use branch::Branch;
use root::Root;
use scale::Scale;

/// Cost as one number, and duals in fixed point.
pub(super) type Worth = i128;

/// Columns of one program.
const MOST_COLUMNS: usize = 30_000;
/// Columns looked at in all programs together.
const MOST_STEPS: u64 = 2_000_000_000;

/// What was found.
#[derive(Debug, Clone)]
pub(super) struct Proved {
    pub(super) draft: Draft,
    pub(super) bound: Cost,
}

/// Improves a plan to the best there is, and what no plan can be below; none where the numbers of the
/// question are too large for it.
pub(super) fn prove(steps: &Steps, best: &Draft) -> Option<Proved> {
    let demand = steps.demand();
    let scale = Scale::of(steps, &demand)?;
    let root = Root::new(steps, &demand, &scale);
    let mut draft = best.clone();
    let mut reached = scale.number(draft.cost);
    let mut bound = root.bound().min(reached);
    if std::env::var("TALK").is_ok() { eprintln!("root bound {bound} of {reached} gap {:.5} kinds {}", (reached - bound) as f64 / reached as f64, steps.stock.len()); }
    let mut left = MOST_STEPS;
    let mut by = ((reached - bound) / 8).max(1);
    while bound < reached {
        let target = reached.min(bound + by);
        let Some(program) = root.program_below(target, MOST_COLUMNS) else {
            if by <= 1 { break; }
            if std::env::var("TALK").is_ok() { eprintln!(" too many columns by {by}"); }
            by /= 4;
            continue;
        };
        let columns = program.columns.len();
        let mut branch = Branch::new(steps, &demand, &scale, target, left);
        branch.node(program, 0);
        left = branch.left;
        if std::env::var("TALK").is_ok() { eprintln!(" by {by} columns {columns} nodes {} left {left} found {} open {:?}", branch.nodes, branch.best.is_some(), branch.open); }
        let is_better = branch.best.is_some();
        if let Some(found) = branch.best {
            reached = scale.number(found.cost);
            draft = found;
        }
        if let Some(open) = branch.open {
            bound = bound.max(open.min(reached));
            break;
        }
        bound = if is_better { reached } else { target };
        by *= 2;
    }
    let bound = if bound >= reached { draft.cost } else { scale.cost(bound) };
    Some(Proved { draft, bound })
}
