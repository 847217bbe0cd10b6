//! `hosewright sheet`.

use std::fs;
use std::path::Path;

use crate::export::{Format, Sheet, SheetInfo};
use crate::units::shown_path;

use super::args::{SheetArgs, paper};
use super::check::Checked;
use super::{Exit, Refusal, output};

pub(super) fn run(args: &SheetArgs) -> Result<Exit, Refusal> {
    let format = target(&args.bay.file, &args.out)?;
    let checked = Checked::load(&args.bay)?;
    let sheet = sheet(&checked, info(&args.bay.file, args.date.clone()));
    let paper = paper(args.paper, sheet.unit);
    let bytes = format.write(&sheet, paper).map_err(|error| error.to_string())?;
    output::file(&args.out, &bytes)?;
    let hoses = match sheet.hoses.len() {
        1 => "1 hose".to_owned(),
        count => format!("{count} hoses"),
    };
    let stop = if sheet.counts.fails > 0 {
        let verdict = &sheet.verdict;
        format!("; but do not cut yet: {verdict}; see the sheet, or `hosewright check`")
    } else {
        String::new()
    };
    output::wrote(&args.out, &format!("{hoses} of {}{stop}", checked.routing_words()));
    Ok(Exit::Fine)
}

/// The sheet of the routing that was asked for.
pub(super) fn sheet(checked: &Checked, info: SheetInfo) -> Sheet {
    Sheet::new(&checked.bay, checked.routing(), &checked.solution, &checked.findings, info)
}

/// The day, today (UTC) where none was asked for, and the name of the bay file.
pub(super) fn info(bay: &Path, date: Option<String>) -> SheetInfo {
    SheetInfo::of(Some(bay), date.or_else(crate::clock::today))
}

/// Whether a PDF could be written under this name; asked before the long work.
pub(super) fn pdf_target(bay: &Path, out: &Path) -> Result<(), Refusal> {
    writable(bay, out)?;
    match Format::of(out) {
        Ok(Format::Pdf) => Ok(()),
        _ => Err(format!("cannot write {}: the name must end in .pdf", shown_path(out))),
    }
}

/// The format, if the target can be written at all; asked before the long work.
fn target(bay: &Path, out: &Path) -> Result<Format, Refusal> {
    writable(bay, out)?;
    Format::of(out).map_err(|error| format!("cannot write {}: {error}", shown_path(out)))
}

/// Whether a file beside this bay could be written under this name, as far as can be seen.
pub(super) fn writable(bay: &Path, out: &Path) -> Result<(), Refusal> {
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
        _ => Ok(()),
    }
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
