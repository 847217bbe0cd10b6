//! Saving so that the old file stays whole until the new one is.

use std::fs::{self, File, OpenOptions, Permissions};
use std::io::{self, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};

use crate::model::Bay;
use crate::units::shown_path;

use super::Stamp;
use super::write::{NotFinite, write};

/// Why a file could not be saved. The old file is as it was.
#[derive(Debug, thiserror::Error)]
pub enum SaveError {
    /// The bay holds a number that no file can.
    #[error("cannot save {}: {source}", shown_path(.path))]
    NotFinite {
        /// The file.
        path: PathBuf,
        /// Where in the bay.
        source: NotFinite,
    },
    /// There is a file that must not be written over.
    #[error("cannot save {}: the file is marked read-only; save under another name", shown_path(.path))]
    ReadOnly {
        /// The file.
        path: PathBuf,
    },
    /// There is something else of this name.
    #[error("cannot save {}: that is not a file; save under another name", shown_path(.path))]
    NotAFile {
        /// What is there.
        path: PathBuf,
    },
    /// The disk.
    #[error("cannot save {}: {}; any older file there is unchanged", shown_path(.path), why_not_saved(.source))]
    Disk {
        /// The file.
        path: PathBuf,
        /// What the system says.
        source: io::Error,
    },
}

fn why_not_saved(error: &io::Error) -> String {
    let what_to_do = match error.kind() {
        ErrorKind::NotFound => return "there is no such folder".to_owned(),
        ErrorKind::PermissionDenied => "save in a folder that you may write to",
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "free some space, or save elsewhere",
        ErrorKind::ReadOnlyFilesystem => "save elsewhere",
        _ => return error.to_string(),
    };
    format!("{error}: {what_to_do}")
}

/// Saves a bay, and says what the file now holds; see [`replace`].
///
/// # Errors
/// [`SaveError`]; the old file is then as it was.
pub fn save(path: &Path, bay: &Bay) -> Result<Stamp, SaveError> {
    save_text(path, write(bay))
}

pub(super) fn save_text(path: &Path, text: Result<String, NotFinite>) -> Result<Stamp, SaveError> {
    let text = text.map_err(|source| SaveError::NotFinite { path: path.to_owned(), source })?;
    replace(path, |file| file.write_all(text.as_bytes()))?;
    Ok(Stamp::of(text.as_bytes()))
}

/// Puts what `fill` writes in the place of a file, whole or not at all: it is written beside the
/// file, brought safely to the disk, and only then given the file's name. A link is followed; the
/// old file's mode and owner are kept, as far as the system lets them.
///
/// # Errors
/// [`SaveError`], also where `fill` fails; the old file is then as it was.
pub fn replace(
    path: &Path,
    fill: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> Result<(), SaveError> {
    let at = |source| SaveError::Disk { path: path.to_owned(), source };
    let target = behind_links(path).map_err(at)?;
    let old = match fs::metadata(&target) {
        Ok(old) if !old.is_file() => return Err(SaveError::NotAFile { path: path.to_owned() }),
        Ok(old) if old.permissions().readonly() => {
            return Err(SaveError::ReadOnly { path: path.to_owned() });
        }
        Ok(old) => Some(old),
        Err(error) if error.kind() == ErrorKind::NotFound => None,
        Err(error) => return Err(at(error)),
    };
    if target.file_name().is_none() {
        return Err(SaveError::NotAFile { path: path.to_owned() });
    }
    let folder = folder_of(&target);
    let mut fresh = Fresh::beside(folder).map_err(at)?;
    if let Some(old) = &old {
        keep_owner(&fresh.file, old);
        keep_mode(&fresh.file, old.permissions()).map_err(at)?;
    }
    fill(&mut fresh.file).and_then(|()| fresh.file.sync_all()).map_err(at)?;
    fresh.take_the_name_of(&target).map_err(at)?;
    // The file is whole under its name by now. Not every file system can do this for a folder, so
    // a failure is no failure of the save.
    let _ = File::open(folder).and_then(|folder| folder.sync_all());
    Ok(())
}

/// What stands in a file that is there; nothing where there is none. A file of more than so many bytes
/// is not read to its end.
///
/// # Errors
/// What the system says.
pub fn contents(path: &Path, most: u64) -> io::Result<Option<Vec<u8>>> {
    let mut bytes = Vec::new();
    match File::open(path) {
        Ok(file) => file.take(most).read_to_end(&mut bytes).map(|_| Some(bytes)),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Err(error) => Err(error),
    }
}

/// The file that a name leads to through links, whether or not it is there yet.
fn behind_links(path: &Path) -> io::Result<PathBuf> {
    /// As many as the systems follow.
    const MOST: usize = 40;
    let mut target = path.to_owned();
    for _ in 0..MOST {
        match fs::read_link(&target) {
            Ok(link) => target = folder_of(&target).join(link),
            Err(_) => return Ok(target),
        }
    }
    Err(io::Error::other("the link leads back to itself"))
}

pub(super) fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// A new file beside the old one; removed again unless it takes the old one's name.
pub(super) struct Fresh {
    pub(super) file: File,
    path: PathBuf,
    is_kept: bool,
}

impl Fresh {
    pub(super) fn beside(folder: &Path) -> io::Result<Self> {
        /// So many left behind by crashes are not to be expected.
        const TRIES: u32 = 1000;
        let mut last = io::Error::from(ErrorKind::AlreadyExists);
        for number in 0..TRIES {
            let name = format!(".hosewright-{}-{number}.tmp", std::process::id());
            let path = folder.join(name);
            match OpenOptions::new().write(true).create_new(true).open(&path) {
                Ok(file) => return Ok(Self { file, path, is_kept: false }),
                Err(error) if error.kind() == ErrorKind::AlreadyExists => last = error,
                Err(error) => return Err(error),
            }
        }
        Err(last)
    }

    pub(super) fn take_the_name_of(mut self, target: &Path) -> io::Result<()> {
        fs::rename(&self.path, target)?;
        self.is_kept = true;
        Ok(())
    }
}

impl Drop for Fresh {
    fn drop(&mut self) {
        if !self.is_kept {
            // Nothing can be done about a leftover, and the reason for it has been told already.
            let _ = fs::remove_file(&self.path);
        }
    }
}

fn keep_mode(file: &File, mode: Permissions) -> io::Result<()> {
    file.set_permissions(mode)
}

/// Only the system's administrator can give files away, so this may come to nothing.
#[cfg(unix)]
fn keep_owner(file: &File, old: &fs::Metadata) {
    use std::os::unix::fs::{MetadataExt, fchown};
    let _ = fchown(file, Some(old.uid()), Some(old.gid()));
}

#[cfg(not(unix))]
fn keep_owner(_file: &File, _old: &fs::Metadata) {}
