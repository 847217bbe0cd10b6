//! The top of the file: title, groups, ports.

use glam::DVec3;

use crate::model::{Bay, Extra, Motion, MovingGroup, Port, Tilt};
use crate::units::LengthUnit;

use super::context::Family;
use super::cursor::{At, Fields};
use super::kind::{Direction, Kind, Lines, Name, Point, Span, Text, Whole, Words};
use super::quantity::Quantity;
use super::reference::Wanted;
use super::unique::Unique;
use super::{background, obstacle, route, stock};

/// The words for units of display.
const UNITS: Words<LengthUnit> = Words(&[(LengthUnit::Inch, "inch"), (LengthUnit::Mm, "mm")]);

/// The bay. Where something is faulty, a stand-in is in its place; then the bay is not to be used.
pub(super) fn read_bay(file: &At<'_>) -> Bay {
    let f = file.fields("a bay: an object");
    f.get("format", |_| ());
    f.get("version", |_| ());
    Bay {
        title: f.maybe("title", &Text).unwrap_or_default(),
        notes: f.maybe("notes", &Lines).unwrap_or_default(),
        show_units: f.maybe("show_units", &UNITS).unwrap_or_default(),
        groups: f.listed("groups", ("a group", "groups"), Some(Family::MovingGroup), read_group),
        ports: f.listed("ports", ("a port", "ports"), Some(Family::Port), read_port),
        obstacles: f.listed(
            "obstacles",
            ("an obstacle", "obstacles"),
            Some(Family::Obstacle),
            obstacle::read_obstacle,
        ),
        backgrounds: background::read_backgrounds(&f),
        tilt: f.get("tilt_deg", read_tilt),
        stock: f.get("stock", stock::read_stock).unwrap_or_default(),
        routings: route::read_routings(&f),
        extra: f.extra(),
    }
}

fn read_tilt(at: &At<'_>) -> Tilt {
    let f = at.fields("how far it tilts: an object");
    let span = |key| f.maybe(key, &Span(Quantity::TILT)).unwrap_or_default();
    Tilt { pitch_deg: span("pitch"), roll_deg: span("roll"), extra: f.extra() }
}

fn read_group(f: &Fields<'_>, seen: &Unique) -> MovingGroup {
    MovingGroup {
        id: f.id(seen),
        name: f.maybe("name", &Text).unwrap_or_default(),
        moves: f.objects("moves", "a list of moves", "a move: an object", read_motion),
        extra: f.extra(),
    }
}

#[derive(Clone, Copy)]
enum MotionKind {
    Pivot,
    Slide,
}

fn read_motion(f: &Fields<'_>) -> Motion {
    let kinds = Words(&[(MotionKind::Pivot, "pivot"), (MotionKind::Slide, "slide")]);
    match f.must("kind", &kinds) {
        Some(MotionKind::Pivot) => Motion::Pivot {
            about: f.must("about", &Point).unwrap_or_default(),
            axis: f.must("axis", &Direction).unwrap_or_default(),
            from_deg: f.must("from_deg", &Quantity::DEGREES).unwrap_or_default(),
            to_deg: f.must("to_deg", &Quantity::DEGREES).unwrap_or_default(),
            extra: f.extra(),
        },
        Some(MotionKind::Slide) => Motion::Slide {
            from: f.must("from", &Point).unwrap_or_default(),
            to: f.must("to", &Point).unwrap_or_default(),
            extra: f.extra(),
        },
        None => Motion::Slide { from: DVec3::ZERO, to: DVec3::ZERO, extra: Extra::new() },
    }
}

fn read_port(f: &Fields<'_>, seen: &Unique) -> Port {
    Port {
        id: f.id(seen),
        name: f.maybe("name", &Text).unwrap_or_default(),
        at: f.must("at", &Point).unwrap_or_default(),
        toward: f.must("toward", &Direction).unwrap_or_default(),
        dash: f.maybe("dash", &Whole::DASH),
        group: f.reference("group", "the id of a group", Wanted::MovingGroup),
        on: f.reference("on", "the id of an obstacle", Wanted::Obstacle),
        extra: f.extra(),
    }
}

impl Fields<'_> {
    /// The id of something that has to exist elsewhere in the file; none where it is absent or
    /// faulty.
    pub(super) fn reference(
        &self,
        key: &'static str,
        what: &'static str,
        wanted: impl FnOnce(String) -> Wanted,
    ) -> Option<String> {
        let read = |at: &At<'_>| {
            let id = Name(what).accept(at)?;
            at.want(wanted(id.clone()));
            Some(id)
        };
        self.get(key, read).flatten()
    }

    /// The same where it must be there; empty where it is absent or faulty.
    pub(super) fn must_reference(
        &self,
        key: &'static str,
        what: &'static str,
        wanted: impl FnOnce(String) -> Wanted,
    ) -> String {
        if self.has(key) {
            return self.reference(key, what, wanted).unwrap_or_default();
        }
        self.missing(key, &Name(what).expected());
        String::new()
    }
}
