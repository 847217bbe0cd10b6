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

use eframe::egui::text::CCursorRange;
use eframe::egui::{Frame, Id, Margin, Modal, Response, TextEdit, Ui};

/// What is shown where several things differ.
const DIFFERS: &str = "differs";

/// A field whose text is marked when Tab leads to it, as in the forms.
pub(in crate::app) fn marked_when_entered(ui: &mut Ui, field: TextEdit<'_>) -> Response {
    let mut shown = field.show(ui);
    let response = shown.response.response;
    if response.gained_focus() && !ui.input(|input| input.pointer.any_pressed()) {
        shown.state.cursor.set_char_range(Some(CCursorRange::select_all(&shown.galley)));
        shown.state.store(ui.ctx(), response.id);
    }
    response
}

/// The usual answer of a dialog has the keyboard while nothing else has: Enter gives it.
pub(in crate::app) fn usual(button: &Response) {
    if button.enabled() && button.ctx.memory(|memory| memory.focused().is_none()) {
        button.request_focus();
    }
}

/// A box in the middle of the window that keeps everything else back; it has room about its text.
pub(in crate::app) fn dialog(ui: &Ui, name: &'static str) -> Modal {
    Modal::new(Id::unique(name)).frame(Frame::popup(ui.style()).inner_margin(Margin::same(18)))
}
