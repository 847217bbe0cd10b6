//! The state of the window.

use std::path::PathBuf;
use std::sync::Arc;

use eframe::egui::Rect;

use super::advice::Advice;
use super::background::Desk;
use super::canvas::Canvas;
use super::canvas::panes::Panes;
use super::canvas::thing::Thing;
use super::compare::Compare;
use super::files::Files;
use super::jobs::Wake;
use super::key_focus::KeyFocus;
use super::over::Over;
use super::parts::Parts;
use super::recovery::Recovery;
use super::settings::{Settings, Store};
use super::shopping::Shopping;
use crate::app::actions::Tool;
use crate::app::seen::Seen;
use crate::app::services::Services;
use crate::app::tools::Hand;
use crate::app::work::Work;
use crate::document::Document;

/// The window: its parts, each of which owns its state. What concerns one part alone is a method of
/// that part; here and in `dispatch` stands only what concerns several.
pub struct App {
    /// What the user likes.
    pub(super) settings: Store,
    /// Keeps unsaved work.
    pub(super) recovery: Recovery,
    /// Wakes the window when work in another thread is done.
    pub(super) wake: Wake,
    /// The bay being worked on, and how it is looked at.
    pub(super) work: Work,
    /// What the pointer does to it.
    pub(super) hand: Hand,
    /// Photos and outlines: what was read, what is picked.
    pub(super) desk: Desk,
    /// What stands over the window.
    pub(super) over: Over,
    /// What is being opened, saved and written.
    pub(super) files: Files,
    /// Which lengths would do.
    pub(super) advice: Advice,
    /// Routings side by side.
    pub(super) compare: Compare,
    pub(super) shopping: Shopping,
    pub(super) parts: Parts,
    pub(super) key_focus: KeyFocus,
    /// Where the arrow keys stand on the bench strip, mm from cut end A.
    pub(super) strip_cursor_mm: f64,
    /// Closing was asked for and nothing stands against it.
    pub(super) leaving: bool,
    pub(super) close_was_sent: bool,
    pub(super) title_shown: String,
}

impl App {
    /// The window with the bay of `path`, or with an invitation.
    pub fn new(path: Option<PathBuf>, services: Services) -> Self {
        let Services { dialogs, recent, settings, recovery, wake, patience, show } = services;
        let parts = Parts::at(settings.parts_path());
        let mut app = Self {
            settings,
            recovery,
            files: Files::new(dialogs, recent, show, Arc::clone(&wake), patience),
            wake,
            work: Work::default(),
            hand: Hand::default(),
            desk: Desk::default(),
            over: Over::default(),
            advice: Advice::default(),
            compare: Compare::default(),
            shopping: Shopping::default(),
            parts,
            key_focus: KeyFocus::default(),
            strip_cursor_mm: 0.0,
            leaving: false,
            close_was_sent: false,
            title_shown: String::new(),
        };
        let linked = app.settings().views_linked;
        app.work.canvas.cameras.set_linked(linked);
        if let Some(views) = &app.settings().views {
            app.work.canvas.panes = Panes::named(views);
        }
        app.over.to_place = app.settings().window;
        match path {
            Some(path) => app.open_path(&path),
            None => app.look_for_leftovers(None),
        }
        if let Some(word) = app.settings.take_word() {
            app.work.say(word);
        }
        if !app.parts.library.faults().is_empty() {
            app.work.say("The parts library could not be read; open it (Shift+P) to see why");
        }
        app
    }

    /// What panels see.
    pub(super) fn seen(&self) -> Seen<'_> {
        Seen {
            work: &self.work,
            hand: &self.hand,
            settings: &self.settings.settings,
            recent: &self.files.recent,
            advice: &self.advice,
            compare: &self.compare,
            shopping: &self.shopping,
            parts: &self.parts,
            strip_cursor_mm: self.strip_cursor_mm,
        }
    }

    /// What the user likes.
    pub fn settings(&self) -> &Settings {
        &self.settings.settings
    }

    /// The bay being worked on.
    pub fn document(&self) -> Option<&Document> {
        self.work.document.as_ref()
    }

    /// Id of the run whose card is shown.
    pub fn selected_run(&self) -> Option<&str> {
        self.work.selected.run.as_deref()
    }

    /// What is selected, the last clicked last.
    pub fn selected_things(&self) -> &[Thing] {
        &self.work.selected.things
    }

    /// What keeps unsaved work.
    pub fn recovery(&self) -> &Recovery {
        &self.recovery
    }

    /// What the pointer does.
    pub fn tool(&self) -> Tool {
        self.hand.tool
    }

    /// Place of the routing in view.
    pub fn routing(&self) -> usize {
        self.work.routing
    }

    /// Where the views are, points; none before they are shown.
    pub fn board(&self) -> Option<Rect> {
        self.key_focus.views()
    }

    /// How the drawing is looked at.
    pub fn canvas(&self) -> &Canvas {
        &self.work.canvas
    }

    /// Why the photo or drawing of a background cannot be shown, where that is so.
    pub fn missing_background(&self, id: &str) -> Option<&str> {
        let unread = self.desk.background_trouble(&self.work, self.work.bay()?.background(id)?)?;
        Some(&unread.why)
    }

    /// Whether a file is still being read.
    pub fn is_reading(&self) -> bool {
        self.desk.is_reading()
    }

    /// Whether the window is about to close.
    pub fn is_leaving(&self) -> bool {
        self.leaving
    }
}
