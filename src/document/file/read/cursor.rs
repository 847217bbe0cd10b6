//! Going through the tree with one's place at hand, so that every fault can say where.

use std::cell::RefCell;

use crate::model::Extra;

use super::super::fault::{Fault, escape};
use super::super::json::{Json, Node};
use super::super::write::tree::Tree;
use super::context::Context;
use super::reference::{Want, Wanted};
use super::unique::Unique;

/// The way from the top of the file to a value.
#[derive(Clone, Copy)]
struct Place<'a> {
    parent: Option<&'a Place<'a>>,
    step: Step<'a>,
}

#[derive(Clone, Copy)]
enum Step<'a> {
    Top,
    Key(&'a str),
    Index(usize),
}

impl Place<'_> {
    fn pointer(&self) -> String {
        let mut pointer = self.parent.map_or_else(String::new, Self::pointer);
        match self.step {
            Step::Top => {}
            Step::Key(key) => {
                pointer.push('/');
                pointer.push_str(&escape(key));
            }
            Step::Index(index) => {
                pointer.push('/');
                pointer.push_str(&index.to_string());
            }
        }
        pointer
    }
}

/// A value at its place.
pub(crate) struct At<'a> {
    pub(crate) node: &'a Node,
    pub(crate) cx: &'a Context<'a>,
    place: Place<'a>,
}

impl<'a> At<'a> {
    pub(crate) fn root(node: &'a Node, cx: &'a Context<'a>) -> Self {
        Self { node, cx, place: Place { parent: None, step: Step::Top } }
    }

    /// An item of this list.
    pub(crate) fn item<'s>(&'s self, index: usize, node: &'s Node) -> At<'s> {
        At {
            node,
            cx: self.cx,
            place: Place { parent: Some(&self.place), step: Step::Index(index) },
        }
    }

    /// A member of this object.
    pub(crate) fn member<'s>(&'s self, key: &'s str, node: &'s Node) -> At<'s> {
        At { node, cx: self.cx, place: Place { parent: Some(&self.place), step: Step::Key(key) } }
    }

    pub(crate) fn pointer(&self) -> String {
        self.place.pointer()
    }

    pub(crate) fn fault(&self, found: String, expected: &str, hint: Option<String>) {
        let expected = expected.to_owned();
        self.cx.fault(self.node.order, Fault { pointer: self.pointer(), found, expected, hint });
    }

    /// What stands here is not what should.
    pub(crate) fn wrong(&self, expected: &str) {
        self.fault(self.node.in_words(), expected, None);
    }

    /// The same where nothing need stand here.
    fn wrong_or_absent(&self, expected: &str) {
        let hint = "leave the key out where there is nothing to say";
        let is_null = matches!(self.node.json, Json::Null);
        self.fault(self.node.in_words(), expected, is_null.then(|| hint.to_owned()));
    }

    /// The same with what to do about it.
    pub(crate) fn wrong_hint(&self, expected: &str, hint: String) {
        self.fault(self.node.in_words(), expected, Some(hint));
    }

    /// What stands here must exist elsewhere; looked up when all is read.
    pub(crate) fn want(&self, what: Wanted) {
        self.cx.want(Want {
            order: self.node.order,
            pointer: self.pointer(),
            found: self.node.in_words(),
            what,
        });
    }

    /// The items of a list, each at its place; none where it is not a list.
    pub(crate) fn list(&self) -> Option<Vec<At<'_>>> {
        let Json::List(items) = &self.node.json else { return None };
        Some(items.iter().enumerate().map(|(index, node)| self.item(index, node)).collect())
    }

    /// The items of a list that may be absent; that it is no list is a fault.
    pub(crate) fn items(&self, expected: &str) -> Option<Vec<At<'_>>> {
        let list = self.list();
        if list.is_none() {
            self.wrong_or_absent(expected);
        }
        list
    }

    /// Members of which none is there and none is missed.
    pub(crate) fn mute(&self) -> Fields<'_> {
        let (known, faulty) = (RefCell::default(), RefCell::default());
        Fields { at: self, entries: None, seen: None, known, faulty }
    }

    /// The members of an object. Where it is not one, that is a fault and the members are mute:
    /// none is there and none is missed.
    pub(crate) fn fields(&self, expected: &str) -> Fields<'_> {
        let entries = if let Json::Object(entries) = &self.node.json {
            Some(entries.as_slice())
        } else {
            self.wrong(expected);
            None
        };
        Fields { entries, ..self.mute() }
    }
}

/// A kind of value that a member may hold.
pub(crate) trait Kind {
    /// What it becomes.
    type Out;

    /// What it is, for "expected …".
    fn expected(&self) -> String;

    /// The value here, where it is of this kind; a fault and nothing where it is not.
    fn accept(&self, at: &At<'_>) -> Option<Self::Out>;

    /// What takes the place of a faulty value, so that nothing is found fault with for its sake.
    fn stand_in(&self) -> Self::Out
    where
        Self::Out: Default,
    {
        Self::Out::default()
    }

    /// The value as it is written.
    fn tree<'a>(&self, value: &'a Self::Out) -> Tree<'a>;
}

/// The members of an object.
pub(crate) struct Fields<'a> {
    pub(crate) at: &'a At<'a>,
    entries: Option<&'a [(String, Node)]>,
    /// The items of its list so far, where it is the item of one.
    pub(crate) seen: Option<&'a Unique>,
    known: RefCell<Vec<&'static str>>,
    faulty: RefCell<Vec<&'static str>>,
}

impl<'a> Fields<'a> {
    /// The same as an item of a list.
    pub(crate) fn among(self, seen: &'a Unique) -> Self {
        Self { seen: Some(seen), ..self }
    }
}

impl Fields<'_> {
    /// Whether this is an object at all.
    pub(crate) fn is_object(&self) -> bool {
        self.entries.is_some()
    }

    /// Whether a member of this key is there, whatever it holds.
    pub(crate) fn has(&self, key: &str) -> bool {
        self.entries.is_some_and(|entries| entries.iter().any(|(name, _)| name == key))
    }

    /// Reads the member of this key, where it is there.
    pub(crate) fn get<T>(&self, key: &'static str, read: impl FnOnce(&At<'_>) -> T) -> Option<T> {
        self.known.borrow_mut().push(key);
        let (name, node) = self.entries?.iter().find(|(name, _)| name == key)?;
        let faults_before = self.at.cx.fault_count();
        let found = read(&self.at.member(name, node));
        if self.at.cx.fault_count() > faults_before {
            self.faulty.borrow_mut().push(key);
        }
        Some(found)
    }

    /// Whether no fault was found with these members, be it their absence.
    pub(crate) fn are_sound<const N: usize>(&self, keys: [&str; N]) -> bool {
        let faulty = self.faulty.borrow();
        !keys.iter().any(|key| faulty.contains(key))
    }

    /// An optional member; none where it is absent or faulty.
    pub(crate) fn maybe<K: Kind>(&self, key: &'static str, kind: &K) -> Option<K::Out> {
        let read = |at: &At<'_>| {
            if matches!(at.node.json, Json::Null) {
                at.wrong_or_absent(&kind.expected());
                return None;
            }
            kind.accept(at)
        };
        self.get(key, read).flatten()
    }

    /// A member that must be there; none where it is absent or faulty.
    pub(crate) fn must<K: Kind>(&self, key: &'static str, kind: &K) -> Option<K::Out> {
        let read = self.get(key, |at| kind.accept(at));
        if read.is_none() {
            self.missing(key, &kind.expected());
        }
        read.flatten()
    }

    /// Finds fault with a member where an item before had the same under this key.
    pub(crate) fn once(&self, member: &'static str, key: &str, found: &str, expected: &str) {
        if let Some(seen) = self.seen {
            self.get(member, |at| {
                if let Some(before) = seen.note(key, || at.pointer()) {
                    at.fault(format!("{found} again, as at {before}"), expected, None);
                }
            });
        }
    }

    /// Finds fault with the absence of a member.
    pub(crate) fn missing(&self, key: &'static str, expected: &str) {
        if self.is_object() {
            self.faulty.borrow_mut().push(key);
            self.at.member(key, self.at.node).fault("nothing".to_owned(), expected, None);
        }
    }

    /// The members of no key that was asked for, in the order of the file. To be called last.
    pub(crate) fn extra(&self) -> Extra {
        let known = self.known.borrow();
        let entries = self.entries.unwrap_or_default().iter();
        let unknown = entries.filter(|(key, _)| !known.contains(&key.as_str()));
        unknown.map(|(key, node)| (key.clone(), node.to_value())).collect()
    }
}
