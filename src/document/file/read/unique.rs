//! Ids that may stand only once in their list.

use std::cell::RefCell;
use std::collections::BTreeMap;

use super::context::Family;
use super::cursor::{At, Fields};
use super::kind::{Kind, Name};

/// What stood in a list so far, with the place of the first of each.
pub(super) struct Unique {
    family: Option<Family>,
    first: RefCell<BTreeMap<String, String>>,
}

impl Unique {
    pub(super) fn new(family: Option<Family>) -> Self {
        Self { family, first: RefCell::default() }
    }

    /// Notes what stands here under a key, and finds fault where it stood before. Whether it is
    /// the first.
    pub(super) fn note(&self, at: &At<'_>, key: &str, found: &str, expected: &str) -> bool {
        let mut first = self.first.borrow_mut();
        if let Some(before) = first.get(key) {
            at.fault(format!("{found} again, as at {before}"), expected, None);
            return false;
        }
        first.insert(key.to_owned(), at.pointer());
        true
    }
}

impl Fields<'_> {
    /// A list of objects that have ids, or are otherwise told apart; empty where it is absent.
    /// `one` and `many` are the words for its items.
    pub(super) fn listed<T>(
        &self,
        key: &'static str,
        (one, many): (&str, &str),
        family: Option<Family>,
        read: impl Fn(&Fields<'_>, &Unique) -> T,
    ) -> Vec<T> {
        let seen = Unique::new(family);
        let in_doubt = || family.inspect(|family| self.at.cx.doubt_ids(*family));
        let read_all = |at: &At<'_>| {
            let Some(items) = at.items(&format!("a list of {many}")) else {
                in_doubt();
                return Vec::new();
            };
            let read_one = |at: &At<'_>| {
                let fields = at.fields(&format!("{one}: an object"));
                if !fields.is_object() {
                    in_doubt();
                }
                read(&fields, &seen)
            };
            items.iter().map(read_one).collect()
        };
        self.get(key, read_all).unwrap_or_default()
    }

    /// The id of an item of a list; empty where it is faulty.
    pub(super) fn id(&self, seen: &Unique) -> String {
        let name = Name("an id");
        let read = |at: &At<'_>| {
            let id = name.accept(at)?;
            let found = super::quoted(&id);
            let is_new = seen.note(at, &id, &found, "an id that no other in this list has");
            if let (false, Some(family)) = (is_new, seen.family) {
                at.cx.doubt_sizes(family, &id);
            }
            Some(id)
        };
        let found = self.get("id", read);
        if found.is_none() {
            self.missing("id", &name.expected());
        }
        let id = found.flatten().unwrap_or_default();
        if let (true, Some(family)) = (id.is_empty(), seen.family) {
            self.at.cx.doubt_ids(family);
        }
        id
    }
}
