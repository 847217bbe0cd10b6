//! The file as a tree that keeps what `serde_json::Value` loses: a key that stands twice, and the
//! order in which everything stood.

use std::cell::Cell;
use std::fmt;

use serde::de::{DeserializeSeed, Deserializer, Error as _, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value};
use serde_path_to_error::{Path, Segment, Track};

use super::fault::{Fault, Faults, ReadError, escape};
use crate::units::{escaped, quotable};

/// A value and its place among all values of the file.
#[derive(Debug)]
pub(super) struct Node {
    /// Counts up from the start of the file.
    pub(super) order: u32,
    pub(super) json: Json,
}

/// A value of the file.
#[derive(Debug)]
pub(super) enum Json {
    Null,
    Bool(bool),
    Number(Number),
    Text(String),
    List(Vec<Node>),
    Object(Vec<(String, Node)>),
}

/// Values above this are refused: a bay of ten thousand hoses has half a million.
const MAX_VALUES: u32 = 4_000_000;

/// How deep `serde_json` goes before it gives up, so that no file can overflow the stack.
const MAX_DEPTH: u32 = 127;

/// Reads text to a tree. A byte order mark and any line ends are taken as they come.
pub(super) fn parse(bytes: &[u8]) -> Result<Node, ReadError> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let text = std::str::from_utf8(bytes).map_err(|e| ReadError::NotText {
        line: bytes[..e.valid_up_to()].split(|byte| *byte == b'\n').count(),
    })?;
    let count = Cell::new(0);
    let mut track = Track::new();
    let mut source = serde_json::Deserializer::from_str(text);
    let tracked = serde_path_to_error::Deserializer::new(&mut source, &mut track);
    let parsed = NodeSeed { count: &count }.deserialize(tracked);
    let parsed = parsed.and_then(|node| source.end().map(|()| node));
    parsed.map_err(|error| {
        if count.get() >= MAX_VALUES {
            return ReadError::TooLarge { limit: format!("{MAX_VALUES} values") };
        }
        refusal(text, &error, &track.path())
    })
}

/// What to say about text that is not JSON.
fn refusal(text: &str, error: &serde_json::Error, path: &Path) -> ReadError {
    let pointer = pointer(path);
    let (line, column) = (error.line(), error.column());
    let token = token_at(text, line, column);
    if token.parse::<f64>().is_ok_and(|number| !number.is_finite()) {
        return ReadError::Faults(Faults(vec![Fault {
            pointer,
            found: quotable(token),
            expected: "a number that is finite".to_owned(),
            hint: Some(format!("line {line}, column {column}")),
        }]));
    }
    let is_too_deep = error.to_string().starts_with("recursion limit exceeded");
    let told = error.to_string();
    let told = told.strip_suffix(&format!(" at line {line} column {column}")).unwrap_or(&told);
    let message = if text.trim_ascii().is_empty() {
        "the file is empty".to_owned()
    } else if is_too_deep {
        format!("more than {MAX_DEPTH} lists and objects inside each other")
    } else if token.is_empty() && byte_at(text, line, column) == Some(b'/') {
        format!("{told}; JSON has no comments")
    } else {
        told.to_owned()
    };
    // The way down to a value that is too deep would fill the screen.
    let pointer = if is_too_deep { String::new() } else { pointer };
    ReadError::Syntax { line, column: column.max(1), pointer, message }
}

fn pointer(path: &Path) -> String {
    let token = |segment: &Segment| match segment {
        Segment::Seq { index } => format!("/{index}"),
        Segment::Map { key } => format!("/{}", escape(key)),
        Segment::Enum { .. } | Segment::Unknown => String::new(),
    };
    path.iter().map(token).collect()
}

/// The word or number that covers a place, as `serde_json` counts it: line and byte column from 1.
fn token_at(text: &str, line: usize, column: usize) -> &str {
    let Some(line) = text.split('\n').nth(line.saturating_sub(1)) else { return "" };
    let is_part = |byte: u8| byte.is_ascii_alphanumeric() || b"+-.".contains(&byte);
    let bytes = line.as_bytes();
    let at = column.saturating_sub(1).min(bytes.len());
    let before = bytes[..at].iter().rev().take_while(|b| is_part(**b)).count();
    let after = bytes[at..].iter().take_while(|b| is_part(**b)).count();
    line.get(at - before..at + after).unwrap_or("")
}

fn byte_at(text: &str, line: usize, column: usize) -> Option<u8> {
    let line = text.split('\n').nth(line.checked_sub(1)?)?;
    line.as_bytes().get(column.checked_sub(1)?).copied()
}

/// Counts values as they come.
#[derive(Clone, Copy)]
struct NodeSeed<'c> {
    count: &'c Cell<u32>,
}

impl<'de> DeserializeSeed<'de> for NodeSeed<'_> {
    type Value = Node;

    fn deserialize<D: Deserializer<'de>>(self, source: D) -> Result<Node, D::Error> {
        let order = self.count.get();
        if order >= MAX_VALUES {
            return Err(D::Error::custom("too many values"));
        }
        self.count.set(order + 1);
        Ok(Node { order, json: source.deserialize_any(self)? })
    }
}

impl<'de> Visitor<'de> for NodeSeed<'_> {
    type Value = Json;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }

    fn visit_unit<E>(self) -> Result<Json, E> {
        Ok(Json::Null)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Json, E> {
        Ok(Json::Bool(value))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Json, E> {
        Ok(Json::Number(value.into()))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Json, E> {
        Ok(Json::Number(value.into()))
    }

    fn visit_f64<E: serde::de::Error>(self, value: f64) -> Result<Json, E> {
        Number::from_f64(value).map(Json::Number).ok_or_else(|| E::custom("number out of range"))
    }

    fn visit_str<E>(self, value: &str) -> Result<Json, E> {
        Ok(Json::Text(value.to_owned()))
    }

    fn visit_string<E>(self, value: String) -> Result<Json, E> {
        Ok(Json::Text(value))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Json, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = items.next_element_seed(self)? {
            list.push(item);
        }
        Ok(Json::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Json, A::Error> {
        let mut object = Vec::new();
        while let Some(key) = entries.next_key::<String>()? {
            object.push((key, entries.next_value_seed(self)?));
        }
        Ok(Json::Object(object))
    }
}

impl Node {
    /// The same as a plain value, key order kept; of keys that stand twice, the last.
    pub(super) fn to_value(&self) -> Value {
        match &self.json {
            Json::Null => Value::Null,
            Json::Bool(value) => Value::Bool(*value),
            Json::Number(number) => Value::Number(number.clone()),
            Json::Text(text) => Value::String(text.clone()),
            Json::List(items) => Value::Array(items.iter().map(Self::to_value).collect()),
            Json::Object(entries) => Value::Object(
                entries
                    .iter()
                    .map(|(key, node)| (key.clone(), node.to_value()))
                    .collect::<Map<_, _>>(),
            ),
        }
    }

    /// The member of this key, where this is an object that has one.
    pub(super) fn member(&self, key: &str) -> Option<&Self> {
        let Json::Object(entries) = &self.json else { return None };
        entries.iter().find(|(name, _)| name == key).map(|(_, node)| node)
    }

    /// What stands here, in few words.
    pub(super) fn in_words(&self) -> String {
        match &self.json {
            Json::List(items) if items.len() <= 4 && items.iter().all(Self::is_number) => {
                let numbers: Vec<String> = items.iter().map(Self::in_words).collect();
                format!("[{}]", numbers.join(", "))
            }
            Json::List(items) => format!("a list of {}", items.len()),
            Json::Object(_) => "an object".to_owned(),
            Json::Text(text) => quoted(text),
            Json::Null | Json::Bool(_) | Json::Number(_) => self.to_value().to_string(),
        }
    }

    /// The number that stands here.
    pub(super) fn as_f64(&self) -> Option<f64> {
        match &self.json {
            Json::Number(number) => number.as_f64(),
            _ => None,
        }
    }

    fn is_number(&self) -> bool {
        matches!(self.json, Json::Number(_))
    }
}

/// Text in quotes, escaped as in the file, shortened where it is long.
pub(super) fn quoted(text: &str) -> String {
    const LONG: usize = 40;
    let mut short: String = text.chars().take(LONG).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    escaped(&Value::String(short).to_string()).into_owned()
}
