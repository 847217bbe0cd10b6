//! Reading a bay in a thread of its own: big meshes take a while.

use std::path::{Path, PathBuf};

use eframe::egui::Ui;

use super::Files;
use crate::app::actions::Action;
use crate::app::jobs::{Job, Progress, Standing};
use crate::app::widgets::dialog;
use crate::app::work::Work;
use crate::document::file::{self, FolderMeshes, Leftover, LoadError, MeshSource, Stamp};
use crate::model::{Bay, Mesh, Shape};
use crate::units::{shown_name, shown_path};

/// A bay that is being read.
pub(in super::super) struct Opening {
    job: Job<Result<Opened, Trouble>>,
}

/// What was read.
pub(in super::super) struct Opened {
    /// Its file.
    pub(in super::super) path: Option<PathBuf>,
    /// What the file holds; none for a bay without one.
    pub(in super::super) file: Option<(Bay, Stamp)>,
    /// The recovered work, and its copy.
    pub(in super::super) recovered: Option<(Bay, PathBuf)>,
}

struct Trouble {
    title: String,
    lines: Vec<String>,
}

/// Meshes from the disk, with a word on each, until nobody wants them any more.
struct MeshProgress<'a> {
    meshes: FolderMeshes,
    progress: &'a Progress,
}

impl MeshSource for MeshProgress<'_> {
    fn mesh(&self, file: &str) -> Result<Mesh, String> {
        if self.progress.is_stopped() {
            return Err("stopped".to_owned());
        }
        self.progress.tell(format!("Reading {file}"), None);
        self.meshes.mesh(file)
    }
}

fn load(path: &Path, progress: &Progress) -> Result<(Bay, Stamp), LoadError> {
    let read =
        file::load_with(path, &MeshProgress { meshes: FolderMeshes::beside(path), progress })?;
    make_ready(&read.0, progress);
    Ok(read)
}

/// Makes the meshes ready for distances here, not in the window's first frame.
fn make_ready(bay: &Bay, progress: &Progress) {
    let meshes = bay.obstacles.iter().filter_map(|obstacle| match &obstacle.shape {
        Shape::Mesh { mesh, .. } => Some((obstacle.shown_name(), mesh)),
        _ => None,
    });
    let meshes: Vec<_> = meshes.collect();
    for (k, (name, mesh)) in meshes.iter().enumerate() {
        if progress.is_stopped() {
            return;
        }
        progress.tell(format!("Making {name} ready"), Some(k as f32 / meshes.len() as f32));
        mesh.field();
    }
}

fn lines_of(error: &impl ToString) -> Vec<String> {
    error.to_string().lines().map(str::to_owned).collect()
}

impl Files {
    /// Reads a bay; where it is refused everything stays as it is, and the faults are shown.
    pub(in super::super) fn open_path(&mut self, work: &mut Work, path: &Path) -> Option<Opened> {
        let file = path.to_owned();
        self.read_aside(work, Some(path), move |progress| match load(&file, progress) {
            Ok(read) => Ok(Opened { path: Some(file), file: Some(read), recovered: None }),
            Err(error) => Err(Trouble {
                title: format!("{} cannot be opened", shown_path(&file)),
                lines: lines_of(&error),
            }),
        })
    }

    /// Opens what a dead window left, on top of what its file holds.
    pub(in super::super) fn open_recovered(
        &mut self,
        work: &mut Work,
        leftover: Leftover,
    ) -> Option<Opened> {
        let of = leftover.note().ok().and_then(|note| note.of.clone());
        self.read_aside(work, of.clone().as_deref(), move |progress| {
            let mut bay = leftover.bay(of.as_deref()).map_err(|error| Trouble {
                title: "The copy cannot be recovered".to_owned(),
                lines: lines_of(&error),
            })?;
            // A file that is gone or damaged is no reason not to recover.
            let file = of.as_deref().and_then(|of| load(of, progress).ok());
            if let (Some(of), None) = (&of, &file) {
                // It has no file of its own then, and names what lay beside it by whole paths.
                file::rebase(&mut bay, Some(file::folder_of(of)), None);
            }
            Ok(Opened { path: of, file, recovered: Some((bay, leftover.path)) })
        })
    }

    fn read_aside(
        &mut self,
        work: &mut Work,
        path: Option<&Path>,
        read: impl FnOnce(&Progress) -> Result<Opened, Trouble> + Send + 'static,
    ) -> Option<Opened> {
        let title = format!("Opening {}", path.map(shown_name).unwrap_or_default());
        let job = Job::start(title, &self.wake, read);
        let standing = job.wait(self.patience);
        self.settle_opening(work, Opening { job }, standing)
    }

    /// Looks whether the bay is read.
    pub(in super::super) fn hear_opening(&mut self, work: &mut Work) -> Option<Opened> {
        let opening = self.opening.take()?;
        let standing = opening.job.look();
        self.settle_opening(work, opening, standing)
    }

    fn settle_opening(
        &mut self,
        work: &mut Work,
        opening: Opening,
        standing: Standing<Result<Opened, Trouble>>,
    ) -> Option<Opened> {
        match standing {
            Standing::Running => self.opening = Some(opening),
            Standing::Done(Ok(opened)) => return Some(opened),
            Standing::Done(Err(trouble)) => work.trouble(trouble.title, trouble.lines),
            Standing::Lost => {
                let title = format!("{} stopped", opening.job.title());
                work.trouble(title, vec!["Reading stopped by an error of the program".into()]);
            }
        }
        None
    }

    /// Leaves off reading.
    pub(in super::super) fn stop_opening(&mut self, work: &mut Work) {
        if self.opening.take().is_some() {
            work.say("Stopped: nothing was opened");
        }
    }
}

/// While a bay is read.
pub(in super::super) fn show_opening(ui: &mut Ui, opening: &Opening, actions: &mut Vec<Action>) {
    let modal = dialog(ui, "opening a bay").show(ui, |ui| {
        ui.set_width(360.0);
        opening.job.line(ui)
    });
    if modal.inner || modal.should_close() {
        actions.push(Action::StopOpening);
    }
}
