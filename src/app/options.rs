//! Routing options: copied, named, put in order, taken out. Which of them is in view is no part of
//! the document, but follows it.

use super::App;
use crate::document::Command;
use crate::model::{Bay, Routing, name_or};

/// What an option is called: its name, else its id.
pub(super) fn option_name(option: &Routing) -> &str {
    name_or(&option.name, &option.id)
}

/// `name`, or the first of `name 2`, `name 3`… that no option has.
fn fresh_name(bay: &Bay, name: &str) -> String {
    let taken = |name: &str| bay.options.iter().any(|option| option_name(option) == name);
    let end = name.trim_end_matches(|c: char| c.is_ascii_digit());
    // A copy of "Over 2" is "Over 3".
    let stem = if end.ends_with(' ') { end.trim_end() } else { name };
    let mut names = (2_u32..).map(|number| format!("{stem} {number}"));
    names.find(|name| !taken(name)).unwrap_or_else(|| name.to_owned())
}

impl App {
    fn option_in_view(&self) -> Option<&Routing> {
        self.document.as_ref()?.bay().options.get(self.option)
    }

    /// Adds a copy of the option in view, shows it, and lets its name be typed.
    pub(super) fn duplicate_option(&mut self) {
        let (Some(document), Some(option)) = (&self.document, self.option_in_view()) else {
            return;
        };
        let name = fresh_name(document.bay(), option_name(option));
        let copy = Command::DuplicateOption { option: option.id.clone(), name };
        let count = document.bay().options.len();
        self.apply(&copy);
        let grown = self.document.as_ref().is_some_and(|d| d.bay().options.len() > count);
        if grown {
            self.show_option(self.option + 1);
            self.begin_option_name();
        }
    }

    /// Lets the name of the option in view be typed in its place.
    pub(super) fn begin_option_name(&mut self) {
        let named = self.option_in_view().map(|o| (o.id.clone(), option_name(o).to_owned()));
        self.over.option_name = named;
    }

    pub(super) fn name_option(&mut self, id: &str, name: &str) {
        // Esc may have closed the field first.
        if self.over.option_name.take().is_none() {
            return;
        }
        let bay = self.document.as_ref().map(crate::document::Document::bay);
        let option = bay.and_then(|bay| bay.options.iter().find(|option| option.id == id));
        let Some(option) = option else { return };
        let name = name.trim();
        if name.is_empty() || name == option_name(option) {
            return;
        }
        self.apply(&Command::SetOption {
            id: id.to_owned(),
            new_id: id.to_owned(),
            name: name.to_owned(),
            hose_gap_mm: option.hose_gap_mm,
        });
    }

    pub(super) fn delete_option(&mut self) {
        let Some(id) = self.option_in_view().map(|option| option.id.clone()) else { return };
        self.apply(&Command::DeleteOption(id));
        let count = self.document.as_ref().map_or(0, |d| d.bay().options.len());
        self.turn_to(self.option.min(count.saturating_sub(1)));
    }

    /// Puts the option in view one place earlier or later.
    pub(super) fn move_option(&mut self, later: bool) {
        let Some(id) = self.option_in_view().map(|option| option.id.clone()) else { return };
        let to = if later { self.option + 1 } else { self.option.saturating_sub(1) };
        self.following_option(|app| app.apply(&Command::MoveOption { option: id, to }));
    }

    /// Keeps the option in view in view, wherever a change puts it.
    pub(super) fn following_option(&mut self, change: impl FnOnce(&mut Self)) {
        let before = self.option_in_view().map(|option| option.id.clone());
        change(self);
        let Some(document) = &self.document else { return };
        let options = &document.bay().options;
        let found = before.and_then(|id| document.bay().option_index(&id));
        let place = found.unwrap_or(self.option.min(options.len().saturating_sub(1)));
        // It may be another routing now, or the same one elsewhere: either way nothing that was
        // worked out for the old place holds.
        if place != self.option || found.is_none() {
            self.turn_to(place);
        }
    }

    fn turn_to(&mut self, option: usize) {
        self.option = option;
        self.sketch = None;
        self.chosen.finding = None;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_copy_numbers_itself() {
        let option =
            |name: &str| Routing { id: name.into(), name: name.into(), ..Routing::default() };
        let names = ["Over", "Over 2", "Under 9", "mk2"];
        let bay = Bay { options: names.map(option).into(), ..Bay::default() };
        assert_eq!(fresh_name(&bay, "Over"), "Over 3");
        assert_eq!(fresh_name(&bay, "Over 2"), "Over 3");
        assert_eq!(fresh_name(&bay, "Under 9"), "Under 2");
        assert_eq!(fresh_name(&bay, "mk2"), "mk2 2");
    }
}
