//! The routings of the bay: one button each, with its menu; the one that is named becomes a field.

use eframe::egui::{
    Button, Id, Key, Response, TextEdit, Ui, containers::menu::MenuButton, text::CCursorRange,
};

use super::{entry, hint};
use crate::app::actions::{Action, Ask};
use crate::app::routings::routing_name;
use crate::app::seen::Seen;
use crate::app::words;
use crate::model::routing_letter;

/// What can be done with a routing, in the order of its menu.
const DEEDS: [Ask; 5] = [
    Ask::DuplicateRouting,
    Ask::RenameRouting,
    Ask::RoutingEarlier,
    Ask::RoutingLater,
    Ask::DeleteRouting,
];

/// A window with room for names of routings, points.
const ROOM_FOR_NAMES: f32 = 1000.0;

/// Stands right to left: what is shown first is last here.
pub(super) fn routings(
    ui: &mut Ui,
    seen: &Seen<'_>,
    naming: &mut Option<(String, String)>,
    actions: &mut Vec<Action>,
) {
    let Some(bay) = seen.work.document.as_ref().map(|document| document.bay().clone()) else {
        return;
    };
    let window = ui.ctx().content_rect().width();
    let most = ((window - 1090.0) / 9.0 / bay.routings.len() as f32).clamp(6.0, 56.0) as usize;
    // In a small window the letters alone; the names are told where the pointer is.
    let most = if window < ROOM_FOR_NAMES { 0 } else { most };
    let menu = MenuButton::new("\u{25be}").ui(ui, |ui| deeds(ui, seen, actions)).0;
    let menu = menu.accessible_name("Routings menu");
    menu.on_hover_text("Copy, name, order and delete routings");
    for (index, routing) in bay.routings.iter().enumerate().rev() {
        let letter = routing_letter(index);
        let shown = index == seen.work.routing;
        if let Some((id, name)) = naming
            && *id == routing.id
        {
            name_field(ui, id, name, actions);
            continue;
        }
        let name = routing_name(routing);
        let text = match most {
            0 => letter.to_string(),
            _ => format!("{letter}  {}", words::at_most(name, most)),
        };
        let button = ui.add(Button::selectable(shown, text).frame_when_inactive(true));
        let more = if shown { "Double-click to name it" } else { "Click to show it" };
        let button =
            button.on_hover_text(format!("{name}. {more}. {}", hint(ui, Ask::NextRouting)));
        pressed(&button, index, shown, actions);
        button.context_menu(|ui| {
            if shown {
                deeds(ui, seen, actions);
            } else if ui.button("Show this routing").on_hover_text("Look at this routing").clicked()
            {
                actions.push(Action::ShowRouting(index));
                ui.close();
            }
        });
    }
}

fn pressed(button: &Response, index: usize, shown: bool, actions: &mut Vec<Action>) {
    if shown && button.double_clicked() {
        actions.push(Action::Ask(Ask::RenameRouting));
    } else if button.clicked() {
        actions.push(Action::ShowRouting(index));
    }
}

/// The menu of the routing in view.
pub(super) fn deeds(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    ui.set_min_width(230.0);
    for ask in [Ask::NextRouting, Ask::Compare, Ask::ComparePage] {
        entry(ui, seen, ask, ask.spec().text, actions);
    }
    ui.separator();
    for ask in DEEDS {
        entry(ui, seen, ask, ask.spec().text, actions);
    }
}

/// Enter keeps the name, Esc the old one; so does looking elsewhere, for the first.
fn name_field(ui: &mut Ui, id: &str, name: &mut String, actions: &mut Vec<Action>) {
    let field_id = Id::unique(("routing name", id));
    let seen = ui.ctx().read_response(field_id).is_some();
    let mut shown = TextEdit::singleline(name).id(field_id).desired_width(200.0).show(ui);
    let field = shown.response.response.accessible_name("Name of the routing");
    let field = field.on_hover_text("Enter keeps the name, Esc the old one");
    if !seen {
        field.request_focus();
        // What is typed takes the place of the old name.
        shown.state.cursor.set_char_range(Some(CCursorRange::select_all(&shown.galley)));
        shown.state.store(ui.ctx(), field_id);
    } else if field.lost_focus() {
        actions.push(if ui.input(|input| input.key_pressed(Key::Escape)) {
            Action::StopNamingRouting
        } else {
            Action::NameRouting(id.to_owned(), name.clone())
        });
    }
}
