//! The little box to type a name in.

use eframe::egui::{Id, Key, Modal, TextEdit, Ui, text::CCursorRange};

use crate::app::actions::{Action, Edit};
use crate::app::canvas::thing::Thing;

pub(in crate::app) fn rename(
    ui: &mut Ui,
    thing: &Thing,
    name: &mut String,
    actions: &mut Vec<Action>,
) {
    let modal = Modal::new(Id::unique("rename")).show(ui, |ui| {
        ui.set_width(300.0);
        let what = match thing {
            Thing::Port(_) => "port",
            Thing::Obstacle(_) => "obstacle",
            Thing::MovingGroup(_) => "group",
            Thing::Hose(_) | Thing::Via { .. } => "hose",
        };
        let label = ui.label(format!("Name of the {what}"));
        let field_id = Id::unique(("renaming", thing));
        let is_new = ui.ctx().read_response(field_id).is_none();
        let field = TextEdit::singleline(name).id(field_id).desired_width(f32::INFINITY);
        let mut shown = field.show(ui);
        let field = shown.response.response.labelled_by(label.id);
        if is_new {
            // What is typed takes the place of the old name.
            shown.state.cursor.set_char_range(Some(CCursorRange::select_all(&shown.galley)));
            shown.state.store(ui.ctx(), field_id);
        }
        let entered = field.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter));
        if ui.memory(|memory| memory.focused().is_none()) && !entered {
            field.request_focus();
        }
        ui.horizontal(|ui| {
            if ui.button("Rename").clicked() || entered {
                actions.push(Action::Edit(Edit::Renamed(thing.clone(), name.clone())));
            }
            if ui.button("Cancel").clicked() {
                actions.push(Action::Edit(Edit::StopRenaming));
            }
        });
    });
    if modal.should_close() {
        actions.push(Action::Edit(Edit::StopRenaming));
    }
}
