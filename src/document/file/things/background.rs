//! Photos and outlines under a view. A file that is not there is no fault: the bay is whole without
//! it, and the window says so at the place.

use glam::DVec2;

use crate::document::file::json::{Json, Node};
use crate::geom::HomographyError;
use crate::model::{Background, BackgroundEntry, Content, Plane, straighten};

use super::keys::{Id, Key, Must, Or, Rest, Unless, text};
use super::kind::{Flag, Name, Row, Words};
use super::quantity::Quantity;
use super::{
    At, Entries, Fields, Item, Kind, Kinds, Read, Thing, Tree, Unique, kinds, of_kind, thing,
};

const ORIGIN: Row<DVec2, 2> =
    Row::of(Quantity::MM, "a place in the view: two numbers [right, up] (millimetres)");
const SIZE_PX: Row<DVec2, 2> =
    Row::of(Quantity::SIZE_PX, "two numbers above 0 [width, height] (pixels)");
const RECTANGLE: Row<DVec2, 2> =
    Row::of(Quantity::SIZE, "the sides of a rectangle: two numbers above 0 (millimetres)");
const CORNER: Row<DVec2, 2> = Row::of(Quantity::PIXELS, "two numbers [right, down] (pixels)");
const CORNERS: &str =
    "four corners of a rectangle seen in the photo, in turn: [[right, down], …] (pixels)";

/// Its kind stands before it, though what it says is further down.
const VIEW: &str = "view";

thing!(Background {
    id: Id,
    name: text("name"),
    plane: Must(VIEW, Words(&Plane::ALL)),
    file: Must("file", Name("a file beside the bay")),
    opacity: Or("opacity", Quantity::SHARE, 1.0),
    locked: Unless("locked", Flag, false),
    hidden: Unless("hidden", Flag, false),
    origin: Must("origin", ORIGIN),
    rotation_deg: Unless("rotation_deg", Quantity::DEGREES, 0.0),
    content: Drawn,
    extra: Rest,
});

// A photo with corners is straightened by them.
kinds!(Content {
    "photo": Photo {
        size_px: Must("size_px", SIZE_PX),
        mm_per_pixel: Must("mm_per_pixel", Quantity::MM_PER_PIXEL),
    },
    "photo": Straightened {
        size_px: Must("size_px", SIZE_PX),
        corners_px: Must("corners_px", Corners),
        rectangle: Must("rectangle", RECTANGLE),
    },
    "outline": Outline { scale: Must("scale", Quantity::MM_PER_UNIT) },
});

/// The members by the kind of the background, which itself stands further up.
struct Drawn;

impl Key<Content> for Drawn {
    fn read(&self, f: &Fields<'_>) -> Content {
        let read = f.get("kind", |at| reader(at.node, f.has("corners_px"))).flatten();
        read.map_or(Content::Outline { scale: 1.0 }, |read| read(f))
    }

    fn write<'a>(&self, value: &'a Content, to: &mut Entries<'a>) {
        to.put_before(VIEW, "kind", value.word());
        value.write_members(to);
    }
}

impl Item for BackgroundEntry {
    fn read_item(at: &At<'_>, object: &str, seen: &Unique) -> Self {
        if at.node.member("kind").is_some_and(|kind| reader(kind, false).is_some()) {
            Self::Known(Box::new(Item::read_item(at, object, seen)))
        } else {
            Self::Other(at.node.to_value())
        }
    }

    fn tree(&self) -> Tree<'_> {
        match self {
            Self::Known(background) => background.tree(),
            Self::Other(whole) => whole.into(),
        }
    }
}

/// How what is of this kind is read; none where the kind is not known.
fn reader(kind: &Node, has_corners: bool) -> Option<Read<Content>> {
    let is_this = |word: &str| matches!(&kind.json, Json::Text(text) if text == word);
    let mut of_kind = Content::KINDS.iter().filter(|(_, word)| is_this(word));
    let found = if has_corners { of_kind.next_back() } else { of_kind.next() };
    found.map(|(read, _)| *read)
}

/// The corners of a rectangle in a photo.
struct Corners;

impl Kind for Corners {
    type Out = [DVec2; 4];

    fn expected(&self) -> String {
        CORNERS.to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<[DVec2; 4]> {
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

    fn tree<'a>(&self, corners: &'a [DVec2; 4]) -> Tree<'a> {
        Tree::List(corners.iter().map(|corner| CORNER.tree(corner)).collect())
    }
}
