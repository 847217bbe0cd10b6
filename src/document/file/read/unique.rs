//! What may stand only once in its list.

use std::cell::RefCell;
use std::collections::BTreeMap;

use super::context::{Context, Family};
use super::cursor::{At, Fields};

/// What stood in a list so far, with the place of the first of each.
pub(crate) struct Unique {
    family: Option<Family>,
    first: RefCell<BTreeMap<String, String>>,
}

impl Unique {
    pub(crate) fn new(family: Option<Family>) -> Self {
        Self { family, first: RefCell::default() }
    }

    /// Notes what stands here under a key, and finds fault where it stood before. Whether it is
    /// the first.
    pub(crate) fn note(&self, at: &At<'_>, key: &str, found: &str, expected: &str) -> bool {
        let mut first = self.first.borrow_mut();
        if let Some(before) = first.get(key) {
            at.fault(format!("{found} again, as at {before}"), expected, None);
            return false;
        }
        first.insert(key.to_owned(), at.pointer());
        true
    }

    /// An id of the list could not be read.
    pub(crate) fn doubt_ids(&self, cx: &Context<'_>) {
        if let Some(family) = self.family {
            cx.doubt_ids(family);
        }
    }

    /// A size of this item could not be read, or not whole.
    pub(crate) fn doubt_sizes(&self, cx: &Context<'_>, id: &str) {
        if let Some(family) = self.family {
            cx.doubt_sizes(family, id);
        }
    }
}

impl Fields<'_> {
    /// Finds fault with a member where an item before had the same under this key.
    pub(crate) fn once(&self, member: &'static str, key: &str, found: &str, expected: &str) {
        if let Some(seen) = self.seen {
            self.get(member, |at| seen.note(at, key, found, expected));
        }
    }
}
