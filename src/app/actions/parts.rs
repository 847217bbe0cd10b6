//! What can be done in the parts library.

use crate::model::{StockEntry, StockList};

/// A deed in the parts library.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs, reason = "the names say it")]
pub enum PartsAct {
    /// Shows this list.
    List(StockList),
    Search(String),
    /// Begins a part of the list that is shown.
    New,
    /// Shows a part to be changed.
    Open(StockEntry),
    /// Begins a part like this one.
    Copy(StockEntry),
    /// The part that is open, as it is typed now.
    Typed(StockEntry),
    /// Keeps it.
    Save,
    /// Leaves it as it was.
    Cancel,
    Delete(StockEntry),
    /// Takes the last change of the library back.
    PutBack,
    /// Takes a part of the bay into the library, in the place of the same part.
    FromBay(StockEntry),
    /// Reads its file again.
    ReadAgain,
}
