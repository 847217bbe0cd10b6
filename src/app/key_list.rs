//! The list of keys and gestures.

use eframe::egui::os::OperatingSystem;
use eframe::egui::{Context, Grid, KeyboardShortcut, RichText, ScrollArea, Ui, vec2};

use super::actions::{Action, Ask};
use super::groups::Group;
use super::theme::{self, size};
use super::widgets::{dialog, usual};

/// Pointer and keys that are in no menu, by where they count.
const GESTURES: [(&str, &[(&str, &str)]); 5] = [
    (
        "In a view",
        &[
            ("Click", "select; with Shift: add or take out"),
            ("Drag on paper", "select what is inside; with Shift: add it"),
            ("Drag a thing", "move it, and the selection it is part of"),
            ("Drag a hose", "pull a bend out of it"),
            ("Double-click a thing", "rename it"),
            ("Double-click on paper", "show the whole bay"),
            ("Right-click", "what can be done here"),
            ("Wheel, pinch", "zoom about the pointer"),
            ("Drag with the middle or right button", "pan; or Space and drag"),
            ("Tab, Shift+Tab", "next, previous thing or field; Enter selects"),
        ],
    ),
    (
        "While you drag",
        &[
            ("Number", "fix the coordinate; Tab: the other one"),
            ("Enter, Esc", "finish, cancel"),
            ("Alt or Ctrl", "no snapping"),
        ],
    ),
    (
        "Selection",
        &[
            ("Arrow keys", "move 1/16 in or 1 mm; Shift ten times, Alt a tenth"),
            ("Ctrl+C, Ctrl+V", "copy, paste"),
        ],
    ),
    (
        "3-D view",
        &[
            ("Drag", "turn; with Shift or Space: pan"),
            ("Arrow keys", "turn by 15\u{b0} while it has the focus"),
        ],
    ),
    (
        "Bench strip",
        &[
            ("Click", "select the hose, a clamp or a finding there"),
            ("Drag a clamp", "move slack from one side to the other"),
            ("Left, right", "1/16 in or 1 mm; Shift ten times"),
            ("Home, End, Enter", "to the cut ends, select"),
        ],
    ),
];

pub(super) fn show(ui: &mut Ui, actions: &mut Vec<Action>) {
    let window = ui.ctx().content_rect().size();
    let modal = dialog(ui, "keys").show(ui, |ui| {
        let columns = if window.x > 1000.0 { 3 } else { 2 };
        ui.set_width((window.x - 80.0).min(if columns == 3 { 1180.0 } else { 800.0 }));
        ui.heading("Keys and gestures");
        ui.add_space(6.0);
        // A height that does not follow what is in it: the box stands still from its first frame on.
        let height = (window.y - 170.0).clamp(200.0, 500.0);
        let room = ScrollArea::vertical().auto_shrink([false, false]);
        room.max_height(height).min_scrolled_height(height).show(ui, |ui| {
            ui.spacing_mut().interact_size.y = 16.0;
            ui.columns(columns, |columns| {
                let last = columns.len() - 1;
                for (index, (group, title)) in Group::ALL.into_iter().enumerate() {
                    let place = [0, 1, 0, 1, 0, 0][index].min(last);
                    keys_of(&mut columns[place], group, title);
                }
                gestures(&mut columns[last]);
            });
        });
        ui.add_space(6.0);
        let close = ui.button("Close").on_hover_text("Back to the drawing (Enter, Esc)");
        usual(&close);
        close.clicked()
    });
    if modal.inner || modal.should_close() {
        actions.push(Action::ClosePage);
    }
}

fn keys_of(ui: &mut Ui, group: Group, title: &str) {
    let colours = theme::palette(ui);
    ui.label(RichText::new(title).color(colours.accent_text));
    Grid::new(("keys", title)).num_columns(2).spacing([14.0, 3.0]).show(ui, |ui| {
        for spec in group.requests().filter(|spec| !spec.keys.is_empty()) {
            let keys: Vec<_> = spec.keys.iter().map(|key| key_words(ui.ctx(), *key)).collect();
            ui.label(RichText::new(keys.join(", ")).size(size::SMALL));
            let word = spec.text.trim_end_matches('\u{2026}');
            let word = ui.label(RichText::new(word).color(colours.soft).size(size::SMALL));
            word.on_hover_text(spec.tooltip);
            ui.end_row();
        }
    });
    ui.add_space(10.0);
}

/// A key as it stands on the keyboard: "Ctrl++".
pub(super) fn key_words(ctx: &Context, key: KeyboardShortcut) -> String {
    let words = ctx.format_shortcut(&key);
    let name = key.logical_key.name();
    let sign = match name {
        "Plus" => "+",
        "Minus" => "\u{2212}",
        "Equals" => "=",
        "Questionmark" => "?",
        _ => return words,
    };
    words.strip_suffix(name).map_or_else(|| words.clone(), |held| format!("{held}{sign}"))
}

fn gestures(ui: &mut Ui) {
    let colours = theme::palette(ui);
    ui.spacing_mut().item_spacing.y = 3.0;
    for (place, rows) in GESTURES {
        ui.label(RichText::new(place).color(colours.accent_text));
        for (gesture, what) in rows {
            ui.horizontal_wrapped(|ui| {
                ui.spacing_mut().item_spacing = vec2(8.0, 1.0);
                ui.label(RichText::new(mac(ui.ctx(), gesture)).size(size::SMALL));
                ui.label(RichText::new(*what).color(colours.soft).size(size::SMALL));
            });
        }
        ui.add_space(10.0);
    }
    let hint = format!("{} finds everything by its name", Ask::Finder.spec().text);
    ui.label(RichText::new(hint).color(colours.soft).size(size::SMALL));
}

/// Ctrl is Cmd on a Mac.
fn mac(ctx: &Context, keys: &str) -> String {
    if ctx.os() == OperatingSystem::Mac { keys.replace("Ctrl", "Cmd") } else { keys.to_owned() }
}
