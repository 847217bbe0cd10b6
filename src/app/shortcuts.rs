//! Keys to requests, by the table of actions.

use eframe::egui::{Context, Event, Key, KeyboardShortcut, Modifiers, Popup};

use super::actions::{Action, Ask, Edit, TABLE};

/// The requests whose keys were pressed; single letters are silent while text is edited.
pub(super) fn pressed(ctx: &Context, actions: &mut Vec<Action>) {
    let mut keys: Vec<(Ask, KeyboardShortcut)> =
        TABLE.iter().flat_map(|spec| spec.keys.iter().map(|key| (spec.ask, *key))).collect();
    // Shift and Alt in excess are ignored when keys are matched: the most held down goes first.
    keys.sort_by_key(|(_, key)| std::cmp::Reverse(held(key.modifiers)));
    let editing = ctx.text_edit_focused();
    let menu = Popup::is_any_open(ctx);
    for (ask, key) in keys {
        if editing && belongs_to_text(key) {
            continue;
        }
        // An open menu is closed first.
        if menu && ask == Ask::Escape {
            continue;
        }
        if ctx.input_mut(|input| input.consume_shortcut(&key)) {
            actions.push(Action::Ask(ask));
        }
    }
}

/// Whether a text that is edited has its own use for a key: all of it is marked with Ctrl+A.
fn belongs_to_text(key: KeyboardShortcut) -> bool {
    // No text is made of function keys.
    if key.logical_key.name().len() > 1 && key.logical_key.name().starts_with('F') {
        return false;
    }
    let plain = key.modifiers == Modifiers::NONE || key.modifiers == Modifiers::SHIFT;
    plain || (key.modifiers == Modifiers::COMMAND && key.logical_key == Key::A)
}

/// Copying and putting in again, which come as events of their own; a text that is edited keeps them.
pub(super) fn clipboard(ctx: &Context, actions: &mut Vec<Action>) {
    if ctx.text_edit_focused() {
        return;
    }
    ctx.input(|input| {
        for event in &input.events {
            match event {
                Event::Copy => actions.push(Action::Edit(Edit::Copy)),
                Event::Paste(_) => actions.push(Action::Edit(Edit::Paste)),
                _ => {}
            }
        }
    });
}

fn held(modifiers: Modifiers) -> u8 {
    [modifiers.shift, modifiers.alt, modifiers.command, modifiers.ctrl]
        .into_iter()
        .map(u8::from)
        .sum()
}
