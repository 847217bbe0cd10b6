//! The bay file (`NAME.bay.json`): reading it, writing it, and saving without risk to the old one.
//!
//! [`read`] and [`write()`] are pure; only [`load`], [`save`], [`replace`], [`load_mesh`],
//! [`load_outline`], [`FolderMeshes`], [`Stamp`], [`Keeper`] and [`Leftover`] touch the disk.
//!
//! - What the contract refuses comes back as [`Fault`]s, as many at once as can be told, in the
//!   order of the file; a fault that only follows from another is left unsaid.
//! - Keys that are not known are kept, in order, and written back.
//! - `read(write(bay)) == bay`, and `write(read(text)) == text` for every text that [`write()`] made.

mod dxf;
mod fault;
mod faults_of;
mod json;
mod load;
mod mesh;
mod mesh_limits;
mod parts;
mod read;
mod recovery;
mod relative;
mod save;
mod stamp;
mod things;
mod write;

pub use dxf::{OutlineDrawing, OutlineError, left_out_text, load_outline, outline_from_dxf};
pub use fault::{Fault, Faults, ReadError};
pub use faults_of::faults_of;
pub use load::{LoadError, load, load_with};
pub use mesh::{FolderMeshes, MOST_TRIANGLES, MeshSource, load_mesh, mesh_from_stl};
pub use parts::{
    PARTS_FORMAT, Parts, faults_of_parts, load_parts, read_parts, read_parts_beside, save_parts,
    write_parts,
};
pub use read::read;
pub use recovery::{
    Keeper, Leftover, Note, NoteError, compose, leftovers_of, leftovers_without_file, parse,
};
pub use relative::{folder_of, name_from, rebase, resolve};
pub use save::{SaveError, contents, replace, save};
pub use stamp::Stamp;
pub use things::MAX_BAY_MM;
pub use things::stock_source;
pub use write::{NotFinite, write};

/// The word in a bay file's `format`.
pub const FORMAT: &str = "hosewright-bay";

/// The version of the format that this program reads and writes.
pub const VERSION: u32 = 1;

/// Files above this are refused, bytes: far above any bay, far below what fills a computer.
pub const MAX_FILE_BYTES: u64 = 64 << 20;
