//! The recovery copy: the unsaved state of a bay, kept beside its file without touching it, so that
//! a crash costs seconds of work at most.
//!
//! A copy is one line of JSON, the [`Note`], and then the bay exactly as saving would have written
//! it: without its first line it is a bay file. It is called `.NAME.PROCESS.recover` and stays
//! locked for as long as the window that wrote it lives; a copy that is not locked is a
//! [`Leftover`]. So two windows on one file neither offer nor destroy each other's copy.

mod keeper;
mod leftover;

pub use keeper::Keeper;
pub use leftover::{Leftover, leftovers_of, leftovers_without_file};

use std::path::PathBuf;

use serde::{Deserialize, Serialize};

use super::write::{NotFinite, write};
use crate::model::Bay;

/// The ending of a recovery copy.
const ENDING: &str = ".recover";
/// The word in a note's `format`.
const FORMAT: &str = "hosewright-recovery";

/// What stands above the bay in a recovery copy.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Note {
    format: String,
    /// The bay's file; none for a bay that has not been saved yet.
    pub of: Option<PathBuf>,
    /// When the copy was made, seconds since 1970 (UTC); 0 where the clock did not say.
    pub at: u64,
    /// The report of the fault that ended the program, where one did.
    pub report: Option<PathBuf>,
}

impl Note {
    /// A note on a copy of this file's bay, made at `at`.
    pub fn new(of: Option<PathBuf>, at: u64) -> Self {
        Self { format: FORMAT.to_owned(), of, at, report: None }
    }
}

/// Why a recovery copy cannot be understood.
#[derive(Debug, thiserror::Error)]
pub enum NoteError {
    /// It ends before the bay begins.
    #[error("it has no first line, so it was cut short")]
    NoFirstLine,
    /// The first line is something else.
    #[error("its first line is not a note of recovery: {0}")]
    NotANote(#[from] serde_json::Error),
    /// The first line is of another kind of file.
    #[error("it is a \u{201c}{0}\u{201d}, not a recovery copy")]
    OtherFormat(String),
}

/// The bytes of a recovery copy.
///
/// # Errors
/// [`NotFinite`]: the bay holds a number that no file can.
pub fn compose(note: &Note, bay: &Bay) -> Result<Vec<u8>, NotFinite> {
    let text = write(bay)?;
    // A path that is no Unicode is left out: the copy is found by its name all the same.
    let unnamed = || serde_json::to_string(&Note { of: None, report: None, ..note.clone() });
    let line = serde_json::to_string(note).or_else(|_| unnamed()).unwrap_or_default();
    Ok([line.as_bytes(), b"\n", text.as_bytes()].concat())
}

/// The note of a recovery copy, and the text of the bay below it.
///
/// # Errors
/// [`NoteError`].
pub fn parse(bytes: &[u8]) -> Result<(Note, &[u8]), NoteError> {
    let end = bytes.iter().position(|byte| *byte == b'\n').ok_or(NoteError::NoFirstLine)?;
    let note: Note = serde_json::from_slice(&bytes[..end])?;
    if note.format != FORMAT {
        return Err(NoteError::OtherFormat(note.format));
    }
    Ok((note, &bytes[end + 1..]))
}
