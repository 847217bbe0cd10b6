//! The length sheet of the option in view.

use super::App;
use crate::export::{Format, Paper, PdfError, Sheet, SheetInfo};

impl App {
    /// The sheet in a format, on the paper usual for the bay's unit; none where nothing is open.
    pub(super) fn sheet(&self, format: Format) -> Option<Result<Vec<u8>, PdfError>> {
        let (document, solved) = (self.document.as_ref()?, self.solved.as_ref()?);
        let bay = document.bay();
        let option = bay.options.get(self.option)?;
        let name = document.path().and_then(|path| path.file_name());
        let info = SheetInfo {
            date: crate::clock::today(),
            file_name: name.map(|name| name.to_string_lossy().into_owned()),
        };
        let sheet = Sheet::new(bay, option, &solved.routing, &solved.findings, info);
        Some(format.write(&sheet, Paper::usual_for(sheet.unit)))
    }
}
