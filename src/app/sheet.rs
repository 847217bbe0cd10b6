//! The length sheet of the option in view.

use super::App;

impl App {
    /// The sheet as a web page.
    pub(super) fn sheet_html(&self) -> Option<Vec<u8>> {
        None
    }
}
