//! What is told to the user: a short word about what was done, or what went wrong.

use std::path::PathBuf;

/// Something that went wrong, for the user to read and close.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Trouble {
    /// What could not be done.
    pub(super) title: String,
    /// Why, line by line.
    pub(super) lines: Vec<String>,
    /// What is still as it was.
    pub(super) comfort: &'static str,
}

/// A short word about what was done.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Notice {
    pub(super) text: String,
    /// A file that can be opened from here.
    pub(super) file: Option<PathBuf>,
    /// When it was first seen, or last pointed at, seconds.
    pub(super) since: Option<f64>,
}

impl Notice {
    pub(super) fn new(text: impl Into<String>, file: Option<PathBuf>) -> Self {
        Self { text: text.into(), file, since: None }
    }
}
