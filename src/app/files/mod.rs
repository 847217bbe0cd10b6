//! Opening and saving: through the system's dialogs, and through a box for a typed path where no
//! dialog answers.

pub(super) mod dialogs;
mod disk_change;
mod opening;
mod path_box;
mod printed;
mod template;

use dialogs::BAY_ENDING;
pub(super) use dialogs::Waiting;
pub use dialogs::{Dialogs, NativeDialogs, Reply, Wanted};

pub(super) use disk_change::show_disk_change;
pub(super) use opening::{Opened, Opening, show_opening};
pub(super) use path_box::{PathBox, show as show_path_box, show_waiting};
pub(super) use printed::wanted;
pub(super) use template::{Writing, show_template};

use std::path::{Path, PathBuf};
use std::time::Duration;

use super::jobs::Wake;
use super::recent::Recent;
use super::unsaved::After;
use super::work::Work;
use crate::document::file::{self, Stamp};
use crate::model::{Bay, Shape};
use crate::units::shown_name;

/// What is being opened, saved and written, and what is asked about it.
pub(super) struct Files {
    dialogs: Box<dyn Dialogs>,
    /// The files opened lately.
    pub(super) recent: Recent,
    /// Opens a finished file.
    pub(super) show: fn(&Path) -> Result<(), String>,
    wake: Wake,
    /// How long work in another thread is waited for before its progress is shown.
    patience: Duration,
    pub(super) unsaved: Option<After>,
    /// What to go on with once the bay is saved.
    after_save: Option<After>,
    pub(super) waiting: Option<Waiting>,
    pub(super) path_box: Option<PathBox>,
    pub(super) opening: Option<Opening>,
    pub(super) template: Option<Writing>,
    /// What the bay's file held when this window last read or wrote it.
    pub(super) stamp: Option<Stamp>,
    /// Another has changed this file; shall it be saved over?
    pub(super) disk_change: Option<PathBuf>,
}

impl Files {
    /// Nothing is asked or under way.
    pub(super) fn new(
        dialogs: Box<dyn Dialogs>,
        recent: Recent,
        show: fn(&Path) -> Result<(), String>,
        wake: Wake,
        patience: Duration,
    ) -> Self {
        Self {
            dialogs,
            recent,
            show,
            wake,
            patience,
            unsaved: None,
            after_save: None,
            waiting: None,
            path_box: None,
            opening: None,
            template: None,
            stamp: None,
            disk_change: None,
        }
    }

    /// Whether a question is open: it keeps the keys to itself.
    pub(super) fn asks(&self) -> bool {
        self.unsaved.is_some()
            || self.waiting.is_some()
            || self.path_box.is_some()
            || self.opening.is_some()
            || self.template.is_some()
            || self.disk_change.is_some()
    }

    /// Saves; tells what to go on with.
    pub(super) fn save(&mut self, work: &mut Work) -> Option<After> {
        work.drag_abort();
        match work.document.as_ref().and_then(|d| d.path().map(Path::to_owned)) {
            Some(path) if self.was_changed_by_another(&path) => self.disk_change = Some(path),
            Some(path) => return self.save_to(work, path),
            None => self.save_as(work),
        }
        None
    }

    pub(super) fn save_as(&mut self, work: &mut Work) {
        work.drag_abort();
        let Some(document) = &work.document else { return };
        let proposed = || PathBuf::from(file_name(&document.bay().title, BAY_ENDING));
        let near = document.path().map_or_else(proposed, Path::to_owned);
        self.ask_for(Wanted::Save { near });
    }

    /// Asks for a path.
    pub(super) fn ask_for(&mut self, wanted: Wanted) {
        self.path_box = None;
        let reply = self.dialogs.ask(&wanted);
        self.waiting = Some(Waiting { wanted, reply });
    }

    /// Looks whether the dialog has answered.
    pub(super) fn hear_dialog(&mut self) -> Option<(Wanted, PathBuf)> {
        let reply = self.waiting.as_ref()?.reply.try_recv().ok()?;
        let waiting = self.waiting.take()?;
        match reply {
            Reply::Path(path) => return self.ended(waiting.wanted, &path, true),
            Reply::Cancelled => self.after_save = None,
            Reply::NoService => self.path_box = Some(PathBox::new(waiting.wanted, true)),
        }
        None
    }

    pub(super) fn type_path_instead(&mut self) {
        if let Some(waiting) = self.waiting.take() {
            self.path_box = Some(PathBox::new(waiting.wanted, false));
        }
    }

    pub(super) fn cancel_path(&mut self) {
        self.path_box = None;
        self.waiting = None;
        self.after_save = None;
    }

    pub(super) fn path_given(&mut self, path: &Path) -> Option<(Wanted, PathBuf)> {
        let path_box = self.path_box.take()?;
        self.ended(path_box.wanted, path, false)
    }

    /// The path with its ending. `asked`: whether a dialog has already asked about replacing a file.
    fn ended(&mut self, wanted: Wanted, path: &Path, asked: bool) -> Option<(Wanted, PathBuf)> {
        let ended = wanted.with_ending(path.to_owned());
        // An ending that was put on afterwards may name a file that nobody asked about.
        if asked && ended != path && ended.exists() {
            self.path_box = Some(PathBox::with(wanted, &ended));
            return None;
        }
        Some((wanted, ended))
    }

    /// Saves to this file; tells what to go on with.
    pub(super) fn save_to(&mut self, work: &mut Work, path: PathBuf) -> Option<After> {
        let after = self.after_save.take();
        let document = work.document.as_mut()?;
        let bay = document.bay_for(&path);
        if let Some(mesh) = far_mesh(&bay) {
            let why = format!("{mesh} is on another drive: copy it beside the bay first");
            work.trouble("The bay was not saved", vec![why]);
            return None;
        }
        match file::save(&path, &bay) {
            Ok(stamp) => {
                self.stamp = Some(stamp);
                self.recent.note(&path);
                let name = shown_name(&path);
                document.mark_saved(path);
                work.say(format!("Saved {name}"));
                after
            }
            Err(error) => {
                let lines = error.to_string().lines().map(str::to_owned).collect();
                work.trouble("The bay was not saved", lines);
                None
            }
        }
    }

    /// After saving, go on with what had to wait.
    pub(super) fn save_then(&mut self, work: &mut Work, after: After) -> Option<After> {
        self.after_save = Some(after);
        self.save(work)
    }
}

/// A mesh that the bay's folder has no way to; a bay with one could not be opened again.
fn far_mesh(bay: &Bay) -> Option<&str> {
    bay.obstacles.iter().find_map(|obstacle| match &obstacle.shape {
        Shape::Mesh { file, .. } if Path::new(file).is_absolute() => Some(&**file),
        _ => None,
    })
}

/// A file name from a title: words joined by hyphens.
fn file_name(title: &str, ending: &str) -> String {
    let words: Vec<String> = title
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect();
    let stem = if words.is_empty() { "bay".to_owned() } else { words.join("-") };
    format!("{stem}{ending}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_makes_a_plain_file_name() {
        assert_eq!(file_name("Trials car, left bank", BAY_ENDING), "trials-car-left-bank.bay.json");
        assert_eq!(file_name("../..", BAY_ENDING), "bay.bay.json");
    }

    #[test]
    fn the_ending_is_put_on_where_it_lacks() {
        let save = Wanted::Save { near: PathBuf::new() };
        assert_eq!(save.with_ending("a/b".into()), PathBuf::from("a/b.bay.json"));
        assert_eq!(save.with_ending("a/b.bay.json".into()), PathBuf::from("a/b.bay.json"));
        assert_eq!(save.with_ending("a/b.json".into()), PathBuf::from("a/b.json"));
        let labels = Wanted::Labels { near: PathBuf::new() };
        assert_eq!(labels.with_ending("x".into()), PathBuf::from("x.pdf"));
        assert_eq!(labels.with_ending("x.html".into()), PathBuf::from("x.html.pdf"));
        let sheet = Wanted::Sheet { near: PathBuf::new() };
        assert_eq!(sheet.with_ending("x".into()), PathBuf::from("x.pdf"));
        assert_eq!(sheet.with_ending("x.HTML".into()), PathBuf::from("x.HTML"));
        assert_eq!(sheet.with_ending("x.doc".into()), PathBuf::from("x.doc.pdf"));
        assert_eq!(sheet.with_ending("x.bay.json".into()), PathBuf::from("x.bay.json.pdf"));
        let open = Wanted::Open { near: None };
        assert_eq!(open.with_ending("x".into()), PathBuf::from("x"));
    }
}
