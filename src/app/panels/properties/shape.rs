//! The form of an obstacle.

use std::sync::Arc;

use glam::DVec3;

use crate::app::widgets::{Field, Form, Range};
use crate::model::{Mesh, Shape};
use crate::units::{Length, Measure};

const LEAST: Field<'_> = Field::new("Box from", "One corner of the box", "Change box");
const GREATEST: Field<'_> =
    Field::new("Box to", "The corner opposite to it; the two in any order", "Change box");
const SIZE: Field<'_> = Field::new(
    "Size",
    "How long, wide and high; the corner with the least coordinates stays",
    "Change size of box",
);
const FROM: Field<'_> =
    Field::new("Cylinder from", "The middle of one flat end", "Change cylinder");
const TO: Field<'_> = Field::new("Cylinder to", "The middle of the other", "Change cylinder");
const CENTRE: Field<'_> = Field::new("Centre", "The middle of the sphere", "Move sphere");
const DIAMETER: Field<'_> = Field::new("Diameter", "Across the middle", "Change diameter");
const FILE: Field<'_> = Field::new("Mesh file", "Beside the bay file; read, never changed", "");
const ORIGIN: Field<'_> =
    Field::new("Origin", "Where the file's own origin is in the bay", "Move mesh");
const SCALE: Field<'_> = Field::new(
    "mm per unit",
    "Millimetres per unit of the file: 1 for a drawing in mm, 25.4 for one in inches",
    "Change scale of mesh",
);
const EXTENT: Field<'_> = Field::new("Extent", "How long, wide and high what was read is", "");

pub(super) fn fields(form: &mut Form<'_>, shape: &mut Shape) {
    match shape {
        Shape::Box { min, max } => {
            form.place(&LEAST, vec![min]);
            form.place(&GREATEST, vec![max]);
            (*min, *max) = (min.min(*max), min.max(*max));
            let before = *max - *min;
            let mut size = before;
            form.extent(&SIZE, vec![&mut size]);
            if size != before {
                *max = *min + size;
            }
        }
        Shape::Cylinder { from, to, radius } => {
            form.place(&FROM, vec![from]);
            form.place(&TO, vec![to]);
            diameter(form, radius);
        }
        Shape::Sphere { at, radius } => {
            form.place(&CENTRE, vec![at]);
            diameter(form, radius);
        }
        Shape::Mesh { file, scale, at, mesh } => {
            form.fact(&FILE, file);
            let before = (*at, *scale);
            form.place(&ORIGIN, vec![at]);
            form.figure(&SCALE, Measure::Number, Range::Positive, vec![scale]);
            if (*at, *scale) != before {
                *mesh = Arc::new(placed_again(mesh, before, (*at, *scale)));
            }
            let (least, greatest) = mesh.bounds();
            let size = (greatest - least).to_array();
            let shown = size.map(|mm| Length::from_mm(mm).show(form.units()));
            form.fact(&EXTENT, &shown.join(" \u{d7} "));
        }
    }
}

/// What a builder can measure of a round thing.
fn diameter(form: &mut Form<'_>, radius: &mut f64) {
    let (length, mut across) = (form.length(), 2.0 * *radius);
    let before = across;
    form.figure(&DIAMETER, length, Range::Positive, vec![&mut across]);
    if across != before {
        *radius = across / 2.0;
    }
}

/// A mesh as installed with another origin and scale than it had.
fn placed_again(mesh: &Mesh, before: (DVec3, f64), now: (DVec3, f64)) -> Mesh {
    let by = now.1 / before.1;
    mesh.clone().placed(by, now.0 - by * before.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mesh_placed_again_is_as_if_it_had_been_read_so() {
        let vertices = vec![DVec3::ZERO, DVec3::new(1.0, 2.0, 3.0), DVec3::new(-4.0, 5.0, 0.5)];
        let file = Mesh::new(vertices, vec![[0, 1, 2]]);
        let before = (DVec3::new(10.0, -3.0, 7.0), 1.0);
        let now = (DVec3::new(-2.0, 8.0, 100.0), 25.4);
        let read = |(at, scale): (DVec3, f64)| file.clone().placed(scale, at);
        let moved = placed_again(&read(before), before, now);
        for (a, b) in moved.vertices().zip(read(now).vertices()) {
            assert!(a.distance(b) < 1e-9, "{a} {b}");
        }
    }
}
