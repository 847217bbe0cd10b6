//! What could not be read whole, so that ids may seem to be missing.

use std::collections::BTreeSet;

/// The lists that other parts of the file refer to by id.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Family {
    MovingGroup,
    Port,
    Obstacle,
    Hose,
    End,
}

/// What could not be read whole: a reference into it is not checked against the one who refers.
#[derive(Default)]
pub(crate) struct Doubts {
    families: BTreeSet<Family>,
    sizes: BTreeSet<(Family, String)>,
}

impl Doubts {
    pub(crate) fn doubt_ids(&mut self, family: Family) {
        self.families.insert(family);
    }

    pub(crate) fn doubt_sizes(&mut self, family: Family, id: &str) {
        self.sizes.insert((family, id.to_owned()));
    }

    /// Whether ids of this list may be missing only because they could not be read.
    pub(crate) fn ids(&self, family: Family) -> bool {
        self.families.contains(&family)
    }

    /// The same of the sizes of one hose or end.
    pub(crate) fn sizes(&self, family: Family, id: &str) -> bool {
        self.sizes.contains(&(family, id.to_owned()))
    }
}
