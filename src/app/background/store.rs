//! The files of backgrounds, read once each in a thread of their own; the window goes on drawing.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};

use eframe::egui::{Context, TextureHandle, TextureOptions};

use super::decode::{self, Photo};
use crate::document::file::{OutlineDrawing, load_mesh, load_outline};
use crate::model::{self, Background, Mesh};

/// What a file is read as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::app) enum Kind {
    Photo,
    Outline,
    Mesh,
}

/// How far a chord of an outline may be from its curve, mm: less than a line's width at the
/// closest look.
const ACCURACY_MM: f64 = 0.02;

/// No side of a texture is larger, whatever the graphics card allows.
const MOST_SIDE: usize = 4096;

/// A file's state.
pub(in crate::app) enum Content {
    Loading,
    Photo(Picture),
    Outline(Arc<OutlineDrawing>),
    Mesh(Arc<Mesh>),
    /// It cannot be shown.
    Missing(Unread),
}

/// Why a file could not be read.
pub(in crate::app) struct Unread {
    /// Whether it was there when it was looked for.
    is_there: bool,
    pub(in crate::app) why: String,
}

impl Unread {
    /// In a sentence about the file.
    pub(super) fn said(&self) -> String {
        let what = if self.is_there { "It cannot be shown" } else { "It is missing" };
        format!("{what}: {}", self.why)
    }
}

/// A photo that can be painted.
pub(in crate::app) struct Picture {
    /// Its upright size in the file, pixels.
    pub(in crate::app) size_px: [u32; 2],
    /// The largest first, each half the one before.
    levels: Vec<TextureHandle>,
}

impl Picture {
    /// The texture whose pixels are nearest to the screen's, where one of the photo's own pixels is
    /// so many screen pixels wide.
    pub(in crate::app) fn level(&self, screen_pixels: f64) -> Option<&TextureHandle> {
        let own = self.levels.first()?.size()[0] as f64;
        let shown = f64::from(self.size_px[0]) * screen_pixels;
        let halvings = (own / shown.max(1.0)).log2().round().max(0.0) as usize;
        self.levels.get(halvings.min(self.levels.len() - 1))
    }
}

enum Read {
    Photo(Photo),
    Outline(OutlineDrawing),
    Mesh(Mesh),
}

struct Job {
    path: PathBuf,
    kind: Kind,
    most_side: u32,
}

type Done = (PathBuf, Kind, Result<Read, Unread>);

/// What was read so far.
#[derive(Default)]
pub(in crate::app) struct Store {
    contents: BTreeMap<(PathBuf, Kind), Content>,
    reader: Option<(Sender<Job>, Receiver<Done>)>,
}

impl Store {
    /// What is known of a file.
    pub(in crate::app) fn get(&self, path: &Path, kind: Kind) -> Option<&Content> {
        self.contents.get(&(path.to_owned(), kind))
    }

    /// Has a file read, where that was not asked before.
    pub(super) fn want(&mut self, ctx: &Context, path: &Path, kind: Kind) {
        let key = (path.to_owned(), kind);
        if self.contents.contains_key(&key) {
            return;
        }
        let (jobs, _) = self.reader.get_or_insert_with(|| start(ctx.clone()));
        let most_side = ctx.input(|i| i.max_texture_side).min(MOST_SIDE) as u32;
        let sent = jobs.send(Job { path: path.to_owned(), kind, most_side });
        self.contents.insert(
            key,
            match sent {
                Ok(()) => Content::Loading,
                Err(_) => Content::Missing(Unread {
                    is_there: true,
                    why: "it could not be read".to_owned(),
                }),
            },
        );
    }

    /// Takes what was read meanwhile.
    pub(super) fn hear(&mut self, ctx: &Context) {
        let Some((_, done)) = &self.reader else { return };
        for (path, kind, read) in done.try_iter() {
            let content = match read {
                Ok(Read::Photo(photo)) => Content::Photo(upload(ctx, &path, photo)),
                Ok(Read::Outline(outline)) => Content::Outline(Arc::new(outline)),
                Ok(Read::Mesh(mesh)) => Content::Mesh(Arc::new(mesh)),
                Err(why) => Content::Missing(why),
            };
            self.contents.insert((path, kind), content);
        }
    }

    /// Forgets a file: it is read again when it is wanted.
    pub(super) fn forget(&mut self, path: &Path) {
        self.contents.retain(|(known, _), _| known != path);
    }

    /// Whether anything is still being read.
    pub(super) fn is_reading(&self) -> bool {
        self.contents.values().any(|content| matches!(content, Content::Loading))
    }
}

fn upload(ctx: &Context, path: &Path, photo: Photo) -> Picture {
    let name = path.to_string_lossy();
    let texture = |image| ctx.load_texture(&*name, image, TextureOptions::LINEAR);
    Picture { size_px: photo.size_px, levels: photo.levels.into_iter().map(texture).collect() }
}

/// One thread that reads one file after the other: photos are large.
fn start(ctx: Context) -> (Sender<Job>, Receiver<Done>) {
    let (job_in, jobs) = channel::<Job>();
    let (done_in, done) = channel();
    std::thread::spawn(move || {
        for job in jobs {
            let read = read(&job).map_err(|why| Unread { is_there: job.path.exists(), why });
            // The window may be gone; then nobody wants the answer.
            if done_in.send((job.path, job.kind, read)).is_err() {
                return;
            }
            ctx.request_repaint();
        }
    });
    (job_in, done)
}

fn read(job: &Job) -> Result<Read, String> {
    match job.kind {
        Kind::Photo => decode::photo(&job.path, job.most_side).map(Read::Photo),
        Kind::Outline => load_outline(&job.path, ACCURACY_MM)
            .map(Read::Outline)
            .map_err(|error| error.to_string()),
        Kind::Mesh => load_mesh(&job.path).map(|mesh| {
            // It is asked for in the window's next frame, where it is in millimetres.
            mesh.field();
            Read::Mesh(mesh)
        }),
    }
}

/// What a background's file is read as.
pub(in crate::app) fn kind_of(background: &Background) -> Kind {
    match background.content {
        model::Content::Outline { .. } => Kind::Outline,
        model::Content::Photo { .. } | model::Content::Straightened { .. } => Kind::Photo,
    }
}
