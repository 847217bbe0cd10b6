//! The parts library (`parts.json`): the builder's own hoses, ends, clamps and lengths, used by all bays.
//!
//! It is a bay's `stock` in a file of its own. It is refused for more than a bay is: what stands in it
//! is used again and again, so a slip of the fingers must not get in; see [`limits`].

mod limits;

use std::path::Path;

use crate::model::Stock;

use super::fault::{Faults, ReadError};
use super::load::LoadError;
use super::save::{contents, save_text};
use super::write::write_stock;
use super::{Fault, MAX_FILE_BYTES, NotFinite, SaveError, Stamp, read};

/// The word in the `format` of a parts library.
pub const PARTS_FORMAT: &str = "hosewright-parts";

/// A parts library as a file held it.
#[derive(Debug, Clone, PartialEq)]
pub struct Parts {
    /// What is in it.
    pub stock: Stock,
    /// What the file held; none where there is no file.
    pub stamp: Option<Stamp>,
}

/// Reads the text of a parts library.
///
/// # Errors
/// [`ReadError`], every fault with its place.
pub fn read_parts(bytes: &[u8]) -> Result<Stock, ReadError> {
    read_parts_beside(bytes, &Stock::default())
}

/// The same of parts that are to go beside others: their lengths may be of those hoses too.
///
/// # Errors
/// [`ReadError`], every fault with its place.
pub fn read_parts_beside(bytes: &[u8], besides: &Stock) -> Result<Stock, ReadError> {
    let stock = read::read_stock(bytes, besides)?;
    match limits::faults(&stock) {
        faults if faults.is_empty() => Ok(stock),
        faults => Err(ReadError::Faults(Faults(faults))),
    }
}

/// The text of a parts library.
///
/// # Errors
/// Where a number is not finite.
pub fn write_parts(stock: &Stock) -> Result<String, NotFinite> {
    write_stock(stock)
}

/// What a file of this library would be refused for; empty where it can be read again.
pub fn faults_of_parts(stock: &Stock) -> Vec<Fault> {
    let whole = |found: String, pointer: String, expected: &str| {
        vec![Fault { pointer, found, expected: expected.to_owned(), hint: None }]
    };
    match write_parts(stock).map(|text| read_parts(text.as_bytes())) {
        Ok(Ok(_)) => Vec::new(),
        Ok(Err(ReadError::Faults(Faults(mut faults)))) => {
            let more = limits::faults(stock).into_iter();
            let more = more.filter(|one| faults.iter().all(|other| other.pointer != one.pointer));
            let more: Vec<Fault> = more.collect();
            faults.extend(more);
            // Those of a part before those of its sizes.
            faults.sort_by_key(|fault| fault.pointer.matches('/').count());
            faults
        }
        Ok(Err(other)) => whole(other.to_string(), String::new(), "parts that can be read again"),
        Err(not_finite) => whole(not_finite.found, not_finite.pointer, "a number that is finite"),
    }
}

/// Reads a parts library; an empty one where there is no file yet.
///
/// # Errors
/// [`LoadError`]: the disk, or what is in the file.
pub fn load_parts(path: &Path) -> Result<Parts, LoadError> {
    let open = |source| LoadError::Open { path: path.to_owned(), source };
    let Some(bytes) = contents(path, MAX_FILE_BYTES + 1).map_err(open)? else {
        return Ok(Parts { stock: Stock::default(), stamp: None });
    };
    let read = |source| LoadError::Read { path: path.to_owned(), source };
    let stock = read_parts(&bytes).map_err(read)?;
    Ok(Parts { stock, stamp: Some(Stamp::of(&bytes)) })
}

/// Saves a parts library, whole or not at all; its folder is made where it lacks.
///
/// # Errors
/// [`SaveError`]; the old file is then as it was.
pub fn save_parts(path: &Path, stock: &Stock) -> Result<Stamp, SaveError> {
    let folder = super::folder_of(path);
    if let Err(source) = std::fs::create_dir_all(folder) {
        return Err(SaveError::Disk { path: path.to_owned(), source });
    }
    save_text(path, write_parts(stock))
}
