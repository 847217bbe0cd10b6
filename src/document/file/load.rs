//! Reading a bay from the disk.

use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};

use crate::model::Bay;
use crate::units::shown_path;

use super::mesh::{FolderMeshes, MeshSource};
use super::{MAX_FILE_BYTES, ReadError, Stamp, read};

/// Why a bay could not be loaded.
#[derive(Debug, thiserror::Error)]
pub enum LoadError {
    /// The file cannot be read from the disk.
    #[error("cannot open {}: {}", shown_path(.path), why_not_read(.source))]
    Open {
        /// The file.
        path: PathBuf,
        /// What the system says.
        source: std::io::Error,
    },
    /// What is in the file is not a bay.
    #[error("cannot open {}:\n{source}", shown_path(.path))]
    Read {
        /// The file.
        path: PathBuf,
        /// What is wrong with it.
        source: ReadError,
    },
}

fn why_not_read(error: &std::io::Error) -> String {
    match error.kind() {
        ErrorKind::NotFound => "there is no such file".to_owned(),
        ErrorKind::PermissionDenied => "you may not read this file".to_owned(),
        ErrorKind::IsADirectory => "it is a folder; name the bay file in it".to_owned(),
        _ => error.to_string(),
    }
}

/// Reads a bay and the meshes beside it.
///
/// # Errors
/// [`LoadError`]: the disk, or what is in the file.
pub fn load(path: &Path) -> Result<Bay, LoadError> {
    load_with(path, &FolderMeshes::beside(path)).map(|(bay, _)| bay)
}

/// Reads a bay with meshes from anywhere, and says what the file held.
///
/// # Errors
/// [`LoadError`]: the disk, or what is in the file.
pub fn load_with(path: &Path, meshes: &dyn MeshSource) -> Result<(Bay, Stamp), LoadError> {
    let at = |source| LoadError::Open { path: path.to_owned(), source };
    let mut bytes = Vec::new();
    // One byte more than is read tells that there is more, whatever the system says of the length.
    let file = File::open(path).map_err(at)?;
    file.take(MAX_FILE_BYTES + 1).read_to_end(&mut bytes).map_err(at)?;
    let bay =
        read(&bytes, meshes).map_err(|source| LoadError::Read { path: path.to_owned(), source })?;
    Ok((bay, Stamp::of(&bytes)))
}
