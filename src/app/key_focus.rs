//! Where the keys go: they change the bay only while the user is at the drawing. What is typed or pasted past
//! a field changes nothing.

use eframe::egui::{Context, Event, Id, Rect};

use super::actions::{Action, Ask, Edit};

/// What is said when a key is held back.
pub(super) const CLICK_FIRST: &str =
    "Click in a view first: keys change the bay only while you are at the drawing";

/// Whether the user is at the drawing: he pressed there last, or the keyboard's focus is there.
#[derive(Debug, Default)]
pub(super) struct KeyFocus {
    /// The views and the bench strip, as last shown.
    places: [Option<Rect>; 2],
    is_elsewhere: bool,
    /// What had the keyboard's focus in the frame before.
    focused: Option<Id>,
}

impl KeyFocus {
    /// Before the keys of a frame are read.
    pub(super) fn listen(&mut self, ctx: &Context) {
        let is_in = |at| self.places.iter().flatten().any(|place| place.contains(at));
        let pressed = ctx.input(|input| {
            input.events.iter().rev().find_map(|event| match event {
                Event::PointerButton { pos, pressed: true, .. } => Some(*pos),
                _ => None,
            })
        });
        let focused = ctx.memory(eframe::egui::Memory::focused);
        let is_new = focused.is_some() && focused != std::mem::replace(&mut self.focused, focused);
        let entered = focused.filter(|_| is_new).and_then(|id| ctx.read_response(id));
        if let Some(at) = pressed.or(entered.map(|response| response.rect.center())) {
            self.is_elsewhere = !is_in(at);
        }
    }

    /// Where the views are, points; none before they are shown.
    pub(super) fn views(&self) -> Option<Rect> {
        self.places[0]
    }

    pub(super) fn show_views(&mut self, place: Rect) {
        self.places[0] = Some(place);
    }

    pub(super) fn show_strip(&mut self, place: Rect) {
        self.places[1] = Some(place);
    }

    /// Takes away what would change the bay from elsewhere; says whether there was any.
    pub(super) fn hold_back(&self, actions: &mut Vec<Action>) -> bool {
        let before = actions.len();
        if self.is_elsewhere {
            actions.retain(|action| !changes_bay(action));
        }
        actions.len() < before
    }
}

fn changes_bay(action: &Action) -> bool {
    matches!(
        action,
        Action::Edit(Edit::Paste)
            | Action::Ask(
                Ask::Delete
                    | Ask::Duplicate
                    | Ask::MirrorCopy
                    | Ask::Mirror
                    | Ask::NewGroup
                    | Ask::DuplicateRouting
            )
    )
}
