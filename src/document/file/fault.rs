//! What is wrong with a file: where, what was found, what was expected.

use std::fmt;

use crate::units::{escaped, quotable_within};

/// One fault in a bay file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The place, as a JSON Pointer (RFC 6901); empty for the file as a whole.
    pub pointer: String,
    /// What stands there, shortened where it is long.
    pub found: String,
    /// What should stand there.
    pub expected: String,
    /// What to do about it, where that is not plain.
    pub hint: Option<String>,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let place =
            if self.pointer.is_empty() { "the whole file".into() } else { place(&self.pointer) };
        let mut line = format!("{place}: found {}, expected {}", self.found, self.expected);
        if let Some(hint) = &self.hint {
            line.push_str("; ");
            line.push_str(hint);
        }
        f.write_str(&escaped(&line))
    }
}

/// All faults of a file that could be told at once, in the order of the file. Never empty.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Faults(pub Vec<Fault>);

/// A message of more lines than this helps nobody.
const MAX_LINES: usize = 200;

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, fault) in self.0.iter().take(MAX_LINES).enumerate() {
            let line_end = if i == 0 { "" } else { "\n" };
            write!(f, "{line_end}{fault}")?;
        }
        match self.0.len().saturating_sub(MAX_LINES) {
            0 => Ok(()),
            more => write!(f, "\nand {more} more"),
        }
    }
}

/// Why a bay file was refused. The message of [`ReadError::Faults`] has one line for each fault.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// Bytes that are no text.
    #[error("line {line}: not UTF-8 text; save the file as UTF-8 (without compression)")]
    NotText {
        /// Line, from 1.
        line: usize,
    },
    /// More bytes or values than any bay has.
    #[error("the file is too large for a bay: at most {limit} are read")]
    TooLarge {
        /// What is allowed, with its unit.
        limit: String,
    },
    /// Not JSON (RFC 8259).
    #[error("line {line}, column {column}{}: not JSON: {message}", in_place(.pointer))]
    Syntax {
        /// Line, from 1.
        line: usize,
        /// Column in bytes, from 1.
        column: usize,
        /// The innermost value that the reader was in, as a JSON Pointer.
        pointer: String,
        /// What is wrong there.
        message: String,
    },
    /// JSON, but not a bay.
    #[error("{0}")]
    Faults(Faults),
}

/// A place as a message names it: keys are the file's own, and as long as it likes.
fn place(pointer: &str) -> String {
    /// Longer than the way to any value of a bay.
    const LONG: usize = 160;
    quotable_within(pointer, LONG)
}

fn in_place(pointer: &str) -> String {
    if pointer.is_empty() { String::new() } else { format!(", in {}", place(pointer)) }
}

impl ReadError {
    /// The faults, where the file could be read far enough to tell them.
    pub fn faults(&self) -> &[Fault] {
        match self {
            Self::Faults(faults) => &faults.0,
            _ => &[],
        }
    }
}

/// A key as a JSON Pointer token (RFC 6901 §3: `~` is written `~0`, `/` is written `~1`).
pub(super) fn escape(key: &str) -> String {
    key.replace('~', "~0").replace('/', "~1")
}
