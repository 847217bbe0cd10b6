//! The length sheet of the option in view.

use super::App;
use crate::export::{Format, Sheet, SheetInfo};

impl App {
    /// The sheet as a web page; none where nothing is open.
    pub(super) fn sheet_html(&self) -> Option<Vec<u8>> {
        let (document, solved) = (self.document.as_ref()?, self.solved.as_ref()?);
        let bay = document.bay();
        let option = bay.options.get(self.option)?;
        let name = document.path().and_then(|path| path.file_name());
        let info = SheetInfo {
            date: crate::clock::today(),
            file_name: name.map(|name| name.to_string_lossy().into_owned()),
        };
        let sheet = Sheet::new(bay, option, &solved.routing, &solved.findings, info);
        Some(Format::Html.write(&sheet))
    }
}
