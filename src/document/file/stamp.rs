//! What a file held when it was read or written, to tell whether somebody else has changed it since.

use std::fs::File;
use std::hash::{DefaultHasher, Hash as _, Hasher as _};
use std::io::Read as _;
use std::path::Path;

/// The content of a file, in short. Two contents of the same stamp are the same but for one chance
/// in 2⁶⁴.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stamp {
    bytes: u64,
    hash: u64,
}

impl Stamp {
    /// Of this content.
    pub fn of(content: &[u8]) -> Self {
        let mut hasher = DefaultHasher::new();
        content.hash(&mut hasher);
        Self { bytes: content.len() as u64, hash: hasher.finish() }
    }

    /// Of the file as it now is; none where it cannot be read.
    pub fn of_file(path: &Path) -> Option<Self> {
        let mut content = Vec::new();
        // One byte more than any bay has: what is longer differs in any case.
        let file = File::open(path).ok()?;
        file.take(super::MAX_FILE_BYTES + 1).read_to_end(&mut content).ok()?;
        Some(Self::of(&content))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stamp_tells_contents_apart() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a");
        assert_eq!(Stamp::of_file(&path), None);
        std::fs::write(&path, "one").unwrap();
        assert_eq!(Stamp::of_file(&path), Some(Stamp::of(b"one")));
        assert_ne!(Stamp::of(b"one"), Stamp::of(b"two"));
    }
}
