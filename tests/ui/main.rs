//! The window, driven as a user would: by names, pointer and keys. No display is needed.

mod editing;
mod files;
mod looking;
mod pictures;
mod world;
