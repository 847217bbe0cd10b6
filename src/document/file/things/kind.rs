//! The kinds of values that a key may hold, each with the words that tell it.

use std::marker::PhantomData;

use glam::DVec3;

use super::quantity::{MAX_SIZE, Quantity};
use super::{At, Kind, Tree};
use crate::document::file::json::Json;
use crate::units::{is_plain, is_plain_in_lines, named};

/// Text, which may be empty: one line, or any number.
pub(super) enum Text {
    Line,
    Lines,
}

impl Kind for Text {
    type Out = String;

    fn expected(&self) -> String {
        "text".to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<String> {
        let Json::Text(text) = &at.node.json else {
            at.wrong("text");
            return None;
        };
        match self {
            Self::Line => only(at, text, is_plain, "one line of text"),
            Self::Lines => only(at, text, is_plain_in_lines, "text"),
        }
    }

    fn tree<'a>(&self, value: &'a String) -> Tree<'a> {
        Tree::Text(value)
    }
}

/// The text where every character of it is fine; the first that is not is a fault.
fn only(at: &At<'_>, text: &str, is_fine: fn(char) -> bool, what: &str) -> Option<String> {
    let Some(found) = text.chars().find(|c| !is_fine(*c)) else { return Some(text.to_owned()) };
    let expected = format!("{what} without control characters and text-direction marks");
    let hint = format!("it holds {}: take it out", named(found));
    at.wrong_hint(&expected, hint);
    None
}

/// Text that is not empty; what it is goes before it.
pub(super) struct Name(pub(super) &'static str);

impl Kind for Name {
    type Out = String;

    fn expected(&self) -> String {
        format!("{} (text, not empty)", self.0)
    }

    fn accept(&self, at: &At<'_>) -> Option<String> {
        match &at.node.json {
            Json::Text(text) if !text.is_empty() => return only(at, text, is_plain, self.0),
            _ => at.wrong(&self.expected()),
        }
        None
    }

    fn tree<'a>(&self, value: &'a String) -> Tree<'a> {
        Tree::Text(value)
    }
}

/// Yes or no.
pub(super) struct Flag;

impl Kind for Flag {
    type Out = bool;

    fn expected(&self) -> String {
        "true or false".to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<bool> {
        if let Json::Bool(value) = at.node.json {
            return Some(value);
        }
        at.wrong(&self.expected());
        None
    }

    fn tree<'a>(&self, value: &'a bool) -> Tree<'a> {
        Tree::Bool(*value)
    }
}

/// One of a few words, each with what it stands for.
pub(super) struct Words<T: 'static>(pub(super) &'static [(T, &'static str)]);

impl<T: Copy + PartialEq> Kind for Words<T> {
    type Out = T;

    fn expected(&self) -> String {
        let words: Vec<String> = self.0.iter().map(|(_, word)| format!("\"{word}\"")).collect();
        match words.split_last() {
            Some((last, [])) => last.clone(),
            Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
            None => String::new(),
        }
    }

    fn accept(&self, at: &At<'_>) -> Option<T> {
        if let Json::Text(text) = &at.node.json
            && let Some((value, _)) = self.0.iter().find(|(_, word)| word == text)
        {
            return Some(*value);
        }
        at.wrong(&self.expected());
        None
    }

    fn tree<'a>(&self, value: &'a T) -> Tree<'a> {
        // What has no word here is not read again.
        self.0
            .iter()
            .find(|(known, _)| known == value)
            .map_or(Tree::Null, |(_, word)| Tree::Text(word))
    }
}

/// A whole number from a least one up; what it is goes before it.
pub(super) struct Whole {
    what: &'static str,
    least: u32,
}

impl Whole {
    /// The name of a size.
    pub(super) const DASH: Self = Self { what: "a dash number", least: 1 };
    /// How many are left.
    pub(super) const COUNT: Self = Self { what: "a count", least: 0 };
}

impl Kind for Whole {
    type Out = u32;

    fn expected(&self) -> String {
        format!("{}: a whole number from {} up", self.what, self.least)
    }

    fn accept(&self, at: &At<'_>) -> Option<u32> {
        let value = at.node.as_f64();
        if let Some(value) = value
            && value.fract() == 0.0
            && (f64::from(self.least)..=MAX_SIZE).contains(&value)
        {
            return Some(value as u32);
        }
        match &at.node.json {
            Json::Number(_) if value.is_some_and(|value| value < 0.0 && value.fract() == 0.0) => {
                at.wrong_hint(&self.expected(), "write it without the minus".to_owned());
            }
            Json::Text(text) if text.trim().parse::<i32>().is_ok() => {
                let hint = "write it without the quotes, and without a minus";
                at.wrong_hint(&self.expected(), hint.to_owned());
            }
            _ => at.wrong(&self.expected()),
        }
        None
    }

    fn tree<'a>(&self, value: &'a u32) -> Tree<'a> {
        Tree::Figure((*value).into())
    }
}

/// As many numbers of one kind as a `T` is made of; what they are goes with them.
pub(super) struct Row<T, const N: usize> {
    of: Quantity,
    what: &'static str,
    may_be_zero: bool,
    made: PhantomData<T>,
}

/// A place in the bay.
pub(super) const POINT: Row<DVec3, 3> =
    Row::of(Quantity::MM, "a place: three numbers [x, y, z] (millimetres)");

/// A direction of any length but zero.
pub(super) const DIRECTION: Row<DVec3, 3> = Row {
    may_be_zero: false,
    ..Row::of(Quantity::DIRECTION, "a direction: three numbers [x, y, z], not all 0")
};

/// Least and greatest.
pub(super) const fn span(of: Quantity) -> Row<[f64; 2], 2> {
    Row::of(of, "two numbers [least, greatest]")
}

impl<T, const N: usize> Row<T, N> {
    pub(super) const fn of(of: Quantity, what: &'static str) -> Self {
        Self { of, what, may_be_zero: true, made: PhantomData }
    }
}

impl<T: From<[f64; N]> + Into<[f64; N]> + Copy, const N: usize> Kind for Row<T, N> {
    type Out = T;

    fn expected(&self) -> String {
        self.what.to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<T> {
        let Some(items) = at.list().filter(|items| items.len() == N) else {
            at.wrong(self.what);
            return None;
        };
        let mut row = [0.0; N];
        let mut whole = true;
        for (place, item) in row.iter_mut().zip(&items) {
            match self.of.accept(item) {
                Some(value) => *place = value,
                None => whole = false,
            }
        }
        if whole && row == [0.0; N] && !self.may_be_zero {
            at.wrong(self.what);
            return None;
        }
        whole.then_some(row.into())
    }

    fn tree<'a>(&self, value: &'a T) -> Tree<'a> {
        let row: [f64; N] = (*value).into();
        row.as_slice().into()
    }
}

/// A list of one kind.
pub(super) struct Each<K>(pub(super) K);

impl<K: Kind> Kind for Each<K> {
    type Out = Vec<K::Out>;

    fn expected(&self) -> String {
        format!("a list of {}", self.0.expected())
    }

    fn accept(&self, at: &At<'_>) -> Option<Vec<K::Out>> {
        let items = at.items(&self.expected())?;
        Some(items.iter().filter_map(|item| self.0.accept(item)).collect())
    }

    fn tree<'a>(&self, value: &'a Vec<K::Out>) -> Tree<'a> {
        Tree::List(value.iter().map(|item| self.0.tree(item)).collect())
    }
}

/// Text that stands for something, with the ways there and back.
pub(super) struct As<K, T>(pub(super) K, pub(super) fn(&str) -> T, pub(super) fn(&T) -> &str);

impl<K: Kind<Out = String>, T> Kind for As<K, T> {
    type Out = T;

    fn expected(&self) -> String {
        self.0.expected()
    }

    fn accept(&self, at: &At<'_>) -> Option<T> {
        self.0.accept(at).map(|word| self.1(&word))
    }

    fn tree<'a>(&self, value: &'a T) -> Tree<'a> {
        self.2(value).into()
    }
}
