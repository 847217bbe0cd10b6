//! The finder: type a few letters, and what can be done or looked at is listed by its name.

mod entries;
mod rank;

use eframe::egui::{
    Align2, Area, FontSelection, Id, Key, Modal, RichText, Role, ScrollArea, Sense, TextEdit, Ui,
    WidgetInfo, vec2,
};

use super::actions::Action;
use super::theme::{self, size};
use crate::app::seen::Seen;
use entries::Entry;

/// The finder while it is open.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Finder {
    typed: String,
    /// Place in the list of what Enter takes.
    at: usize,
}

/// As many as can be read at a glance; what is farther down wants another letter.
const MOST: usize = 40;
/// Height of a line, points.
const ROW: f32 = 30.0;

pub(super) fn show(ui: &mut Ui, seen: &Seen<'_>, finder: &mut Finder, actions: &mut Vec<Action>) {
    let window = ui.ctx().content_rect().size();
    let place = Area::new(Id::unique("finder"))
        .anchor(Align2::CENTER_TOP, [0.0, (window.y * 0.14).round()]);
    let modal = Modal::new(Id::unique("finder")).area(place).show(ui, |ui| {
        ui.set_width((window.x - 80.0).min(560.0));
        let (up, down, enter) = ui.input_mut(|input| {
            let mut taken = |key| input.consume_key(eframe::egui::Modifiers::NONE, key);
            (taken(Key::ArrowUp), taken(Key::ArrowDown), taken(Key::Enter))
        });
        let field = TextEdit::singleline(&mut finder.typed)
            .hint_text("Find a command, a hose, a port, an obstacle\u{2026}")
            .font(FontSelection::FontId(theme::font(size::HEADING)))
            .desired_width(f32::INFINITY);
        let field = ui.add(field).accessible_name("Find");
        let field = field.on_hover_text("A few letters in their order; arrow keys, then Enter");
        field.request_focus();
        if field.changed() {
            finder.at = 0;
        }
        let found = entries::found(ui.ctx(), seen, &finder.typed);
        let count = found.len().min(MOST);
        if count == 0 {
            let colours = theme::palette(ui);
            ui.label(RichText::new("Nothing found").color(colours.soft));
            return;
        }
        finder.at = match (up, down) {
            (true, _) => (finder.at + count - 1) % count,
            (_, true) => (finder.at + 1) % count,
            _ => finder.at.min(count - 1),
        };
        let moved = up || down || field.changed();
        let height = (count as f32 * ROW).min((window.y * 0.6).min(420.0));
        let room = ScrollArea::vertical().max_height(height).min_scrolled_height(height);
        room.auto_shrink([false, false]).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            for (index, entry) in found.iter().take(MOST).enumerate() {
                let selected = index == finder.at;
                let clicked = row(ui, entry, selected, selected && moved);
                if entry.can && (clicked || (selected && enter)) {
                    actions.push(Action::CloseFinder);
                    actions.push(entry.action.clone());
                }
            }
        });
    });
    if modal.should_close() {
        actions.push(Action::CloseFinder);
    }
}

/// One line of the list; says whether it was clicked.
fn row(ui: &mut Ui, entry: &Entry, selected: bool, into_sight: bool) -> bool {
    let colours = theme::palette(ui);
    let width = ui.available_width();
    let (rect, line) = ui.allocate_exact_size(vec2(width, ROW), Sense::click());
    line.widget_info(|| {
        WidgetInfo::selected(
            Role::ListBoxOption,
            entry.can,
            selected,
            format!("{}, {}", entry.name, entry.kind),
        )
    });
    if into_sight {
        line.scroll_to_me(None);
    }
    if selected || line.hovered() {
        let fill = if selected { colours.accent_faint } else { colours.hover };
        ui.painter().rect_filled(rect, 4.0, fill);
    }
    let ink = if entry.can { colours.ink } else { colours.soft };
    let inside = rect.shrink2(vec2(10.0, 0.0));
    let right = if entry.can { entry.aside.clone() } else { "not just now".to_owned() };
    let painter = ui.painter().with_clip_rect(rect);
    let aside = painter.text(
        inside.right_center(),
        Align2::RIGHT_CENTER,
        right,
        theme::font(size::SMALL),
        colours.soft,
    );
    let names = painter.with_clip_rect(rect.with_max_x(aside.left() - 8.0));
    let name = names.text(
        inside.left_center(),
        Align2::LEFT_CENTER,
        &entry.name,
        theme::font(size::GROUP),
        ink,
    );
    let kind = vec2(10.0, 0.0);
    names.text(
        name.right_center() + kind,
        Align2::LEFT_CENTER,
        entry.kind,
        theme::font(size::SMALL),
        colours.soft,
    );
    line.on_hover_text(&entry.tip).clicked()
}
