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
pub(in crate::app) use section::folded;

use eframe::egui::{Frame, Id, Margin, Modal, Ui};

/// What is shown where several things differ.
const DIFFERS: &str = "differs";

/// A box in the middle of the window that keeps everything else back; it has room about its text.
pub(in crate::app) fn dialog(ui: &Ui, name: &'static str) -> Modal {
    Modal::new(Id::unique(name)).frame(Frame::popup(ui.style()).inner_margin(Margin::same(18)))
}
