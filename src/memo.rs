//! Memoization, in one way for all that is asked again and again: an answer beside what it was made of, for a
//! drag changes one hose at a time. It changes no answer, only how soon that is there.

/// An answer beside what it was made of. A list of things has a list of these, one for each place.
#[derive(Debug, Clone)]
pub(crate) struct Memo<I, A>(Option<(I, A)>);

impl<I, A> Default for Memo<I, A> {
    fn default() -> Self {
        Self(None)
    }
}

impl<I, A> Memo<I, A> {
    /// The answer that is kept, where it `holds`; else what is made now, which is kept from then on.
    pub(crate) fn or_make(
        &mut self,
        holds: impl FnOnce(&I) -> bool,
        make: impl FnOnce() -> (I, A),
    ) -> &mut A {
        if !self.0.as_ref().is_some_and(|(of, _)| holds(of)) {
            self.0 = None;
        }
        &mut self.0.get_or_insert_with(make).1
    }

    /// [`Self::or_make`] for what is small enough to be compared and kept whole.
    pub(crate) fn of(&mut self, now: I, make: impl FnOnce(&I) -> A) -> &mut A
    where
        I: PartialEq,
    {
        let kept = match self.0.take() {
            Some(kept) if kept.0 == now => kept,
            _ => {
                let answer = make(&now);
                (now, answer)
            }
        };
        &mut self.0.insert(kept).1
    }

    /// What it was made of, and the answer.
    pub(crate) fn get(&self) -> Option<&(I, A)> {
        self.0.as_ref()
    }

    /// Keeps what was made with the help of what was kept before.
    pub(crate) fn put(&mut self, of: I, answer: A) -> &A {
        &self.0.insert((of, answer)).1
    }

    /// Nothing is known any more.
    pub(crate) fn forget(&mut self) {
        self.0 = None;
    }
}
