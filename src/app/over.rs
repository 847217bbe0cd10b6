//! What stands over the window: questions, the finder, the lists of keys, work under way.

use std::path::PathBuf;

use eframe::egui::{Frame, Id, Margin, Modal, Ui};

use super::actions::Action;
use super::files::{self, Opening, Writing};
use super::finder::{self, Finder};
use super::recovery::{self, Offer};
use super::settings::Placed;
use super::{App, about, key_list};
use crate::document::file::Stamp;

/// The state of it.
#[derive(Default)]
pub(super) struct Over {
    pub(super) offer: Offer,
    pub(super) opening: Option<Opening>,
    pub(super) template: Option<Writing>,
    /// What the bay's file held when this window last read or wrote it.
    pub(super) stamp: Option<Stamp>,
    /// Another has changed this file; shall it be saved over?
    pub(super) disk_change: Option<PathBuf>,
    pub(super) finder: Option<Finder>,
    pub(super) page: Option<Page>,
    /// The routing whose name is being typed, by its id, and the name so far.
    pub(super) routing_name: Option<(String, String)>,
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
        self.offer.is_open()
            || self.opening.is_some()
            || self.template.is_some()
            || self.disk_change.is_some()
            || self.finder.is_some()
            || self.page.is_some()
    }
}

/// A box in the middle of the window that keeps everything else back; it has room about its text.
pub(super) fn dialog(ui: &Ui, name: &'static str) -> Modal {
    Modal::new(Id::unique(name)).frame(Frame::popup(ui.style()).inner_margin(Margin::same(18)))
}

impl App {
    pub(super) fn show_over(&mut self, ui: &mut Ui, actions: &mut Vec<Action>) {
        if let Some(opening) = &self.over.opening {
            files::show_opening(ui, opening, actions);
        } else if let Some(writing) = &self.over.template {
            files::show_template(ui, writing, actions);
        } else if let Some(path) = &self.over.disk_change {
            files::show_disk_change(ui, path, actions);
        } else if self.over.offer.is_open() && self.trouble.is_none() {
            recovery::show_offer(ui, &self.over.offer, actions);
        } else if let Some(mut open) = self.over.finder.take() {
            finder::show(ui, self, &mut open, actions);
            self.over.finder = Some(open);
        } else {
            match self.over.page {
                Some(Page::Keys) => key_list::show(ui, actions),
                Some(Page::About) => about::show(ui, actions),
                None => {}
            }
        }
    }
}
