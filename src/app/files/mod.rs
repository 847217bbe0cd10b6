//! Opening and saving: through the system's dialogs, and through a box for a typed path where no
//! dialog answers.

mod dialogs;
mod disk_change;
mod opening;
mod path_box;
mod printed;
mod template;

pub(super) use dialogs::Waiting;
pub use dialogs::{Dialogs, NativeDialogs, Reply, Wanted};

pub(super) use disk_change::show_disk_change;
pub(super) use opening::{Opening, show_opening};
pub(super) use path_box::{PathBox, show as show_path_box, show_waiting};
pub(super) use template::{Writing, show_template};

use std::path::{Path, PathBuf};

use super::App;
use super::unsaved::After;
use crate::document::file;
use crate::model::{Bay, Shape};
use crate::units::shown_name;

/// The ending of a bay file.
const BAY_ENDING: &str = ".bay.json";

impl App {
    pub(super) fn save(&mut self) {
        self.drag_abort();
        match self.document.as_ref().and_then(|d| d.path().map(Path::to_owned)) {
            Some(path) if self.was_changed_by_another(&path) => {
                self.over.disk_change = Some(path);
            }
            Some(path) => self.save_to(path),
            None => self.save_as(),
        }
    }

    pub(super) fn save_as(&mut self) {
        self.drag_abort();
        let Some(document) = &self.document else { return };
        let proposed = || PathBuf::from(file_name(&document.bay().title, BAY_ENDING));
        let near = document.path().map_or_else(proposed, Path::to_owned);
        self.ask_for_path(Wanted::Save { near });
    }

    fn folder(&self) -> Option<PathBuf> {
        self.document.as_ref().and_then(|d| d.path()?.parent().map(Path::to_owned))
    }

    pub(super) fn ask_for_background(&mut self) {
        let near = self.folder();
        self.ask_for_path(Wanted::Background { near });
    }

    pub(super) fn ask_for_file_instead(&mut self, id: String) {
        let near = self.folder();
        self.ask_for_path(Wanted::Instead { near, id });
    }

    pub(super) fn ask_for_mesh(&mut self) {
        let near = self.folder();
        self.ask_for_path(Wanted::Mesh { near });
    }

    pub(super) fn ask_for_file(&mut self) {
        let near = self.folder();
        self.ask_for_path(Wanted::Open { near });
    }

    fn ask_for_path(&mut self, wanted: Wanted) {
        self.path_box = None;
        let reply = self.services.dialogs.ask(&wanted);
        self.waiting = Some(Waiting { wanted, reply });
    }

    /// Looks whether the dialog has answered.
    pub(super) fn hear_dialog(&mut self) {
        let Some(reply) = self.waiting.as_ref().and_then(|waiting| waiting.reply.try_recv().ok())
        else {
            return;
        };
        let Some(waiting) = self.waiting.take() else { return };
        match reply {
            Reply::Path(path) => self.path_for(waiting.wanted, &path, true),
            Reply::Cancelled => self.after_save = None,
            Reply::NoService => self.path_box = Some(PathBox::new(waiting.wanted, true)),
        }
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

    pub(super) fn path_given(&mut self, path: &Path) {
        if let Some(path_box) = self.path_box.take() {
            self.path_for(path_box.wanted, path, false);
        }
    }

    /// `asked`: whether a dialog has already asked about replacing a file.
    fn path_for(&mut self, wanted: Wanted, path: &Path, asked: bool) {
        let ended = wanted.with_ending(path.to_owned());
        // An ending that was put on afterwards may name a file that nobody asked about.
        if asked && ended != *path && ended.exists() {
            self.path_box = Some(PathBox::with(wanted, &ended));
            return;
        }
        match wanted {
            Wanted::Open { .. } => self.open_path(&ended),
            Wanted::Background { .. } | Wanted::Mesh { .. } => self.take(ended, None),
            Wanted::Instead { id, .. } => self.background_instead(&id, &ended),
            Wanted::Save { .. } => self.save_to(ended),
            Wanted::Sheet { .. } => self.write_sheet(&ended),
            Wanted::Labels { .. } => self.write_labels(&ended),
            Wanted::Drawing { view, .. } => self.write_drawing(view, &ended),
            Wanted::Template { run, .. } => self.write_template(&run, &ended),
            Wanted::Comparison { .. } => self.write_comparison(&ended),
            Wanted::ShoppingList { .. } => self.write_shopping_csv(&ended),
        }
    }

    fn save_to(&mut self, path: PathBuf) {
        let Some(document) = &mut self.document else { return };
        let bay = document.bay_for(&path);
        if let Some(mesh) = far_mesh(&bay) {
            self.after_save = None;
            let why = format!("{mesh} is on another drive: copy it beside the bay first");
            self.trouble("The bay was not saved", vec![why]);
            return;
        }
        match file::save(&path, &bay) {
            Ok(stamp) => {
                self.over.stamp = Some(stamp);
                self.services.recent.note(&path);
                let name = shown_name(&path);
                document.mark_saved(path);
                self.say(format!("Saved {name}"));
                if let Some(after) = self.after_save.take() {
                    self.go_on(after);
                }
            }
            Err(error) => {
                self.after_save = None;
                let lines = error.to_string().lines().map(str::to_owned).collect();
                self.trouble("The bay was not saved", lines);
            }
        }
    }

    /// After saving, go on with what had to wait.
    pub(super) fn save_then(&mut self, after: After) {
        self.after_save = Some(after);
        self.save();
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
