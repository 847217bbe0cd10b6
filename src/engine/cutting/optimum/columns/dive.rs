//! Plans at a guess: bar after bar the filling that the duals hold to be worth most, with the worths
//! moved a little from try to try, the same way every time.

use super::super::problem::Steps;
use super::super::start::Draft;
use super::Worth;
use super::filling::Bar;

/// Steps for one filling.
const STEPS_OF_FILLING: u64 = 4_000;

/// What the pieces are worth and what bars cost, by the duals.
pub(super) struct Dive<'a> {
    pub(super) steps: &'a Steps,
    pub(super) demand: &'a [usize],
    pub(super) worth: &'a [Worth],
    pub(super) price: &'a [Worth],
    pub(super) taken: u64,
}

impl Dive<'_> {
    /// The cut list of one try.
    pub(super) fn cut_list(&mut self, attempt: u64) -> Draft {
        let worth = self.moved(attempt);
        let mut left = self.demand.to_vec();
        let mut there: Vec<usize> = self.steps.stock.iter().map(|bar| bar.count).collect();
        let mut bars = Vec::new();
        loop {
            let mut best: Option<(Worth, usize, Vec<usize>)> = None;
            for kind in (0..there.len()).filter(|kind| there[*kind] > 0) {
                let room = self.steps.stock[kind].room;
                let bar = Bar { sizes: &self.steps.sizes, demand: &left, worth: &worth, room };
                let most = bar.most(STEPS_OF_FILLING);
                self.taken += most.steps;
                self.steps.work.take(most.work);
                let filling: Vec<usize> =
                    most.filling.iter().flat_map(|(i, n)| std::iter::repeat_n(*i, *n)).collect();
                let held: i64 = filling.iter().map(|i| self.steps.sizes[*i]).sum();
                let gain = most.worth - self.price[kind];
                let pays =
                    self.steps.stock[kind].cost <= self.steps.outside.times(i128::from(held));
                if pays && held > 0 && best.as_ref().is_none_or(|(known, ..)| gain > *known) {
                    best = Some((gain, kind, filling));
                }
            }
            let Some((_, kind, mut filling)) = best else { break };
            there[kind] -= 1;
            for i in &filling {
                left[*i] -= 1;
            }
            filling.sort_unstable();
            bars.push((kind, filling));
        }
        Draft::of(self.steps, bars)
    }

    /// Longer pieces a little dearer, so that short ones are left for the last bars; and each moved.
    fn moved(&self, attempt: u64) -> Vec<Worth> {
        let longest = self.steps.sizes.first().copied().unwrap_or(1);
        let mut state = attempt.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1;
        let moved = self.worth.iter().zip(&self.steps.sizes).map(|(worth, size)| {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            let by = if attempt == 0 {
                0
            } else {
                Worth::from(state % 1024) * Worth::from(1 + attempt % 8)
            };
            let longer = Worth::from(size * 1024 / longest) * Worth::from(attempt % 5) * 4;
            worth + (worth >> 20) * (by + longer)
        });
        moved.collect()
    }
}
