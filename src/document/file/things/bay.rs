//! The top of the file, groups and ports.

use crate::document::file::read::doubts::Family;
use crate::document::file::read::reference::Wanted;
use crate::model::{Bay, Motion, MovingGroup, Port, Tilt};
use crate::units::LengthUnit;

use super::keys::{AtLeastOne, Id, Key, List, Maybe, Must, Or, Part, Refers, Rest, lines, text};
use super::kind::{DIRECTION, Flag, POINT, Row, Whole, Words, span};
use super::quantity::Quantity;
use super::{Entries, Fields, Kinds, Thing, kinds, of_kind, thing};

/// The words for units of display.
const UNITS: Words<LengthUnit> = Words(&[(LengthUnit::Inch, "inch"), (LengthUnit::Mm, "mm")]);

const TILT: Row<[f64; 2], 2> = span(Quantity::TILT);

thing!(Bay {
    title: text("title"),
    notes: lines("notes"),
    show_units: Or("show_units", UNITS, LengthUnit::default()),
    groups: List::new("groups", "a group", "groups").of(Family::MovingGroup),
    ports: List::new("ports", "a port", "ports").of(Family::Port),
    obstacles: List::new("obstacles", "an obstacle", "obstacles").of(Family::Obstacle),
    backgrounds: List::new("backgrounds", "a background", "backgrounds"),
    tilt: Part("tilt_deg", "how far it tilts: an object"),
    stock: Part("stock", "the stock: an object"),
    routings: AtLeastOne(List::new("routings", "a routing", "routings")),
    extra: Rest,
});

thing!(Tilt {
    pitch_deg: Or("pitch", TILT, [0.0; 2]),
    roll_deg: Or("roll", TILT, [0.0; 2]),
    extra: Rest,
});

thing!(MovingGroup {
    id: Id,
    name: text("name"),
    moves: List::new("moves", "a move", "moves"),
    extra: Rest,
});

kinds!(Motion {
    "pivot": Pivot {
        about: Must("about", POINT),
        axis: Must("axis", DIRECTION),
        from_deg: Must("from_deg", Quantity::DEGREES),
        to_deg: Must("to_deg", Quantity::DEGREES),
        extra: Rest,
    },
    "slide": Slide { from: Must("from", POINT), to: Must("to", POINT), extra: Rest },
});

thing!(Port {
    id: Id,
    name: text("name"),
    at: Must("at", POINT),
    toward: Must("toward", DIRECTION),
    dash: Maybe("dash", Whole::DASH),
    group: Refers("group", "the id of a group", Wanted::MovingGroup),
    on: Refers("on", "the id of an obstacle", Wanted::Obstacle),
    locked: Maybe("locked", Flag),
    extra: Rest,
});
