//! Solids.

use std::sync::Arc;

use glam::DVec3;

use crate::model::{Nature, Shape, Solid};

use super::cursor::{At, Fields};
use super::kind::{Kind, Name, Point, Quantity, Text, Words};
use super::quoted;
use super::reference::Wanted;
use super::unique::Unique;

const NATURES: Words<Nature> = Words(&[
    ("plain", Nature::Plain),
    ("hot", Nature::Hot),
    ("moving", Nature::Moving),
    ("sharp", Nature::Sharp),
]);

#[derive(Clone, Copy)]
enum ShapeKind {
    Box,
    Cylinder,
    Sphere,
    Mesh,
}

const SHAPES: Words<ShapeKind> = Words(&[
    ("box", ShapeKind::Box),
    ("cylinder", ShapeKind::Cylinder),
    ("sphere", ShapeKind::Sphere),
    ("mesh", ShapeKind::Mesh),
]);

pub(super) fn read_solid(f: &Fields<'_>, seen: &Unique) -> Solid {
    Solid {
        id: f.id(seen),
        name: f.maybe("name", &Text).unwrap_or_default(),
        nature: f.maybe("nature", &NATURES).unwrap_or_default(),
        keep_off_mm: f.maybe("keep_off", &Quantity::LENGTH),
        body: f.reference("body", "the id of a body", Wanted::Body),
        shape: match f.must("kind", &SHAPES) {
            Some(ShapeKind::Box) => read_box(f),
            Some(ShapeKind::Cylinder) => read_cylinder(f),
            Some(ShapeKind::Mesh) => read_mesh(f),
            Some(ShapeKind::Sphere) => Shape::Sphere {
                at: f.must("at", &Point).unwrap_or_default(),
                radius: f.must("radius", &Quantity::SIZE).unwrap_or_default(),
            },
            None => Shape::Sphere { at: DVec3::ZERO, radius: 0.0 },
        },
        extra: f.extra(),
    }
}

fn read_box(f: &Fields<'_>) -> Shape {
    let min = f.must("min", &Point);
    let max = f.must("max", &Point);
    if let (Some(min), Some(max)) = (min, max) {
        let axes = [("x", min.x, max.x), ("y", min.y, max.y), ("z", min.z, max.z)];
        for (axis, _, greatest) in axes.iter().filter(|(_, least, greatest)| least > greatest) {
            f.get("min", |at| {
                at.wrong(&format!("{axis} no greater than that of \"max\", {greatest}"));
            });
        }
    }
    Shape::Box { min: min.unwrap_or_default(), max: max.unwrap_or_default() }
}

fn read_cylinder(f: &Fields<'_>) -> Shape {
    let from = f.must("from", &Point);
    let to = f.must("to", &Point);
    if from.is_some() && from == to {
        f.get("to", |at| at.wrong("another place than that of \"from\""));
    }
    Shape::Cylinder {
        from: from.unwrap_or_default(),
        to: to.unwrap_or_default(),
        radius: f.must("radius", &Quantity::SIZE).unwrap_or_default(),
    }
}

fn read_mesh(f: &Fields<'_>) -> Shape {
    let name = Name("a mesh file beside the bay");
    let read = |at: &At<'_>| {
        let file = name.accept(at)?;
        match at.cx.mesh(&file) {
            Ok(mesh) => Some(Shape::Mesh { file, mesh }),
            Err(reason) => {
                at.fault(quoted(&file), "a mesh that can be read", Some(reason));
                None
            }
        }
    };
    let found = f.get("file", read);
    if found.is_none() {
        f.missing("file", &name.expected());
    }
    found
        .flatten()
        .unwrap_or_else(|| Shape::Mesh { file: String::new(), mesh: Arc::default() })
}
