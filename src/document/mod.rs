//! The only mutable thing: a bay, its file, its history. What is selected, hovered or looked at is
//! not in it.

mod command;
#[allow(clippy::module_inception, reason = "the module's one type; its files stay small")]
mod document;
mod history;

pub use command::{Command, CommandError};
pub use document::Document;
pub use history::History;
