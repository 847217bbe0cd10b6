//! Whether a file can be written under a name, and whether anything is lost by it; asked before the
//! long work.

use std::fs;
use std::path::Path;

use super::Refusal;
use super::args::OutArgs;
use crate::document::file;
use crate::export::{Format, is_ours};
use crate::model::{BackgroundEntry, Bay, Shape};
use crate::units::shown_path;

/// No file of ours is longer, bytes.
const LONGEST: u64 = 256 << 20;

/// Whether a PDF could be written under this name; asked before the long work.
pub(super) fn pdf(bay: &Path, args: &OutArgs) -> Result<(), Refusal> {
    let out = &args.out;
    writable(bay, args)?;
    match Format::of(out) {
        Ok(Format::Pdf) => Ok(()),
        _ => Err(format!("cannot write {}: the name must end in .pdf", shown_path(out))),
    }
}

/// Whether a file beside this bay could be written under this name, as far as can be seen.
pub(super) fn writable(bay: &Path, args: &OutArgs) -> Result<(), Refusal> {
    may_be_written(bay, &args.out, args.force)
}

/// The same of a file that is written besides.
pub(super) fn may_be_written(bay: &Path, out: &Path, force: bool) -> Result<(), Refusal> {
    let refused = |why: &str| Err(format!("cannot write {}: {why}", shown_path(out)));
    let name = out.file_name().map(|name| name.to_string_lossy().to_ascii_lowercase());
    let Some(name) = name else { return refused("that is not a file name") };
    if is_same_file(bay, out) {
        return refused("that is the bay itself; choose another name");
    }
    if name.ends_with(".bay.json") {
        return refused("a name in .bay.json is for bays; choose another name");
    }
    if out.is_dir() {
        return refused("that is a folder");
    }
    match out.parent() {
        Some(folder) if !folder.as_os_str().is_empty() && !folder.is_dir() => {
            refused("there is no such folder")
        }
        _ if force || is_free(out) => Ok(()),
        _ => refused(
            "there is such a file, and Hosewright did not write it; choose another name, or replace it \
             with --force",
        ),
    }
}

/// Whether nothing is lost under this name: there is no file, or one that this program wrote.
fn is_free(out: &Path) -> bool {
    match file::contents(out, LONGEST) {
        Ok(Some(bytes)) => is_ours(&bytes),
        Ok(None) => true,
        // What is wrong with it is told when it is written.
        Err(_) => !out.is_file(),
    }
}

/// A file that the bay is made of is never taken for an earlier sheet: a drawing of ours may be a
/// background by now.
pub(super) fn is_no_part_of(bay: &Bay, file: &Path, args: &OutArgs) -> Result<(), Refusal> {
    let folder = file::folder_of(file);
    let meshes = bay.obstacles.iter().filter_map(|obstacle| match &obstacle.shape {
        Shape::Mesh { file, .. } => Some(file),
        _ => None,
    });
    let backgrounds = bay.backgrounds.iter().filter_map(|entry| match entry {
        BackgroundEntry::Known(background) => Some(&background.file),
        BackgroundEntry::Other(_) => None,
    });
    let mut parts = meshes.chain(backgrounds).map(|name| file::resolve(Some(folder), name));
    if !args.force && args.out.exists() && parts.any(|part| is_same_file(&part, &args.out)) {
        return Err(format!(
            "cannot write {}: the bay has it as a background or mesh; choose another name, or replace it with --force",
            shown_path(&args.out)
        ));
    }
    Ok(())
}

/// Whether two names lead to one file, through links too.
fn is_same_file(a: &Path, b: &Path) -> bool {
    match (fs::canonicalize(a), fs::canonicalize(b)) {
        (Ok(a), Ok(b)) => a == b || is_one_inode(&a, &b),
        _ => a == b,
    }
}

#[cfg(unix)]
fn is_one_inode(a: &Path, b: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    match (fs::metadata(a), fs::metadata(b)) {
        (Ok(a), Ok(b)) => (a.dev(), a.ino()) == (b.dev(), b.ino()),
        _ => false,
    }
}

#[cfg(not(unix))]
fn is_one_inode(_a: &Path, _b: &Path) -> bool {
    false
}
