//! Numbers typed while something is held: they fix a coordinate, the pointer keeps the other.

use eframe::egui::{Context, Event, Key};
use glam::DVec3;

use crate::app::App;
use crate::app::canvas::camera::View;
use crate::units::{Length, LengthUnit};

/// What has been typed for the coordinate to the right and the one up the screen.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Typed {
    text: [String; 2],
    /// Which is being typed.
    at: usize,
}

impl Typed {
    /// Whether anything has been typed.
    pub fn is_empty(&self) -> bool {
        self.text.iter().all(String::is_empty)
    }

    /// More text for the coordinate being typed.
    pub fn push(&mut self, text: &str) {
        self.text[self.at].extend(text.chars().filter(|c| !c.is_control()));
    }

    /// Takes back the last character.
    pub fn back(&mut self) {
        self.text[self.at].pop();
    }

    /// Goes on to the other coordinate.
    pub fn next(&mut self) {
        self.at = 1 - self.at;
    }

    /// What is typed for one of the two, and whether it is the one being typed.
    pub fn of(&self, which: usize) -> (&str, bool) {
        (&self.text[which], self.at == which && !self.is_empty())
    }

    /// The two coordinates as far as they are typed and understood, mm.
    pub fn values(&self, unit: LengthUnit) -> [Option<f64>; 2] {
        [0, 1].map(|i| Length::parse(&self.text[i], unit).ok().map(Length::mm))
    }

    /// Why what is typed is not understood.
    pub fn trouble(&self, unit: LengthUnit) -> Option<String> {
        let typed = self.text.iter().filter(|text| !text.is_empty());
        typed.filter_map(|text| Length::parse(text, unit).err()).map(|e| e.to_string()).next()
    }

    /// A place with the typed coordinates in it.
    pub(super) fn fix(&self, place: DVec3, view: View, unit: LengthUnit) -> DVec3 {
        let mut in_view = view.project(place);
        for (i, value) in self.values(unit).into_iter().enumerate() {
            if let Some(mm) = value {
                in_view[i] = mm;
            }
        }
        view.with(place, in_view)
    }
}

/// A key typed while something is held.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TypedKey {
    /// Text for the coordinate being typed.
    Text(String),
    /// Takes back the last character.
    Back,
    /// Goes on to the other coordinate.
    Next,
    /// Lets go here.
    Done,
}

impl App {
    /// Takes a key typed while something is held.
    pub(in crate::app) fn typed(&mut self, key: &TypedKey) {
        let Some(drag) = &mut self.drag else { return };
        match key {
            TypedKey::Text(text) => drag.typed.push(text),
            TypedKey::Back => drag.typed.back(),
            TypedKey::Next => drag.typed.next(),
            TypedKey::Done => return self.release(),
        }
        self.replace_held();
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
