//! Writing a window's recovery copy, and taking it away.

use std::ffi::OsString;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Write as _};
use std::path::{Path, PathBuf};

use super::{ENDING, Note, compose};
use crate::document::file::save::{Fresh, SaveError, folder_of};
use crate::model::Bay;

/// Keeps the recovery copy of one window.
#[derive(Debug)]
pub struct Keeper {
    /// For bays without a file, and where the bay's own folder must not be written to.
    folder: PathBuf,
    slot: Option<Slot>,
}

#[derive(Debug)]
struct Slot {
    of: Option<PathBuf>,
    path: PathBuf,
    /// Holds the lock, for as long as the copy is this window's.
    _lock: File,
}

impl Keeper {
    /// `folder` is for bays that have no file, or none that can be written beside.
    pub fn new(folder: PathBuf) -> Self {
        Self { folder, slot: None }
    }

    /// The copy, where there is one.
    pub fn path(&self) -> Option<&Path> {
        self.slot.as_ref().map(|slot| slot.path.as_path())
    }

    /// Makes the copy hold this bay, whole or not at all. The copy of another file goes.
    ///
    /// # Errors
    /// [`SaveError`]: neither place can be written to. An older copy is then as it was.
    pub fn keep(&mut self, note: &Note, bay: &Bay) -> Result<(), SaveError> {
        if self.slot.as_ref().is_some_and(|slot| slot.of != note.of) {
            self.forget();
        }
        let beside = note.of.as_deref().map(beside);
        let old = self.slot.as_ref().map(|slot| slot.path.clone());
        let first = old.or(beside).unwrap_or_else(|| self.folder.join("unnamed"));
        let bytes = compose(note, bay)
            .map_err(|source| SaveError::NotFinite { path: first.clone(), source })?;
        let written = match self.write(note.of.as_deref(), &bytes) {
            Err(_) if note.of.is_some() && self.slot.is_none() => self.write(None, &bytes),
            written => written,
        };
        let (path, file) = written.map_err(|source| SaveError::Disk { path: first, source })?;
        self.slot = Some(Slot { of: note.of.clone(), path, _lock: file });
        Ok(())
    }

    /// Takes the copy away: the work is saved, or was given up.
    pub fn forget(&mut self) {
        if let Some(slot) = self.slot.take() {
            // A copy that cannot be taken away is offered later; nothing is lost by that.
            let _ = fs::remove_file(&slot.path);
        }
    }

    /// Writes the copy; `of` says beside which file, else it goes to the folder.
    fn write(&self, of: Option<&Path>, bytes: &[u8]) -> io::Result<(PathBuf, File)> {
        let target = match (&self.slot, of) {
            (Some(slot), _) => slot.path.clone(),
            (None, Some(of)) => free_name(&beside(of))?,
            (None, None) => {
                fs::create_dir_all(&self.folder)?;
                free_name(&self.folder.join("unnamed"))?
            }
        };
        let mut fresh = Fresh::beside(folder_of(&target))?;
        if let Some(mode) = of.and_then(|of| fs::metadata(of).ok()).map(|old| old.permissions()) {
            // What others may not read in the bay they shall not read here; a copy that could not
            // be written again would be of no use.
            if !mode.readonly() {
                fresh.file.set_permissions(mode)?;
            }
        }
        // Locked before it has its name: at no moment does it look like a leftover. A file system
        // without locks keeps the copy all the same.
        let _ = fresh.file.try_lock();
        fresh.file.write_all(bytes)?;
        fresh.file.sync_all()?;
        let file = fresh.file.try_clone()?;
        fresh.take_the_name_of(&target)?;
        Ok((target, file))
    }
}

/// `folder/.NAME`, to which process and ending are added.
fn beside(of: &Path) -> PathBuf {
    let mut name = OsString::from(".");
    name.push(of.file_name().unwrap_or_default());
    folder_of(of).join(name)
}

/// The first name of this process that nobody has: an earlier process of the same number may have
/// left a copy.
fn free_name(stem: &Path) -> io::Result<PathBuf> {
    const TRIES: u32 = 1000;
    let process = std::process::id();
    let names = (0..TRIES).map(|number| {
        let mut name = stem.as_os_str().to_owned();
        match number {
            0 => name.push(format!(".{process}{ENDING}")),
            _ => name.push(format!(".{process}-{number}{ENDING}")),
        }
        PathBuf::from(name)
    });
    let mut free = names.filter(|name| fs::symlink_metadata(name).is_err());
    free.next().ok_or_else(|| ErrorKind::AlreadyExists.into())
}
