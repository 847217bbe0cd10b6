//! Numbers typed while something is held: they fix a coordinate, the pointer keeps the other.

use eframe::egui::{Context, Event, Key};

use crate::app::actions::TypedKey;
use crate::app::tools::Hand;
use crate::app::work::Work;

impl Hand {
    /// Takes a key typed while something is held.
    pub(in crate::app) fn typed(&mut self, work: &mut Work, key: &TypedKey) {
        let Some(drag) = &mut work.drag else { return };
        match key {
            TypedKey::Text(text) => drag.typed.push(text),
            TypedKey::Back => drag.typed.back(),
            TypedKey::Next => drag.typed.next(),
            TypedKey::Done => return self.release(work),
        }
        self.replace_held(work);
    }
}

/// The keys typed while something is held, taken out of the input: they are numbers then, not
/// requests.
pub(in crate::app) fn typed_keys(ctx: &Context) -> Vec<TypedKey> {
    ctx.input_mut(|input| {
        let mut keys = Vec::new();
        input.events.retain(|event| {
            let key = match event {
                Event::Text(text) => Some(TypedKey::Text(text.clone())),
                Event::Key { key: Key::Backspace, pressed: true, .. } => Some(TypedKey::Back),
                Event::Key { key: Key::Tab, pressed: true, .. } => Some(TypedKey::Next),
                Event::Key { key: Key::Enter, pressed: true, .. } => Some(TypedKey::Done),
                // The same key comes as text too.
                Event::Key { key, modifiers, .. } if modifiers.is_none() => {
                    return matches!(key, Key::Escape | Key::Space);
                }
                _ => return true,
            };
            keys.extend(key);
            false
        });
        keys
    })
}
