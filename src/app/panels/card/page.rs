//! The pages of the card: the result of the hose, the figures of the selection, of the routing, of the bay.

use eframe::egui::{Button, Id, RichText, Ui, vec2};

use crate::app::canvas::thing::Thing;
use crate::app::panels::properties::{self, Of};
use crate::app::seen::Seen;
use crate::app::theme::{self, size};

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub(super) enum Page {
    /// What is known of the hose.
    #[default]
    Result,
    /// What can be changed of the selection.
    Selection,
    Routing,
    Bay,
}

impl Page {
    /// Whose figures its form has.
    pub(super) fn of_form(self) -> Of {
        match self {
            Self::Result | Self::Selection => Of::Selection,
            Self::Routing => Of::Routing,
            Self::Bay => Of::Bay,
        }
    }
}

/// What the card remembers from frame to frame.
#[derive(Debug, Clone, PartialEq, Default)]
struct Seat {
    page: Page,
    /// The page last shown of a hose: another hose comes up with it.
    of_hose: Page,
    things: Vec<Thing>,
    finding: Option<usize>,
    /// Whether a value that was refused stands in the form of the selection.
    has_refused: bool,
}

impl Seat {
    /// Another selection brings up its own page; a finding that is turned to, the hose's result.
    fn follow_selection(&mut self, things: &[Thing], finding: Option<usize>) {
        let is_hose = is_one_hose(things);
        if self.things != things {
            self.things = things.to_vec();
            self.has_refused = false;
            self.page = match things {
                [] => Page::Bay,
                _ if is_hose => self.of_hose,
                _ => Page::Selection,
            };
        }
        if self.finding != finding {
            self.finding = finding;
            if is_hose && finding.is_some() {
                self.page = Page::Result;
            }
        }
        if self.page == Page::Result && !is_hose {
            self.page = if things.is_empty() { Page::Bay } else { Page::Selection };
        }
        if self.page == Page::Selection && things.is_empty() {
            self.page = Page::Bay;
        }
    }

    fn turn_to(&mut self, page: Page) {
        self.page = page;
        if is_one_hose(&self.things) && matches!(page, Page::Result | Page::Selection) {
            self.of_hose = page;
        }
    }
}

fn is_one_hose(things: &[Thing]) -> bool {
    matches!(things, [Thing::Hose(_)])
}

/// The tabs; says which page is shown.
pub(super) fn choose(ui: &mut Ui, seen: &Seen<'_>, things: &[Thing]) -> Page {
    let id = Id::unique("page of the card");
    let colours = theme::palette(ui);
    let mut seat: Seat = ui.data(|data| data.get_temp(id)).unwrap_or_default();
    seat.follow_selection(things, seen.work.selected.finding);
    if seat.page == Page::Selection {
        seat.has_refused = properties::has_refused(ui);
    }
    let mark = if seat.has_refused { " \u{25a0}" } else { "" };
    let edit = format!("Edit {}{mark}", properties::headline(things));
    let tabs = [
        (Page::Result, "Result", "What is known of the hose", is_one_hose(things)),
        (Page::Selection, edit.as_str(), "Change the selection by typing", !things.is_empty()),
        (Page::Routing, "Routing", "The figures of the routing in view", true),
        (Page::Bay, "Bay", "The figures of the whole bay, and all that is in it", true),
    ];
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0;
        ui.spacing_mut().button_padding = vec2(8.0, 3.0);
        for (page, text, tip, _) in tabs.into_iter().filter(|(.., offered)| *offered) {
            let is_shown = page == seat.page;
            let colour = if is_shown { colours.accent_text } else { colours.soft };
            let lettering = RichText::new(text).size(size::SMALL + 0.5).color(colour);
            let button = ui.add(Button::selectable(is_shown, lettering).truncate());
            if button.on_hover_text(tip).clicked() {
                seat.turn_to(page);
            }
        }
    });
    ui.add_space(4.0);
    let page = seat.page;
    ui.data_mut(|data| data.insert_temp(id, seat));
    page
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hose(id: &str) -> Vec<Thing> {
        vec![Thing::Hose(id.to_owned())]
    }

    #[test]
    fn another_hose_comes_up_with_the_page_last_shown_of_one() {
        let mut seat = Seat::default();
        seat.follow_selection(&hose("a"), None);
        assert_eq!(seat.page, Page::Result);
        seat.turn_to(Page::Selection);
        seat.follow_selection(&hose("b"), None);
        assert_eq!(seat.page, Page::Selection);
        seat.follow_selection(&[Thing::Port("p".to_owned())], None);
        assert_eq!(seat.page, Page::Selection);
        seat.turn_to(Page::Bay);
        seat.follow_selection(&hose("a"), None);
        assert_eq!(seat.page, Page::Selection);
    }

    #[test]
    fn a_finding_that_is_turned_to_shows_the_result_and_no_port_has_one() {
        let mut seat = Seat::default();
        seat.follow_selection(&hose("a"), None);
        seat.turn_to(Page::Selection);
        seat.follow_selection(&hose("a"), Some(3));
        assert_eq!(seat.page, Page::Result);
        seat.turn_to(Page::Selection);
        seat.follow_selection(&hose("a"), Some(3));
        assert_eq!(seat.page, Page::Selection, "only when it is turned to");
        seat.follow_selection(&[Thing::Port("p".to_owned())], Some(4));
        assert_eq!(seat.page, Page::Selection);
        seat.follow_selection(&[], None);
        assert_eq!(seat.page, Page::Bay);
    }
}
