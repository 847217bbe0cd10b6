//! Routings: copied, named, put in order, taken out. Which of them is in view is no part of
//! the document, but follows it.

use super::canvas::thing::Thing;
use super::work::Work;
use crate::document::Command;
use crate::model::{Bay, Routing, name_or};

/// What a routing is called: its name, else its id.
pub(super) fn routing_name(routing: &Routing) -> &str {
    name_or(&routing.name, &routing.id)
}

/// `name`, or the first of `name 2`, `name 3`… that no routing has.
fn fresh_name(bay: &Bay, name: &str) -> String {
    let taken = |name: &str| bay.routings.iter().any(|routing| routing_name(routing) == name);
    let end = name.trim_end_matches(|c: char| c.is_ascii_digit());
    // A copy of "Over 2" is "Over 3".
    let stem = if end.ends_with(' ') { end.trim_end() } else { name };
    let mut names = (2_u32..).map(|number| format!("{stem} {number}"));
    names.find(|name| !taken(name)).unwrap_or_else(|| name.to_owned())
}

impl Work {
    /// Adds a copy of the routing in view, shows it, and lets its name be typed.
    pub(super) fn duplicate_routing(&mut self) {
        let (Some(document), Some(routing)) = (&self.document, self.routing_in_view()) else {
            return;
        };
        let name = fresh_name(document.bay(), routing_name(routing));
        let copy = Command::DuplicateRouting { routing: routing.id.clone(), name };
        let count = document.bay().routings.len();
        self.apply(&copy);
        let grown = self.bay().is_some_and(|bay| bay.routings.len() > count);
        if grown {
            self.show_routing(self.routing + 1);
            self.begin_routing_name();
        }
    }

    /// Lets the name of the routing in view be typed in its place.
    pub(super) fn begin_routing_name(&mut self) {
        let named = self.routing_in_view().map(|o| (o.id.clone(), routing_name(o).to_owned()));
        self.naming = named;
    }

    pub(super) fn name_routing(&mut self, id: &str, name: &str) {
        // Esc may have closed the field first.
        if self.naming.take().is_none() {
            return;
        }
        let bay = self.bay();
        let routing = bay.and_then(|bay| bay.routings.iter().find(|routing| routing.id == id));
        let Some(routing) = routing else { return };
        let name = name.trim();
        if name.is_empty() || name == routing_name(routing) {
            return;
        }
        self.apply(&Command::SetRouting {
            id: id.to_owned(),
            new_id: id.to_owned(),
            name: name.to_owned(),
            hose_clearance_mm: routing.hose_clearance_mm,
        });
    }

    pub(super) fn delete_routing(&mut self) {
        let Some(id) = self.routing_in_view().map(|routing| routing.id.clone()) else { return };
        self.apply(&Command::DeleteRouting(id));
        let count = self.bay().map_or(0, |bay| bay.routings.len());
        self.turn_to(self.routing.min(count.saturating_sub(1)));
    }

    /// Puts the routing in view one place earlier or later.
    pub(super) fn move_routing(&mut self, later: bool) {
        let Some(id) = self.routing_in_view().map(|routing| routing.id.clone()) else { return };
        let to = if later { self.routing + 1 } else { self.routing.saturating_sub(1) };
        self.following_routing(|app| app.apply(&Command::MoveRouting { routing: id, to }));
    }

    /// Selects a hose in the routing in view; where that has none of this id, in the first that has.
    pub(super) fn select_compared(&mut self, run: &str) {
        let Some(document) = &self.document else { return };
        let routings = &document.bay().routings;
        let has = |place: usize| {
            routings.get(place).is_some_and(|routing| routing.runs.iter().any(|r| r.id == run))
        };
        let place =
            std::iter::once(self.routing).chain(0..routings.len()).find(|place| has(*place));
        if let Some(place) = place {
            self.show_routing(place);
            self.select_thing(Thing::Hose(run.to_owned()));
        }
    }

    /// Keeps the routing in view in view, wherever a change puts it.
    pub(super) fn following_routing(&mut self, change: impl FnOnce(&mut Self)) {
        let before = self.routing_in_view().map(|routing| routing.id.clone());
        change(self);
        let Some(document) = &self.document else { return };
        let routings = &document.bay().routings;
        let found = before.and_then(|id| document.bay().routing_index(&id));
        let place = found.unwrap_or(self.routing.min(routings.len().saturating_sub(1)));
        // It may be another routing now, or the same one elsewhere: either way nothing that was
        // calculated for the old place holds.
        if place != self.routing || found.is_none() {
            self.turn_to(place);
        }
    }

    fn turn_to(&mut self, routing: usize) {
        self.routing = routing;
        self.sketch = None;
        self.selected.finding = None;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_copy_numbers_itself() {
        let routing =
            |name: &str| Routing { id: name.into(), name: name.into(), ..Routing::default() };
        let names = ["Over", "Over 2", "Under 9", "mk2"];
        let bay = Bay { routings: names.map(routing).into(), ..Bay::default() };
        assert_eq!(fresh_name(&bay, "Over"), "Over 3");
        assert_eq!(fresh_name(&bay, "Over 2"), "Over 3");
        assert_eq!(fresh_name(&bay, "Under 9"), "Under 2");
        assert_eq!(fresh_name(&bay, "mk2"), "mk2 2");
    }
}
