//! What windows that died have left.

use std::fs::{self, File, TryLockError};
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};

use super::{ENDING, Note, NoteError, parse};
use crate::document::file::save::folder_of;
use crate::document::file::{MAX_FILE_BYTES, MeshSource, ReadError, load_mesh, read, resolve};
use crate::model::{Bay, Mesh};

/// A recovery copy that no living window holds.
#[derive(Debug)]
pub struct Leftover {
    /// Where it is.
    pub path: PathBuf,
    note: Result<Note, NoteError>,
    text: Vec<u8>,
}

impl Leftover {
    /// What it says of itself.
    ///
    /// # Errors
    /// [`NoteError`]: the copy is damaged.
    pub fn note(&self) -> Result<&Note, &NoteError> {
        self.note.as_ref()
    }

    /// The bay's text, as a bay file has it.
    pub fn text(&self) -> &[u8] {
        &self.text
    }

    /// The bay without its meshes, to tell what it is.
    ///
    /// # Errors
    /// [`ReadError`].
    pub fn outline(&self) -> Result<Bay, ReadError> {
        read(&self.text, &WithoutMeshes)
    }

    /// The bay, with the meshes that it names from the folder of `of`. One that was never saved
    /// names them by their whole paths.
    ///
    /// # Errors
    /// [`ReadError`].
    pub fn bay(&self, of: Option<&Path>) -> Result<Bay, ReadError> {
        read(&self.text, &FromFolder(of.map(folder_of)))
    }

    /// Throws it away.
    ///
    /// # Errors
    /// What the system says.
    pub fn throw_away(&self) -> io::Result<()> {
        fs::remove_file(&self.path)
    }
}

/// Meshes by the names that a bay has in memory.
struct FromFolder<'a>(Option<&'a Path>);

impl MeshSource for FromFolder<'_> {
    fn mesh(&self, file: &str) -> Result<Mesh, String> {
        load_mesh(&resolve(self.0, file))
    }
}

struct WithoutMeshes;

impl MeshSource for WithoutMeshes {
    fn mesh(&self, _file: &str) -> Result<Mesh, String> {
        Ok(Mesh::default())
    }
}

/// The leftovers of a bay's file: those beside it, and those in the folder for where one cannot
/// write beside it. Newest first.
pub fn leftovers_of(bay_file: &Path, folder: &Path) -> Vec<Leftover> {
    let name = bay_file.file_name().unwrap_or_default().to_string_lossy();
    let begins = format!(".{name}.");
    let mut found = in_folder(folder_of(bay_file), &|file| of_a_process(file, &begins));
    let theirs =
        |left: &Leftover| left.note.as_ref().is_ok_and(|note| note.of.as_deref() == Some(bay_file));
    found.extend(in_folder(folder, &is_ours).into_iter().filter(theirs));
    newest_first(found)
}

/// The leftovers of bays that were never saved, and of those one could not write beside. Newest
/// first.
pub fn leftovers_without_file(folder: &Path) -> Vec<Leftover> {
    newest_first(in_folder(folder, &is_ours))
}

fn is_ours(file: &str) -> bool {
    of_a_process(file, "unnamed.")
}

/// `.NAME.4711.recover` or `.NAME.4711-2.recover`.
fn of_a_process(file: &str, begins: &str) -> bool {
    let process = file.strip_prefix(begins).and_then(|rest| rest.strip_suffix(ENDING));
    process.is_some_and(|process| {
        process.starts_with(|c: char| c.is_ascii_digit())
            && process.chars().all(|c| c.is_ascii_digit() || c == '-')
    })
}

fn in_folder(folder: &Path, wanted: &dyn Fn(&str) -> bool) -> Vec<Leftover> {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let named = entries.filter(|entry| wanted(&entry.file_name().to_string_lossy()));
    named.filter_map(|entry| left(entry.path()).ok().flatten()).collect()
}

/// The copy in this file, unless a living window holds it.
fn left(path: PathBuf) -> io::Result<Option<Leftover>> {
    let file = File::open(&path)?;
    if matches!(file.try_lock_shared(), Err(TryLockError::WouldBlock)) {
        return Ok(None);
    }
    let mut bytes = Vec::new();
    file.take(MAX_FILE_BYTES + 1).read_to_end(&mut bytes)?;
    let (note, text) = match parse(&bytes) {
        Ok((note, text)) => (Ok(note), text.to_vec()),
        Err(error) => (Err(error), bytes),
    };
    Ok(Some(Leftover { path, note, text }))
}

fn newest_first(mut found: Vec<Leftover>) -> Vec<Leftover> {
    found.sort_by(|a, b| {
        let at = |left: &Leftover| left.note.as_ref().map_or(0, |note| note.at);
        at(b).cmp(&at(a)).then_with(|| a.path.cmp(&b.path))
    });
    found
}
