//! Obstacles.

use std::sync::Arc;

use glam::DVec3;

use crate::document::file::json::quoted;
use crate::document::file::read::reference::Wanted;
use crate::model::{Mesh, Nature, Obstacle, Shape};

use super::keys::{Flat, Id, Key, Maybe, Must, Or, Refers, Rest, Unless, text};
use super::kind::{Flag, Name, POINT, Words};
use super::quantity::Quantity;
use super::{At, Entries, Fields, Kinds, Thing, kinds, of_kind, thing};

thing!(Obstacle {
    id: Id,
    name: text("name"),
    nature: Or("nature", Words(&Nature::ALL), Nature::default()),
    min_clearance_mm: Maybe("min_clearance", Quantity::LENGTH),
    group: Refers("group", "the id of a group", Wanted::MovingGroup),
    shape: Flat,
    locked: Maybe("locked", Flag),
    extra: Rest,
});

kinds!(Shape {
    "box": Box { min: Must("min", POINT), max: Must("max", POINT) },
    "cylinder": Cylinder {
        from: Must("from", POINT),
        to: Must("to", POINT),
        radius: Must("radius", Quantity::SIZE),
    },
    "sphere": Sphere { at: Must("at", POINT), radius: Must("radius", Quantity::SIZE) },
    "mesh": Mesh {
        file: Must("file", Name("a mesh file beside the bay")),
        scale: Unless("scale", Quantity::MM_PER_UNIT, 1.0),
        at: Unless("at", POINT, DVec3::ZERO),
        mesh: Loaded { file: &file, scale: &scale, at: &at },
    },
} then check);

/// A box is not turned inside out, nor is a cylinder flat.
fn check(f: &Fields<'_>, shape: &Shape) {
    match shape {
        Shape::Box { min, max } if f.are_sound(["min", "max"]) => {
            f.get("min", |at| check_order(at, *min, *max));
        }
        Shape::Cylinder { from, to, .. } if from == to && f.are_sound(["from", "to"]) => {
            f.get("to", |at| at.wrong("another place than that of \"from\""));
        }
        _ => {}
    }
}

fn check_order(least: &At<'_>, min: DVec3, max: DVec3) {
    let coordinates = min.to_array().into_iter().zip(max.to_array());
    for (item, (min, max)) in least.list().unwrap_or_default().iter().zip(coordinates) {
        if min > max {
            item.wrong(&format!("no more than what \"max\" has here, {max}"));
        }
    }
}

/// The mesh of a file, in its unit and at its place.
struct Loaded<'a> {
    file: &'a str,
    scale: &'a f64,
    at: &'a DVec3,
}

impl Key<Arc<Mesh>> for Loaded<'_> {
    fn read(&self, f: &Fields<'_>) -> Arc<Mesh> {
        let load = |at: &At<'_>| {
            let refused =
                |reason| at.fault(quoted(self.file), "a mesh that can be read", Some(reason));
            at.cx.mesh(self.file, *self.scale, *self.at).map_err(refused).ok()
        };
        let mesh = if f.are_sound(["file"]) { f.get("file", load).flatten() } else { None };
        mesh.unwrap_or_default()
    }

    fn write<'a>(&self, _: &'a Arc<Mesh>, _: &mut Entries<'a>) {}
}
