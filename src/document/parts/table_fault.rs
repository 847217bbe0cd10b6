//! What is wrong with a table, and where.

use std::fmt;

use crate::units::escaped;

/// A fault in a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TableFault {
    /// Line, from 1; the header is the first.
    pub line: u64,
    /// Name of the column; empty for the line as a whole.
    pub column: String,
    /// What stands there.
    pub found: String,
    /// What should stand there.
    pub expected: String,
}

impl fmt::Display for TableFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { line, column, found, expected } = self;
        let column = if column.is_empty() { String::new() } else { format!(", column {column}") };
        let said = format!("line {line}{column}: found {found}, expected {expected}");
        f.write_str(&escaped(&said))
    }
}

/// All that is wrong with a table; nothing of it is taken over.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}", .0.iter().map(TableFault::to_string).collect::<Vec<_>>().join("\n"))]
pub struct TableFaults(pub Vec<TableFault>);

/// Counts lines by their ends: the crate's own count is behind where they are CR LF.
pub(super) struct Lines<'a> {
    bytes: &'a [u8],
    at: usize,
    line: u64,
}

impl<'a> Lines<'a> {
    pub(super) fn in_bytes(bytes: &'a [u8]) -> Self {
        Self { bytes, at: 0, line: 1 }
    }

    /// The line that a record begins in; its place may be before the end of the line above.
    pub(super) fn of(&mut self, place: Option<&csv::Position>) -> u64 {
        let begins = place.map_or(self.at, |place| place.byte() as usize);
        let rest = self.bytes.get(begins..).unwrap_or_default();
        let ends = rest.iter().take_while(|byte| b"\r\n".contains(byte)).count();
        let to = (begins + ends).clamp(self.at, self.bytes.len());
        self.line += self.bytes[self.at..to].split(|byte| *byte == b'\n').skip(1).count() as u64;
        self.at = to;
        self.line
    }
}
