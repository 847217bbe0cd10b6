//! From a bay to the text of its file.
//!
//! Stable and made to be read: the contract's order of keys, two spaces a level, rows of numbers
//! on one line, whole numbers without a point, other numbers as short as they can be and still be
//! read back the same, what is absent left out, unknown keys after the known ones in their order.

mod layout;
pub(super) mod tree;

use crate::model::{Bay, Stock};

use super::things::Thing;
use super::{FORMAT, PARTS_FORMAT, VERSION};
use tree::{Entries, Tree};

/// A number in the bay that no file can hold.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{pointer}: the number {found} cannot be saved; a number that is finite is expected")]
pub struct NotFinite {
    /// The place in the file, as a JSON Pointer (RFC 6901).
    pub pointer: String,
    /// The number.
    pub found: String,
}

/// The text of a bay's file. Meshes are named in it, not held by it.
///
/// # Errors
/// Where a number of the bay is not finite; nothing else can go wrong.
pub fn write(bay: &Bay) -> Result<String, NotFinite> {
    write_as(FORMAT, bay)
}

/// The text of the file of a parts library.
pub(super) fn write_stock(stock: &Stock) -> Result<String, NotFinite> {
    write_as(PARTS_FORMAT, stock)
}

fn write_as<T: Thing>(format: &'static str, thing: &T) -> Result<String, NotFinite> {
    let mut file = Entries::default();
    file.put("format", format);
    file.put("version", Tree::Figure(VERSION.into()));
    thing.write(&mut file);
    layout::lay_out(&file.into())
}
