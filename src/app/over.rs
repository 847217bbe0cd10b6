//! What stands over the window: questions, the finder, the lists of keys, work under way.

use eframe::egui::Ui;

use super::actions::Action;
use super::files::{self, Files};
use super::finder::{self, Finder};
use super::recovery::{self, Offer};
use super::seen::Seen;
use super::settings::Placed;
use super::{about, key_list};

/// The state of it.
#[derive(Default)]
pub(super) struct Over {
    pub(super) offer: Offer,
    pub(super) finder: Option<Finder>,
    pub(super) page: Option<Page>,
    /// Where the window is to go once the screen is known.
    pub(super) to_place: Option<Placed>,
}

/// A page to read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Page {
    /// Keys and gestures.
    Keys,
    /// Version and licences.
    About,
}

impl Over {
    /// Whether something on top keeps the keys to itself.
    pub(super) fn is_open(&self) -> bool {
        self.offer.is_open() || self.finder.is_some() || self.page.is_some()
    }
}

impl Over {
    /// `finder`: it is being typed in.
    pub(super) fn show(
        &self,
        seen: &Seen<'_>,
        files: &Files,
        finder: Option<&mut Finder>,
        ui: &mut Ui,
        actions: &mut Vec<Action>,
    ) {
        if let Some(opening) = &files.opening {
            files::show_opening(ui, opening, actions);
        } else if let Some(writing) = &files.template {
            files::show_template(ui, writing, actions);
        } else if let Some(path) = &files.disk_change {
            files::show_disk_change(ui, path, actions);
        } else if self.offer.is_open() && seen.work.trouble.is_none() {
            recovery::show_offer(ui, &self.offer, actions);
        } else if let Some(finder) = finder {
            finder::show(ui, seen, finder, actions);
        } else {
            match self.page {
                Some(Page::Keys) => key_list::show(ui, actions),
                Some(Page::About) => about::show(ui, actions),
                None => {}
            }
        }
    }
}
