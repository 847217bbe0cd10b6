//! The bay as something that is opened, changed and saved.

pub mod file;
