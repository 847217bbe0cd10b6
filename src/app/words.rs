//! The words that several parts of the window share.

use crate::model::Run;

/// A dash size as users read it: `−6`.
pub(super) fn dash(dash: u32) -> String {
    format!("\u{2212}{dash}")
}

/// A name short enough for the drawing.
pub(super) fn short(name: &str) -> String {
    at_most(name, 24)
}

/// A text of at most so many characters.
pub(super) fn at_most(name: &str, most: usize) -> String {
    if name.chars().count() <= most {
        return name.to_owned();
    }
    let kept: String = name.chars().take(most.saturating_sub(1)).collect();
    format!("{}\u{2026}", kept.trim_end_matches([' ', ',']))
}

/// What a run is called.
pub(super) fn run_name(run: &Run) -> &str {
    run.shown_name()
}
