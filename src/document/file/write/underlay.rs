//! Photos and outlines under a view.

use crate::model::{Content, Underlay, UnderlayEntry};

use super::tree::{Entries, Tree};

pub(super) fn entry(entry: &UnderlayEntry) -> Tree<'_> {
    match entry {
        UnderlayEntry::Known(underlay) => known(underlay),
        UnderlayEntry::Other(whole) => Tree::from(whole),
    }
}

fn known(underlay: &Underlay) -> Tree<'_> {
    let kind = match underlay.content {
        Content::Photo { .. } | Content::Straightened { .. } => "photo",
        Content::Outline { .. } => "outline",
    };
    let if_so = |flag: bool| flag.then_some(true);
    let entries = Entries::new()
        .put("id", &*underlay.id)
        .text("name", &underlay.name)
        .put("kind", kind)
        .put("view", underlay.plane.word())
        .put("file", &*underlay.file)
        .put("opacity", underlay.opacity)
        .maybe("locked", if_so(underlay.locked))
        .maybe("hidden", if_so(underlay.hidden))
        .put("origin", underlay.origin)
        .maybe("rotation_deg", Some(underlay.rotation_deg).filter(|deg| *deg != 0.0));
    let entries = match &underlay.content {
        Content::Photo { size_px, mm_per_pixel } => {
            entries.put("size_px", *size_px).put("mm_per_pixel", *mm_per_pixel)
        }
        Content::Straightened { size_px, corners_px, rectangle } => entries
            .put("size_px", *size_px)
            .put("corners_px", Tree::List(corners_px.iter().map(|p| (*p).into()).collect()))
            .put("rectangle", *rectangle),
        Content::Outline { scale } => entries.put("scale", *scale),
    };
    entries.extra(&underlay.extra)
}
