//! Fields to type into and choose from. A field shows a value, tells when another was given, and
//! says beside itself what is wrong with what was typed; it never changes anything by itself.

mod choice;
mod direction;
mod entry;
mod figure;
mod form;
mod place;
mod quantity;
mod section;
mod text;

pub(in crate::app) use figure::{Loose, Range};
pub(in crate::app) use form::{Field, Form, all};

/// What is shown where several things differ.
const DIFFERS: &str = "differs";
