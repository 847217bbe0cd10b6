//! Opening and saving, as far as that concerns several parts of the window.

use std::path::{Path, PathBuf};

use glam::DVec2;

use super::actions::Answer;
use super::background::{self, Desk};
use super::canvas::camera::View;
use super::compare::Compare;
use super::files::{Opened, Wanted};
use super::shopping::Shopping;
use super::unsaved::After;
use super::{App, samples};
use crate::document::Document;
use crate::document::file::Leftover;
use crate::model::{Bay, Routing};
use crate::units::{LengthUnit, shown_path};

impl App {
    /// Takes in files that were dropped, each as what it is.
    pub(super) fn dropped(&mut self, files: Vec<PathBuf>, on: Option<(View, DVec2)>) {
        if let Some(bay) = files.iter().find(|path| background::is_bay(path)) {
            return self.unless_unsaved(After::OpenPath(bay.clone()));
        }
        if self.work.document.is_none() {
            self.go_on(After::New);
        }
        for path in files {
            self.desk.take(&mut self.work, path, on);
        }
    }

    /// Goes on with something that would lose unsaved work only after asking.
    pub(super) fn unless_unsaved(&mut self, after: After) {
        self.work.drag_abort();
        if self.work.document.as_ref().is_some_and(crate::document::Document::is_changed) {
            self.files.unsaved = Some(after);
        } else {
            self.go_on(after);
        }
    }

    /// Does what had to wait for the unsaved work.
    pub(super) fn go_on(&mut self, after: After) {
        match after {
            After::New => self.set_document(new_bay(self.settings.settings.units), None),
            After::Open => self.ask_near_the_bay(|near| Wanted::Open { near }),
            After::OpenPath(path) => self.open_path(&path),
            After::OpenDemo(index) => match samples::bay(index) {
                Ok(bay) => self.set_document(bay, None),
                Err(lines) => self.work.trouble("The sample bay cannot be opened", lines),
            },
            After::Quit => self.leaving = true,
        }
    }

    pub(super) fn set_document(&mut self, bay: Bay, path: Option<std::path::PathBuf>) {
        self.work.begin(Document::new(bay, path));
        self.hand.let_go();
        self.desk = Desk::default();
        self.compare = Compare::default();
        self.shopping = Shopping::default();
        self.files.stamp = None;
    }

    pub(super) fn show_file(&mut self, path: &Path) {
        if let Err(why) = (self.files.show)(path) {
            self.work.trouble(format!("Cannot open {} from here", shown_path(path)), vec![why]);
        }
    }

    pub(super) fn go_on_with(&mut self, after: Option<After>) {
        if let Some(after) = after {
            self.go_on(after);
        }
    }

    pub(super) fn answer_unsaved(&mut self, answer: Answer) {
        let Some(after) = self.files.unsaved.take() else { return };
        match answer {
            Answer::Save => {
                let after = self.files.save_then(&mut self.work, after);
                self.go_on_with(after);
            }
            Answer::Discard => self.go_on(after),
            Answer::Cancel => {}
        }
    }

    /// Asks for a file, beginning in the folder of the bay.
    pub(super) fn ask_near_the_bay(&mut self, wanted: impl FnOnce(Option<PathBuf>) -> Wanted) {
        self.files.ask_for(wanted(self.work.folder()));
    }

    pub(super) fn open_path(&mut self, path: &Path) {
        let opened = self.files.open_path(&mut self.work, path);
        self.show_opened(opened);
    }

    pub(super) fn open_recovered(&mut self, leftover: Leftover) {
        let opened = self.files.open_recovered(&mut self.work, leftover);
        self.show_opened(opened);
    }

    pub(super) fn show_opened(&mut self, opened: Option<Opened>) {
        let Some(opened) = opened else { return };
        match (opened.path, opened.file) {
            (Some(path), Some((bay, stamp))) => {
                self.set_document(bay, Some(path.clone()));
                self.files.stamp = Some(stamp);
                self.files.recent.note(&path);
                if opened.recovered.is_none() {
                    self.look_for_leftovers(Some(&path));
                }
            }
            _ => self.set_document(new_bay(self.settings.settings.units), None),
        }
        if let Some((bay, old)) = opened.recovered {
            self.recovery.show(&mut self.work, bay, old);
        }
    }

    pub(super) fn look_for_leftovers(&mut self, opened: Option<&Path>) {
        self.over.offer.look(self.recovery.folder(), &self.work, opened);
    }

    /// Goes on with the path that was asked for.
    pub(super) fn path_for(&mut self, wanted: Wanted, path: &Path) {
        let work = &mut self.work;
        match wanted {
            Wanted::Open { .. } => self.open_path(path),
            Wanted::Background { .. } | Wanted::Mesh { .. } => {
                self.desk.take(work, path.to_owned(), None);
            }
            Wanted::Instead { id, .. } => self.desk.instead(work, &id, path),
            Wanted::Save { .. } => {
                let after = self.files.save_to(work, path.to_owned());
                self.go_on_with(after);
            }
            Wanted::PartsTable { .. } => self.parts.import(work, path),
            Wanted::PartsExport { .. } => self.parts.export(work, path),
            Wanted::Template { run, .. } => self.files.write_template(work, &run, path),
            wanted => {
                let panels = (&self.compare, &self.shopping);
                self.files.write(&wanted, path, panels, work);
            }
        }
    }
}

/// The least that can be saved and opened again.
pub(super) fn new_bay(show_units: LengthUnit) -> Bay {
    let routing = Routing { id: "a".into(), name: "First routing".into(), ..Routing::default() };
    Bay { title: "New bay".into(), show_units, routings: vec![routing], ..Bay::default() }
}
