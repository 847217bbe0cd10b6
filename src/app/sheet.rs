//! The length sheet of the option in view.

use super::App;

/// Whether this build can write it; where not, nothing offers it.
pub(super) const IS_BUILT: bool = false;

impl App {
    /// The sheet as a web page; none where nothing is open.
    #[allow(clippy::unused_self, reason = "the sheet of the bay that is open")]
    pub(super) fn sheet_html(&self) -> Option<Vec<u8>> {
        None
    }
}
