//! The state of the window.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use super::advice::Advice;
use super::background::Desk;
use super::canvas::Canvas;
use super::canvas::panes::Panes;
use super::canvas::thing::Thing;
use super::compare::Compare;
use super::files::{Dialogs, NativeDialogs, PathBox, Waiting};
use super::jobs::Wake;
use super::over::Over;
use super::recent::Recent;
use super::recovery::Recovery;
use super::settings::Store;
use super::shopping::Shopping;
use super::solved::Solved;
use super::unsaved::After;
use crate::app::actions::{Listed, ObstacleKind, Tool};
use crate::app::tools::drag::{Drag, Sketch};
use crate::document::Document;

/// What the window needs from outside; tests bring their own.
pub struct Services {
    /// Asks for files.
    pub dialogs: Box<dyn Dialogs>,
    /// The files opened lately.
    pub recent: Recent,
    /// What the user likes.
    pub settings: Store,
    /// Keeps unsaved work.
    pub recovery: Recovery,
    /// Wakes the window when work in another thread is done.
    pub wake: Wake,
    /// How long the window waits for work in another thread before it shows its progress.
    pub patience: Duration,
    /// Opens a finished file with whatever the system opens it with; says why it could not.
    pub show: fn(&Path) -> Result<(), String>,
}

/// A blink: what takes no longer shows no progress (our own default).
const PATIENCE: Duration = Duration::from_millis(150);

impl Services {
    /// The system's own.
    pub fn native(ctx: &eframe::egui::Context) -> Self {
        let waken = ctx.clone();
        Self {
            dialogs: Box::new(NativeDialogs::new(ctx.clone())),
            settings: Store::of_the_user(),
            recovery: Recovery::of_the_user(),
            wake: Arc::new(move || waken.request_repaint()),
            patience: PATIENCE,
            recent: Recent::of_the_user(),
            show: |path| opener::open(path).map_err(|error| error.to_string()),
        }
    }
}

/// The window.
pub struct App {
    pub(super) services: Services,
    pub(super) document: Option<Document>,
    /// Place of the routing in view.
    pub(super) routing: usize,
    pub(super) solved: Option<Solved>,
    pub(super) canvas: Canvas,
    pub(super) selected: Selection,
    /// What is held with the pointer.
    pub(super) drag: Option<Drag>,
    /// Nothing snaps just now.
    pub(super) drag_free: bool,
    pub(super) tool: Tool,
    /// The form that the obstacle tool draws.
    pub(super) obstacle_kind: ObstacleKind,
    /// A hose that is begun.
    pub(super) sketch: Option<Sketch>,
    /// The last measure taken: in which view, from where to where.
    pub(super) measurement: Option<(super::canvas::camera::View, glam::DVec3, glam::DVec3)>,
    /// What is being renamed, and the name as typed so far.
    pub(super) renaming: Option<(Thing, String)>,
    /// Where the arrow keys stand on the bench strip, mm from cut end A.
    pub(super) strip_cursor_mm: f64,
    /// What the list shows.
    pub(super) listed: Listed,
    /// What was copied last, to be put in again.
    pub(super) copied: Vec<Thing>,
    /// Where the last thing was put: a new one takes from it what a view does not show.
    pub(super) last_place: Option<glam::DVec3>,
    /// What stands over the window.
    pub(super) over: Over,
    /// Photos and outlines: what was read, what is picked.
    pub(super) desk: Desk,
    pub(super) unsaved: Option<After>,
    /// What to go on with once the bay is saved.
    pub(super) after_save: Option<After>,
    pub(super) waiting: Option<Waiting>,
    pub(super) path_box: Option<PathBox>,
    pub(super) trouble: Option<Trouble>,
    pub(super) notice: Option<Notice>,
    /// Which lengths would do.
    pub(super) advice: Advice,
    /// Routings side by side.
    pub(super) compare: Compare,
    pub(super) shopping: Shopping,
    /// Closing was asked for and nothing stands against it.
    pub(super) leaving: bool,
    pub(super) close_was_sent: bool,
    pub(super) title_shown: String,
}

/// What is selected.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Selection {
    /// Id of the run whose card is shown.
    pub(super) run: Option<String>,
    /// The things that are selected, the last clicked last.
    pub(super) things: Vec<Thing>,
    /// The finding that is looked at.
    pub(super) finding: Option<usize>,
    /// Where that is in the lists: it is known by this while they change.
    slot: Option<u64>,
    /// The finding that speaks in the views where none is looked at, by its place in the lists.
    speaker: Option<u64>,
}

impl Selection {
    /// Before the findings change: remembers which is looked at.
    pub(super) fn note_slot(&mut self, old: Option<&Solved>) {
        match (self.finding, old) {
            (Some(at), Some(old)) => self.slot = old.slots.id_of(at),
            // It may come back as long as something is held.
            (None, Some(old)) if old.is_held() => {}
            _ => self.slot = None,
        }
    }

    /// After they have changed: finds it again, and the one that speaks.
    pub(super) fn find_again(&mut self, solved: &Solved) {
        self.finding = self.slot.and_then(|slot| solved.slots.index_of(slot));
        let kept = self.speaker.filter(|_| solved.is_held());
        self.speaker = solved.slots.speaker(&solved.answer.findings, self.run.as_deref(), kept);
    }

    /// The finding that speaks in the views where none is looked at.
    pub(super) fn speaking(&self, solved: &Solved) -> Option<usize> {
        solved.slots.index_of(self.speaker?)
    }

    /// The thing that is selected, where it is one alone.
    pub(super) fn thing(&self) -> Option<&Thing> {
        match &self.things[..] {
            [thing] => Some(thing),
            _ => None,
        }
    }
}

/// Something that went wrong, for the user to read and close.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Trouble {
    /// What could not be done.
    pub(super) title: String,
    /// Why, line by line.
    pub(super) lines: Vec<String>,
    /// What is still as it was.
    pub(super) comfort: &'static str,
}

/// A short word about what was done.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Notice {
    pub(super) text: String,
    /// A file that can be opened from here.
    pub(super) file: Option<PathBuf>,
    /// When it was first seen, or last pointed at, seconds.
    pub(super) since: Option<f64>,
}

impl Notice {
    pub(super) fn new(text: impl Into<String>, file: Option<PathBuf>) -> Self {
        Self { text: text.into(), file, since: None }
    }
}

impl App {
    /// The window with the bay of `path`, or with an invitation.
    pub fn new(path: Option<PathBuf>, services: Services) -> Self {
        let mut app = Self {
            services,
            document: None,
            routing: 0,
            solved: None,
            canvas: Canvas::default(),
            selected: Selection::default(),
            drag: None,
            drag_free: false,
            tool: Tool::default(),
            obstacle_kind: ObstacleKind::default(),
            sketch: None,
            measurement: None,
            renaming: None,
            strip_cursor_mm: 0.0,
            listed: Listed::Hoses,
            copied: Vec::new(),
            last_place: None,
            over: Over::default(),
            desk: Desk::default(),
            unsaved: None,
            after_save: None,
            waiting: None,
            path_box: None,
            trouble: None,
            notice: None,
            advice: Advice::default(),
            compare: Compare::default(),
            shopping: Shopping::default(),
            leaving: false,
            close_was_sent: false,
            title_shown: String::new(),
        };
        let linked = app.settings().views_linked;
        app.canvas.cameras.set_linked(linked);
        if let Some(views) = &app.settings().views {
            app.canvas.panes = Panes::named(views);
        }
        app.over.to_place = app.settings().window;
        match path {
            Some(path) => app.open_path(&path),
            None => app.look_for_leftovers(None),
        }
        if let Some(word) = app.services.settings.take_word() {
            app.say(word);
        }
        app
    }

    /// The bay being worked on.
    pub fn document(&self) -> Option<&Document> {
        self.document.as_ref()
    }

    /// Id of the run whose card is shown.
    pub fn selected_run(&self) -> Option<&str> {
        self.selected.run.as_deref()
    }

    /// What is selected, the last clicked last.
    pub fn selected_things(&self) -> &[Thing] {
        &self.selected.things
    }

    /// What keeps unsaved work.
    pub fn recovery(&self) -> &Recovery {
        &self.services.recovery
    }

    /// What the pointer does.
    pub fn tool(&self) -> Tool {
        self.tool
    }

    /// Place of the routing in view.
    pub fn routing(&self) -> usize {
        self.routing
    }

    /// How the drawing is looked at.
    pub fn canvas(&self) -> &Canvas {
        &self.canvas
    }

    /// Why the photo or drawing of a background cannot be shown, where that is so.
    pub fn missing_background(&self, id: &str) -> Option<&str> {
        let unread = self.background_trouble(self.document.as_ref()?.bay().background(id)?)?;
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
