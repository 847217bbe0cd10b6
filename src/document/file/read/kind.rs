//! The kinds of values that a key may hold, each with the words that tell it.

use glam::{DVec2, DVec3};

use super::super::json::Json;
use super::cursor::At;
use super::quantity::{MAX_SIZE, Quantity};
use crate::units::{is_plain, is_plain_in_lines, named};

/// A kind of value.
pub(super) trait Kind {
    /// What it becomes.
    type Out;

    /// What it is, for "expected …".
    fn expected(&self) -> String;

    /// The value here, where it is of this kind; a fault and nothing where it is not.
    fn accept(&self, at: &At<'_>) -> Option<Self::Out>;
}

/// One line of text, which may be empty.
pub(super) struct Text;

impl Kind for Text {
    type Out = String;

    fn expected(&self) -> String {
        "text".to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<String> {
        let Json::Text(text) = &at.node.json else {
            at.wrong(&self.expected());
            return None;
        };
        only(at, text, is_plain, "one line of text")
    }
}

/// Text of any number of lines.
pub(super) struct Lines;

impl Kind for Lines {
    type Out = String;

    fn expected(&self) -> String {
        "text".to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<String> {
        let Json::Text(text) = &at.node.json else {
            at.wrong(&self.expected());
            return None;
        };
        only(at, text, is_plain_in_lines, "text")
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
}

/// One of a few words, each with what it stands for.
pub(super) struct Words<T: 'static>(pub(super) &'static [(T, &'static str)]);

impl<T: Copy> Kind for Words<T> {
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
}

/// Numbers in a list of a fixed length.
struct Row<const N: usize>(Quantity, &'static str);

impl<const N: usize> Row<N> {
    fn accept(&self, at: &At<'_>) -> Option<[f64; N]> {
        let Some(items) = at.list().filter(|items| items.len() == N) else {
            at.wrong(self.1);
            return None;
        };
        let mut row = [0.0; N];
        let mut whole = true;
        for (place, item) in row.iter_mut().zip(&items) {
            match self.0.accept(item) {
                Some(value) => *place = value,
                None => whole = false,
            }
        }
        whole.then_some(row)
    }
}

/// A place in the bay.
pub(super) struct Point;

const POINT: &str = "a place: three numbers [x, y, z] (millimetres)";

impl Kind for Point {
    type Out = DVec3;

    fn expected(&self) -> String {
        POINT.to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<DVec3> {
        Row::<3>(Quantity::MM, POINT).accept(at).map(DVec3::from)
    }
}

/// A direction of any length but zero.
pub(super) struct Direction;

const DIRECTION: &str = "a direction: three numbers [x, y, z], not all 0";

impl Kind for Direction {
    type Out = DVec3;

    fn expected(&self) -> String {
        DIRECTION.to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<DVec3> {
        let direction = Row::<3>(Quantity::DIRECTION, DIRECTION).accept(at).map(DVec3::from)?;
        if direction == DVec3::ZERO {
            at.wrong(DIRECTION);
            return None;
        }
        Some(direction)
    }
}

/// Least and greatest.
pub(super) struct Span(pub(super) Quantity);

const SPAN: &str = "two numbers [least, greatest]";

impl Kind for Span {
    type Out = [f64; 2];

    fn expected(&self) -> String {
        SPAN.to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<[f64; 2]> {
        Row::<2>(self.0, SPAN).accept(at)
    }
}

/// Two numbers of one kind; what they are goes with them.
pub(super) struct Pair(pub(super) Quantity, pub(super) &'static str);

impl Kind for Pair {
    type Out = DVec2;

    fn expected(&self) -> String {
        self.1.to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<DVec2> {
        Row::<2>(self.0, self.1).accept(at).map(DVec2::from)
    }
}
