//! When the program breaks off by a fault of its own: the work is written to its recovery copy, and
//! what happened to a report.

use std::backtrace::Backtrace;
use std::fmt::Write as _;
use std::io::Write as _;
use std::panic::PanicHookInfo;
use std::path::PathBuf;
use std::sync::{Arc, TryLockError};
use std::time::{Duration, Instant};

use super::Watch;
use crate::clock;
use crate::document::file::Note;

/// Only a panic of this thread ends the program; work in other threads is caught where it was asked
/// for.
pub(super) fn guard(watch: &Arc<Watch>) {
    let watch = Arc::clone(watch);
    let window = std::thread::current().id();
    let usual = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |info| {
        usual(info);
        if std::thread::current().id() == window {
            let told = rescue(&watch, info);
            // Where nobody reads this the report says the same.
            let _ = std::io::stderr().write_all(told.as_bytes());
        }
    }));
}

/// Says what was kept.
fn rescue(watch: &Watch, info: &PanicHookInfo<'_>) -> String {
    let at = clock::now().unwrap_or(0);
    let report = watch.folder.join(format!("fault-{at}-{}.txt", std::process::id()));
    let mut text = format!(
        "Hosewright {} stopped by an error of its own, {}.\n{info}\n",
        env!("CARGO_PKG_VERSION"),
        clock::minute(at),
    );
    let kept = keep(watch, at, &report);
    let kept = match kept {
        Ok(Some(path)) => format!("The unsaved work is kept in {}.\n", path.display()),
        Ok(None) => "There was no unsaved work.\n".to_owned(),
        Err(why) => format!("The unsaved work could not be kept: {why}\n"),
    };
    text.push_str(&kept);
    // Writing to a text does not fail.
    let _ = write!(text, "\nThe calls that led there:\n{}", Backtrace::force_capture());
    let _ = std::fs::create_dir_all(&watch.folder);
    match std::fs::write(&report, text) {
        Ok(()) => format!("{kept}A report is in {}.\n", report.display()),
        Err(_) => kept,
    }
}

fn keep(watch: &Watch, at: u64, report: &std::path::Path) -> Result<Option<PathBuf>, String> {
    /// The worker may be writing just now, or may be what broke.
    const PATIENCE: Duration = Duration::from_secs(2);
    let last = match watch.last.try_lock() {
        Ok(last) => last.clone(),
        Err(TryLockError::Poisoned(last)) => last.into_inner().clone(),
        Err(TryLockError::WouldBlock) => None,
    };
    let Some((bay, of)) = last else { return Ok(None) };
    let mut note = Note::new(of, at);
    note.report = Some(report.to_owned());
    let begun = Instant::now();
    loop {
        let mut keeper = match watch.keeper.try_lock() {
            Ok(keeper) => keeper,
            Err(TryLockError::Poisoned(keeper)) => keeper.into_inner(),
            Err(TryLockError::WouldBlock) if begun.elapsed() < PATIENCE => {
                std::thread::sleep(Duration::from_millis(10));
                continue;
            }
            Err(TryLockError::WouldBlock) => return Err("another copy is being written".into()),
        };
        keeper.keep(&note, &bay).map_err(|error| error.to_string())?;
        return Ok(keeper.path().map(std::path::Path::to_owned));
    }
}
