//! The two streams. A reader that goes away early (`| head`) is no fault of anybody.

use std::io::{self, ErrorKind, Write};
use std::path::Path;

use super::Refusal;
use crate::document::file;
use crate::units::{escaped_lines, shown_path};

/// Data, whole, to standard output.
pub(super) fn data(text: &str) -> Result<(), Refusal> {
    let mut out = io::stdout().lock();
    printed(out.write_all(text.as_bytes()).and_then(|()| out.flush()))
}

/// How writing to standard output went, a reader that has gone away taken for one that has enough.
pub(super) fn printed(went: io::Result<()>) -> Result<(), Refusal> {
    match went {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => {
            Err(format!("cannot write to standard output: {error}"))
        }
        _ => Ok(()),
    }
}

/// A whole file in the place of what was there.
pub(super) fn file(path: &Path, bytes: &[u8]) -> Result<(), Refusal> {
    file::replace(path, |out| out.write_all(bytes)).map_err(|error| error.to_string())
}

/// That a file was written, and what is in it.
pub(super) fn wrote(path: &Path, what: &str) {
    message(&format!("wrote {}: {what}", shown_path(path)));
}

/// A message to standard error. Where even that cannot be written there is nobody left to tell.
pub(super) fn message(text: &str) {
    let _ = writeln!(io::stderr().lock(), "hosewright: {}", plain(text));
}

/// Text that cannot steer a terminal. Line ends in it are ours: what comes from outside is escaped where
/// it is put in.
pub(super) fn plain(text: &str) -> String {
    escaped_lines(text).into_owned()
}
