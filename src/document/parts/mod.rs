//! The builder's own parts: the library that is changed, saved and put back, its tables for spreadsheets,
//! and what differs between a part of the library and the same part of a bay.

mod cell;
mod columns;
mod differences;
mod library;
mod said;
mod table_fault;
mod table_in;
mod table_out;

pub use differences::differences;
pub use library::{Library, PartsChange, PartsError};
pub use said::said;
pub use table_fault::{TableFault, TableFaults};
pub use table_in::parts_from_csv;
pub use table_out::parts_to_csv;
