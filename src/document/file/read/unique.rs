//! What may stand only once in its list.

use std::cell::RefCell;
use std::collections::BTreeMap;

use super::context::Context;
use super::doubts::Family;

/// What stood in a list so far, with the place of the first of each.
pub(crate) struct Unique {
    family: Option<Family>,
    first: RefCell<BTreeMap<String, String>>,
}

impl Unique {
    pub(crate) fn new(family: Option<Family>) -> Self {
        Self { family, first: RefCell::default() }
    }

    /// Notes that a key stands at a place; where it stood before, that place.
    pub(crate) fn note(&self, key: &str, pointer: impl FnOnce() -> String) -> Option<String> {
        let mut first = self.first.borrow_mut();
        let before = first.get(key).cloned();
        if before.is_none() {
            first.insert(key.to_owned(), pointer());
        }
        before
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
