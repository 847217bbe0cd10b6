//! Obstacles.

use std::sync::Arc;

use glam::DVec3;

use crate::model::{Nature, Obstacle, Shape};

use super::cursor::{At, Fields};
use super::kind::{Kind, Name, Point, Text, Words};
use super::quantity::Quantity;
use super::quoted;
use super::reference::Wanted;
use super::unique::Unique;

const NATURES: Words<Nature> = Words(&Nature::ALL);

#[derive(Clone, Copy)]
enum ShapeKind {
    Box,
    Cylinder,
    Sphere,
    Mesh,
}

const SHAPES: Words<ShapeKind> = Words(&[
    (ShapeKind::Box, "box"),
    (ShapeKind::Cylinder, "cylinder"),
    (ShapeKind::Sphere, "sphere"),
    (ShapeKind::Mesh, "mesh"),
]);

pub(super) fn read_obstacle(f: &Fields<'_>, seen: &Unique) -> Obstacle {
    Obstacle {
        id: f.id(seen),
        name: f.maybe("name", &Text).unwrap_or_default(),
        nature: f.maybe("nature", &NATURES).unwrap_or_default(),
        min_clearance_mm: f.maybe("min_clearance", &Quantity::LENGTH),
        group: f.reference("group", "the id of a group", Wanted::MovingGroup),
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
        f.get("min", |at| check_order(at, min, max));
    }
    Shape::Box { min: min.unwrap_or_default(), max: max.unwrap_or_default() }
}

/// A box turned inside out has a least coordinate above the greatest.
fn check_order(least: &At<'_>, min: DVec3, max: DVec3) {
    let coordinates = min.to_array().into_iter().zip(max.to_array());
    for (item, (min, max)) in least.list().unwrap_or_default().iter().zip(coordinates) {
        if min > max {
            item.wrong(&format!("no more than what \"max\" has here, {max}"));
        }
    }
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
    let scale = f.maybe("scale", &Quantity::MM_PER_UNIT).unwrap_or(1.0);
    let origin = f.maybe("at", &Point).unwrap_or_default();
    let read = |at: &At<'_>| {
        let file = name.accept(at)?;
        match at.cx.mesh(&file, scale, origin) {
            Ok(mesh) => Some(Shape::Mesh { file, scale, at: origin, mesh }),
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
    found.flatten().unwrap_or_else(|| Shape::Mesh {
        file: String::new(),
        scale,
        at: origin,
        mesh: Arc::default(),
    })
}
