//! What is to be written: a tree that borrows from the bay and may still hold numbers that no file
//! can.

use serde_json::{Number, Value};

use crate::model::Extra;

/// A value to be written.
pub(crate) enum Tree<'a> {
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

impl<'a> From<&'a str> for Tree<'a> {
    fn from(value: &'a str) -> Self {
        Self::Text(value)
    }
}

impl From<&[f64]> for Tree<'_> {
    fn from(values: &[f64]) -> Self {
        Self::List(values.iter().copied().map(Self::Figure).collect())
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
#[derive(Default)]
pub(crate) struct Entries<'a>(Vec<(&'a str, Tree<'a>)>);

impl<'a> Entries<'a> {
    pub(crate) fn put(&mut self, key: &'a str, value: impl Into<Tree<'a>>) {
        self.0.push((key, value.into()));
    }

    /// Left out where absent.
    pub(crate) fn maybe(&mut self, key: &'a str, value: Option<impl Into<Tree<'a>>>) {
        if let Some(value) = value {
            self.put(key, value);
        }
    }

    /// Put further up, before this key.
    pub(crate) fn put_before(&mut self, later: &str, key: &'a str, value: impl Into<Tree<'a>>) {
        let place = self.0.iter().position(|(known, _)| *known == later);
        self.0.insert(place.unwrap_or(self.0.len()), (key, value.into()));
    }

    /// The unknown keys. One that is known by now (the kind of a thing was changed) is not written a
    /// second time.
    pub(crate) fn extra(&mut self, extra: &'a Extra) {
        for (key, value) in extra {
            if self.0.iter().all(|(known, _)| known != key) {
                self.put(key, value);
            }
        }
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl<'a> From<Entries<'a>> for Tree<'a> {
    fn from(entries: Entries<'a>) -> Self {
        Self::Object(entries.0)
    }
}
