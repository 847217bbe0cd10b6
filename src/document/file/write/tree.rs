//! What is to be written: a tree that borrows from the bay and may still hold numbers that no file
//! can.

use glam::{DVec2, DVec3};
use serde_json::{Number, Value};

use crate::model::Extra;

/// A value to be written.
pub(super) enum Tree<'a> {
    Null,
    Bool(bool),
    /// A number of the bay.
    Figure(f64),
    /// A number of an unknown key, as it was read.
    Unknown(&'a Number),
    Text(&'a str),
    List(Vec<Tree<'a>>),
    Object(Vec<(&'a str, Tree<'a>)>),
}

impl From<bool> for Tree<'_> {
    fn from(value: bool) -> Self {
        Self::Bool(value)
    }
}

impl From<f64> for Tree<'_> {
    fn from(value: f64) -> Self {
        Self::Figure(value)
    }
}

impl From<u32> for Tree<'_> {
    fn from(value: u32) -> Self {
        Self::Figure(value.into())
    }
}

impl<'a> From<&'a str> for Tree<'a> {
    fn from(value: &'a str) -> Self {
        Self::Text(value)
    }
}

impl From<DVec3> for Tree<'_> {
    fn from(value: DVec3) -> Self {
        Self::List(value.to_array().map(Self::Figure).into())
    }
}

impl From<DVec2> for Tree<'_> {
    fn from(value: DVec2) -> Self {
        value.to_array().into()
    }
}

impl From<&[f64]> for Tree<'_> {
    fn from(values: &[f64]) -> Self {
        Self::List(values.iter().copied().map(Self::Figure).collect())
    }
}

impl From<[f64; 2]> for Tree<'_> {
    fn from(value: [f64; 2]) -> Self {
        Self::List(value.map(Self::Figure).into())
    }
}

impl<'a> From<&'a Value> for Tree<'a> {
    fn from(value: &'a Value) -> Self {
        match value {
            Value::Null => Self::Null,
            Value::Bool(value) => Self::Bool(*value),
            Value::Number(number) => Self::Unknown(number),
            Value::String(text) => Self::Text(text),
            Value::Array(items) => Self::List(items.iter().map(Self::from).collect()),
            Value::Object(members) => Self::Object(
                members.iter().map(|(key, value)| (key.as_str(), Self::from(value))).collect(),
            ),
        }
    }
}

/// The members of an object, in the order in which they are put.
pub(super) struct Entries<'a>(Vec<(&'a str, Tree<'a>)>);

impl<'a> Entries<'a> {
    pub(super) fn new() -> Self {
        Self(Vec::new())
    }

    pub(super) fn put(mut self, key: &'a str, value: impl Into<Tree<'a>>) -> Self {
        self.0.push((key, value.into()));
        self
    }

    /// Left out where absent.
    pub(super) fn maybe(self, key: &'a str, value: Option<impl Into<Tree<'a>>>) -> Self {
        match value {
            Some(value) => self.put(key, value),
            None => self,
        }
    }

    /// Left out where empty.
    pub(super) fn text(self, key: &'a str, text: &'a str) -> Self {
        self.maybe(key, Some(text).filter(|text| !text.is_empty()))
    }

    /// Left out where empty.
    pub(super) fn list<T>(
        self,
        key: &'a str,
        items: &'a [T],
        one: impl Fn(&'a T) -> Tree<'a>,
    ) -> Self {
        if items.is_empty() {
            return self;
        }
        self.put(key, Tree::List(items.iter().map(one).collect()))
    }

    /// Left out where empty.
    pub(super) fn section(self, key: &'a str, section: Tree<'a>) -> Self {
        match section {
            Tree::Object(members) if members.is_empty() => self,
            section => self.put(key, section),
        }
    }

    /// The unknown keys, and the object with them. A key that is known by now (the kind of a thing
    /// was changed) is not written a second time.
    pub(super) fn extra(mut self, extra: &'a Extra) -> Tree<'a> {
        for (key, value) in extra {
            if self.0.iter().all(|(known, _)| known != key) {
                self.0.push((key, value.into()));
            }
        }
        Tree::Object(self.0)
    }
}
