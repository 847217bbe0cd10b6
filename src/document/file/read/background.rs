//! Photos and outlines under a view. A file that is not there is no fault: the bay is whole without
//! it, and the window says so at the place.

use glam::DVec2;

use crate::geom::HomographyError;
use crate::model::{Background, BackgroundEntry, Content, Plane, straighten};

use super::super::json::Json;
use super::cursor::{At, Fields};
use super::kind::{Flag, Kind, Name, Pair, Text, Words};
use super::quantity::Quantity;
use super::unique::Unique;

#[derive(Clone, Copy)]
enum BackgroundKind {
    Photo,
    Outline,
}

const KINDS: [(BackgroundKind, &str); 2] =
    [(BackgroundKind::Photo, "photo"), (BackgroundKind::Outline, "outline")];

const PLANES: Words<Plane> = Words(&Plane::ALL);

const ORIGIN: Pair =
    Pair(Quantity::MM, "a place in the view: two numbers [right, up] (millimetres)");
const SIZE_PX: Pair = Pair(Quantity::SIZE_PX, "two numbers above 0 [width, height] (pixels)");
const RECTANGLE: Pair =
    Pair(Quantity::SIZE, "the sides of a rectangle: two numbers above 0 (millimetres)");
const CORNER: Pair = Pair(Quantity::PIXELS, "two numbers [right, down] (pixels)");
const CORNERS: &str =
    "four corners of a rectangle seen in the photo, in turn: [[right, down], …] (pixels)";

/// Drawn as it is where the file says nothing.
const OPACITY: f64 = 1.0;

pub(super) fn read_backgrounds(f: &Fields<'_>) -> Vec<BackgroundEntry> {
    let seen = Unique::new(None);
    let read = |at: &At<'_>| {
        let items = at.items("a list of backgrounds")?;
        Some(items.iter().map(|item| read_entry(item, &seen)).collect())
    };
    f.get("backgrounds", read).flatten().unwrap_or_default()
}

fn read_entry(at: &At<'_>, seen: &Unique) -> BackgroundEntry {
    match kind_of(at) {
        Some(kind) => {
            let f = at.fields("a background: an object");
            BackgroundEntry::Known(Box::new(read_background(&f, kind, seen)))
        }
        None => BackgroundEntry::Other(at.node.to_value()),
    }
}

/// The kind, where it is one that this version knows.
fn kind_of(at: &At<'_>) -> Option<BackgroundKind> {
    let Json::Object(entries) = &at.node.json else { return None };
    let (_, kind) = entries.iter().find(|(key, _)| key == "kind")?;
    let Json::Text(word) = &kind.json else { return None };
    KINDS.iter().find(|(_, known)| known == word).map(|(kind, _)| *kind)
}

fn read_background(f: &Fields<'_>, kind: BackgroundKind, seen: &Unique) -> Background {
    f.get("kind", |_| ());
    Background {
        id: f.id(seen),
        name: f.maybe("name", &Text).unwrap_or_default(),
        plane: f.must("view", &PLANES).unwrap_or_default(),
        file: f.must("file", &Name("a file beside the bay")).unwrap_or_default(),
        opacity: f.maybe("opacity", &Quantity::SHARE).unwrap_or(OPACITY),
        locked: f.maybe("locked", &Flag).unwrap_or_default(),
        hidden: f.maybe("hidden", &Flag).unwrap_or_default(),
        origin: f.must("origin", &ORIGIN).unwrap_or_default(),
        rotation_deg: f.maybe("rotation_deg", &Quantity::DEGREES).unwrap_or_default(),
        content: match kind {
            BackgroundKind::Photo => read_photo(f),
            BackgroundKind::Outline => {
                Content::Outline { scale: f.must("scale", &Quantity::MM_PER_UNIT).unwrap_or(1.0) }
            }
        },
        extra: f.extra(),
    }
}

fn read_photo(f: &Fields<'_>) -> Content {
    let size_px = f.must("size_px", &SIZE_PX).unwrap_or(DVec2::ONE);
    if !f.has("corners_px") {
        let mm_per_pixel = f.must("mm_per_pixel", &Quantity::MM_PER_PIXEL).unwrap_or(1.0);
        return Content::Photo { size_px, mm_per_pixel };
    }
    let corners_px = f.get("corners_px", read_corners).flatten().unwrap_or_default();
    let rectangle = f.must("rectangle", &RECTANGLE).unwrap_or(DVec2::ONE);
    Content::Straightened { size_px, corners_px, rectangle }
}

fn read_corners(at: &At<'_>) -> Option<[DVec2; 4]> {
    let Some(items) = at.list().filter(|items| items.len() == 4) else {
        at.wrong(CORNERS);
        return None;
    };
    let read: Vec<Option<DVec2>> = items.iter().map(|item| CORNER.accept(item)).collect();
    let corners: Vec<DVec2> = read.into_iter().collect::<Option<_>>()?;
    let corners = <[DVec2; 4]>::try_from(corners).ok()?;
    if let Err(why) = straighten(corners, DVec2::ONE) {
        let hint = match why {
            HomographyError::Mirrored => "name them counter-clockwise as seen in the view",
            HomographyError::OnOneLine => "three of them lie on one line",
            HomographyError::NotConvex | HomographyError::NotFinite => {
                "they do not go round a figure without dents"
            }
        };
        at.wrong_hint(CORNERS, hint.to_owned());
        return None;
    }
    Some(corners)
}
