//! How much work a search may take: counted in steps, so that the same question has the same answer
//! everywhere, and told to whoever waits.

use std::cell::Cell;
use std::fmt;
use std::rc::Rc;

/// Told the share of the work done, 0 to 1, now and then; says whether to go on.
pub type Watch = Rc<dyn Fn(f32) -> bool>;

/// Steps for everything that is asked at once. A step is a few machine instructions: on a computer of
/// 2020 all of them take about two seconds, a third of them for remakes one more.
const ALL: u64 = 1_500_000_000;

/// So many steps between two looks at the watch: some milliseconds.
const BETWEEN_LOOKS: u64 = 10_000_000;

/// What is left of the work allowed.
#[derive(Clone)]
pub struct Work {
    shared: Rc<Shared>,
    /// What the question at hand has to leave for others.
    reserve: u64,
}

struct Shared {
    all: u64,
    left: Cell<u64>,
    next_look: Cell<u64>,
    watch: Option<Watch>,
}

impl fmt::Debug for Work {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Work").field("left", &self.left()).finish_non_exhaustive()
    }
}

impl Default for Work {
    fn default() -> Self {
        Self::watched(None)
    }
}

impl Work {
    /// All of it, with somebody told how it goes.
    pub fn watched(watch: Option<Watch>) -> Self {
        Self::of(ALL, watch)
    }

    /// The third of it that remakes may take, after the cut list itself.
    pub fn for_remakes(watch: Option<Watch>) -> Self {
        Self::of(ALL / 3, watch)
    }

    fn of(all: u64, watch: Option<Watch>) -> Self {
        let (left, next_look) = (Cell::new(all), Cell::new(all.saturating_sub(BETWEEN_LOOKS)));
        Self { shared: Rc::new(Shared { all, left, next_look, watch }), reserve: 0 }
    }

    /// A fair share for the first of so many questions that are still to be asked.
    #[must_use]
    pub fn share_of(&self, questions: usize) -> Self {
        let left = self.left();
        let own = left / questions.max(1) as u64;
        Self { shared: Rc::clone(&self.shared), reserve: self.reserve + left - own }
    }

    /// What the question at hand may still take.
    pub(super) fn left(&self) -> u64 {
        self.shared.left.get().saturating_sub(self.reserve)
    }

    pub(super) fn is_spent(&self) -> bool {
        self.left() == 0
    }

    /// Takes so many steps; whether there are any left.
    pub(super) fn take(&self, steps: u64) -> bool {
        let before = self.shared.left.get();
        if before == 0 {
            return false;
        }
        let left = before.saturating_sub(steps);
        self.shared.left.set(left);
        if left <= self.shared.next_look.get() {
            self.shared.next_look.set(left.saturating_sub(BETWEEN_LOOKS));
            let done = 1.0 - left as f64 / self.shared.all.max(1) as f64;
            if self.shared.watch.as_ref().is_some_and(|watch| !watch(done as f32)) {
                self.shared.left.set(0);
            }
        }
        !self.is_spent()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_are_fair_and_what_is_saved_is_handed_on() {
        let work = Work::of(900, None);
        let first = work.share_of(3);
        assert_eq!(first.left(), 300);
        assert!(first.take(100));
        let second = work.share_of(2);
        assert_eq!(second.left(), 400);
        assert!(!second.take(500));
        assert_eq!(work.share_of(1).left(), 300);
    }

    #[test]
    fn who_watches_can_stop_it() {
        let told = Rc::new(Cell::new(0.0));
        let tell = Rc::clone(&told);
        let stop = move |done: f32| {
            tell.set(done);
            done < 0.5
        };
        let work = Work::of(100 * BETWEEN_LOOKS, Some(Rc::new(stop)));
        let mut taken = 0;
        while work.take(BETWEEN_LOOKS / 2) {
            taken += 1;
        }
        assert!((95..=105).contains(&taken), "{taken}");
        assert!((told.get() - 0.5).abs() < 0.02, "{}", told.get());
    }
}
