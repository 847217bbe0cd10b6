//! Plans proven by columns.

mod branch;
mod dive;
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
const MOST_COLUMNS: usize = 25_000;
/// Columns looked at in all programs together.
const MOST_STEPS: u64 = 300_000_000;

const TRIES: u64 = 150;

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
    let mut draft = best.clone();
    let mut reached = scale.number(draft.cost);
    let dear = reached << 10;
    let mut left = MOST_STEPS;
    // Parts by the least they can cost, the number made last first; each with a step for its target.
    let mut parts: Vec<(Worth, Worth, Root<'_>)> = Vec::new();
    let whole = Root::new(steps, &demand, &scale);
    let talk = std::env::var("TALK").is_ok();
    if talk { eprintln!("root {} of {reached} gap {:.5} taken {}", whole.bound(), (reached - whole.bound()) as f64 / reached as f64, whole.taken); }
    left = left.saturating_sub(whole.taken);
    let mut dive = whole.dive();
    for attempt in 0..TRIES {
        let found = dive.plan(attempt);
        let number = scale.number(found.cost);
        if number < reached {
            (reached, draft) = (number, found);
        }
        if reached <= whole.bound() { break; }
    }
    left = left.saturating_sub(dive.taken);
    if talk { eprintln!("dived to {reached} gap {:.5} taken {}", (reached - whole.bound()) as f64 / reached as f64, dive.taken); }
    parts.push((whole.bound(), 0, whole));
    let mut given_up: Option<Worth> = None;
    while let Some(at) = (0..parts.len()).min_by_key(|at| (parts[*at].0, std::cmp::Reverse(*at))) {
        let (least, by, mut root) = parts.swap_remove(at);
        if least >= reached {
            break;
        }
        if left == 0 {
            given_up = Some(given_up.map_or(least, |known: Worth| known.min(least)));
            break;
        }
        if by == 0 && let Some(two) = root.parts(dear) {
            for part in two {
                left = left.saturating_sub(part.taken);
                parts.push((part.bound(), 0, part));
            }
            continue;
        }
        let mut by = if by == 0 { ((reached - least) / 4).max(1) } else { by };
        root.taken = 0;
        let target = loop {
            let target = reached.min(least + by);
            match root.program_below(target, MOST_COLUMNS) {
                Some(program) => break Some((target, program)),
                None if by > 8 && by > (reached - least) / 500 => by /= 4,
                None => break None,
            }
        };
        left = left.saturating_sub(root.taken);
        let Some((target, program)) = target else {
            given_up = Some(given_up.map_or(least, |known: Worth| known.min(least)));
            continue;
        };
        let columns = program.columns.len();
        let mut branch = Branch::new(steps, &demand, &scale, target, left);
        branch.node(program, 0);
        left = branch.left;
        if talk { eprintln!(" part {least} of {reached} by {by} columns {columns} nodes {} left {left} found {} open {:?}", branch.nodes, branch.best.is_some(), branch.open); }
        if let Some(found) = branch.best {
            reached = scale.number(found.cost);
            draft = found;
        }
        if let Some(open) = branch.open {
            let open = open.max(least);
            given_up = Some(given_up.map_or(open, |known: Worth| known.min(open)));
        } else if target < reached {
            parts.push((target, by * 2, root));
        }
    }
    let bound = given_up.map_or(reached, |bound| bound.min(reached));
    if talk { eprintln!("done left {left} proven {}", bound >= reached); }
    let bound = if bound >= reached { draft.cost } else { scale.cost(bound) };
    Some(Proved { draft, bound })
}
