//! The bay as something that is opened, changed and saved. What is selected, hovered or looked at
//! is not in it.

mod command;
#[allow(clippy::module_inception, reason = "the module's one type; its files stay small")]
mod document;
pub mod file;
mod history;
pub mod parts;

pub use command::{Command, CommandError, Item, fresh_id};
pub use document::Document;
pub use history::History;
