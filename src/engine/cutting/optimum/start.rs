//! A cut list at once, to begin from: lengths filled one after the other, the cheapest for what it holds
//! first.

use super::cost::Cost;
use super::problem::Steps;

/// A cut list in steps: for each bar its place in the stock and the sizes in it; the rest goes outside.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Draft {
    pub(super) bars: Vec<(usize, Vec<usize>)>,
    pub(super) cost: Cost,
}

impl Draft {
    pub(super) fn of(steps: &Steps, bars: Vec<(usize, Vec<usize>)>) -> Self {
        let held: i64 = bars.iter().flat_map(|(_, sizes)| sizes).map(|i| steps.sizes[*i]).sum();
        let outside = steps.outside.times(i128::from(steps.total() - held));
        let cost = bars.iter().fold(outside, |sum, (bar, _)| sum + steps.stock[*bar].cost);
        Self { bars, cost }
    }
}

/// The best of several quick ways.
pub(super) fn start(steps: &Steps) -> Draft {
    let all: Vec<usize> = (0..steps.stock.len()).collect();
    let alone = all.iter().map(|bar| greedy(steps, &[*bar]));
    let none = Draft::of(steps, Vec::new());
    let together = greedy(steps, &all);
    alone.chain([together]).fold(none, |best, one| if one.cost < best.cost { one } else { best })
}

/// Takes a bar after the other, of those whose filling costs least for its length, as long as that is
/// no dearer than outside.
fn greedy(steps: &Steps, allowed: &[usize]) -> Draft {
    let mut left = steps.demand();
    let mut there: Vec<usize> = steps.stock.iter().map(|bar| bar.count).collect();
    let mut bars = Vec::new();
    loop {
        let fillings = allowed.iter().filter(|bar| there[**bar] > 0).filter_map(|bar| {
            let filling = longest_first(steps, &left, steps.stock[*bar].room);
            let held: i64 = filling.iter().map(|i| steps.sizes[*i]).sum();
            (held > 0).then_some((*bar, filling, held))
        });
        let best = fillings.min_by(|(a, _, held_a), (b, _, held_b)| {
            let [a, b] = [*a, *b].map(|bar| steps.stock[bar].cost);
            a.times(i128::from(*held_b)).cmp(&b.times(i128::from(*held_a)))
        });
        let Some((bar, filling, held)) = best else { break };
        if steps.stock[bar].cost > steps.outside.times(i128::from(held)) {
            break;
        }
        for i in &filling {
            left[*i] -= 1;
        }
        there[bar] -= 1;
        bars.push((bar, filling));
    }
    Draft::of(steps, bars)
}

fn longest_first(steps: &Steps, left: &[usize], mut room: i64) -> Vec<usize> {
    let mut filling = Vec::new();
    for (i, size) in steps.sizes.iter().enumerate() {
        let n = left[i].min((room / size) as usize);
        room -= size * n as i64;
        filling.extend(std::iter::repeat_n(i, n));
    }
    filling
}
