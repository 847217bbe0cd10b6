//! Photos and outlines under a view.

use crate::model::{Background, BackgroundEntry, Content};

use super::tree::{Entries, Tree};

pub(super) fn entry(entry: &BackgroundEntry) -> Tree<'_> {
    match entry {
        BackgroundEntry::Known(background) => known(background),
        BackgroundEntry::Other(whole) => Tree::from(whole),
    }
}

fn known(background: &Background) -> Tree<'_> {
    let kind = match background.content {
        Content::Photo { .. } | Content::Straightened { .. } => "photo",
        Content::Outline { .. } => "outline",
    };
    let if_so = |flag: bool| flag.then_some(true);
    let entries = Entries::new()
        .put("id", &*background.id)
        .text("name", &background.name)
        .put("kind", kind)
        .put("view", background.plane.word())
        .put("file", &*background.file)
        .put("opacity", background.opacity)
        .maybe("locked", if_so(background.locked))
        .maybe("hidden", if_so(background.hidden))
        .put("origin", background.origin)
        .maybe("rotation_deg", Some(background.rotation_deg).filter(|deg| *deg != 0.0));
    let entries = match &background.content {
        Content::Photo { size_px, mm_per_pixel } => {
            entries.put("size_px", *size_px).put("mm_per_pixel", *mm_per_pixel)
        }
        Content::Straightened { size_px, corners_px, rectangle } => entries
            .put("size_px", *size_px)
            .put("corners_px", Tree::List(corners_px.iter().map(|p| (*p).into()).collect()))
            .put("rectangle", *rectangle),
        Content::Outline { scale } => entries.put("scale", *scale),
    };
    entries.extra(&background.extra)
}
