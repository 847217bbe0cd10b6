//! Photos and outlines under a view: laid there from a file, brought to scale, straightened, moved,
//! made paler; and meshes taken in as obstacles.
//!
//! `store` has the files read off the window's thread, `picking` is what points come to,
//! `import` lays new ones, `panel`, `selected` and `question` ask, `drop` takes what is dropped on a view.

mod act;
mod decode;
mod drop;
mod import;
mod panel;
pub mod picking;
mod pull;
mod question;
mod selected;
pub(super) mod store;

pub(super) use import::is_bay;

use eframe::egui::Context;
use glam::DVec2;

use self::import::Coming;
use self::picking::Picking;
use self::pull::Pull;
use self::question::Question;
use self::selected::Typing;
use self::store::{Content, Store, Unread, kind_of};
use super::canvas::camera::View;
use super::canvas::looking::Under;
use crate::app::work::Work;
use crate::document::{Document, file};
use crate::model::{Background, BackgroundEntry, Bay};

/// What the window keeps of backgrounds; no part of the document.
#[derive(Default)]
pub(super) struct Desk {
    pub(super) store: Store,
    /// Id of the one whose figures are shown.
    pub(super) selected: Option<String>,
    pub(super) picking: Option<Picking>,
    pull: Option<Pull>,
    question: Option<Question>,
    /// Files that are read to be laid in.
    coming: Vec<Coming>,
    typing: Option<Typing>,
}

impl Desk {
    /// Whether a question is open: it keeps the keys to itself.
    pub(super) fn asks(&self) -> bool {
        self.question.is_some()
    }

    /// Whether a file is still being read.
    pub(super) fn is_reading(&self) -> bool {
        !self.coming.is_empty() || self.store.is_reading()
    }

    /// What the canvas shows of it.
    pub(super) fn under<'a>(&'a self, photos: bool, document: &'a Document) -> Under<'a> {
        Under {
            store: &self.store,
            folder: document.path().map(file::folder_of),
            selected: self.selected.as_deref().filter(|_| photos),
            picking: self.picking.as_ref().or_else(|| self.question.as_ref()?.picking()),
        }
    }
}

/// The backgrounds of a bay that this version knows.
fn known(bay: &Bay) -> impl Iterator<Item = &Background> {
    bay.backgrounds.iter().filter_map(BackgroundEntry::known)
}

impl Desk {
    /// Has the files of all that is shown read, and takes what was read meanwhile.
    pub(super) fn tend(&mut self, work: &mut Work, ctx: &Context) {
        let Some(document) = &work.document else { return };
        let folder = document.path().map(file::folder_of);
        self.store.hear(ctx);
        for background in known(document.bay()).filter(|background| !background.hidden) {
            let path = file::resolve(folder, &background.file);
            self.store.want(ctx, &path, kind_of(background));
        }
        self.take_in(work, ctx);
    }

    /// Why the file of a background cannot be shown, where that is so.
    pub(super) fn background_trouble(
        &self,
        work: &Work,
        background: &Background,
    ) -> Option<&Unread> {
        let folder = work.document.as_ref()?.path().map(file::folder_of);
        let path = file::resolve(folder, &background.file);
        match self.store.get(&path, kind_of(background)) {
            Some(Content::Missing(unread)) => Some(unread),
            _ => None,
        }
    }

    /// Takes a click in a view where points of a background are being picked; says whether it did.
    pub(super) fn click_in_view(&mut self, work: &mut Work, view: View, at_mm: DVec2) -> bool {
        let Some(picking) = &mut self.picking else { return false };
        if View::of(picking.plane) != view {
            let word = picking.plane.word();
            work.say(format!("The background is in the {word} view: click there"));
            return true;
        }
        picking.points.push(at_mm);
        if picking.is_complete()
            && let Some(picking) = self.picking.take()
        {
            self.picked(work, &picking);
        }
        true
    }

    /// What to do next, beside the pointer, while points are picked.
    pub(super) fn picking_advice(&self, work: &Work, ctx: &Context) -> Option<Vec<String>> {
        let picking = self.picking.as_ref()?;
        let at = ctx.input(|i| i.pointer.hover_pos())?;
        let at = DVec2::new(f64::from(at.x), f64::from(at.y));
        let area = work.canvas.areas[View::of(picking.plane).index()];
        area.contains(at).then(|| vec![picking.advice().to_owned()])
    }

    /// Lets go of the innermost thing that is open; says whether there was one.
    pub(super) fn escape(&mut self, work: &mut Work) -> bool {
        self.question.take().is_some()
            || self.picking.take().is_some()
            || std::mem::take(&mut work.photos)
    }
}
