//! The form of a solid.

use crate::app::widgets::{Field, Form, Range};
use crate::model::Shape;
use crate::units::Length;

const LEAST: Field<'_> =
    Field::new("Box from", "The corner with the least coordinates", "Change box");
const GREATEST: Field<'_> =
    Field::new("Box to", "The corner with the greatest coordinates", "Change box");
const SIZE: Field<'_> = Field::new(
    "Size",
    "How long, wide and high; the corner with the least coordinates stays",
    "Change size of box",
);
const FROM: Field<'_> =
    Field::new("Cylinder from", "The middle of one flat end", "Change cylinder");
const TO: Field<'_> = Field::new("Cylinder to", "The middle of the other", "Change cylinder");
const CENTRE: Field<'_> = Field::new("Centre", "The middle of the sphere", "Move sphere");
const RADIUS: Field<'_> = Field::new("Radius", "Half its diameter", "Change radius");
const FILE: Field<'_> = Field::new("Mesh file", "Beside the bay file; read as it stands", "");
const EXTENT: Field<'_> = Field::new("Extent", "How long, wide and high what was read is", "");

pub(super) fn fields(form: &mut Form<'_>, shape: &mut Shape) {
    let length = form.length();
    match shape {
        Shape::Box { min, max } => {
            form.place(&LEAST, vec![min]);
            form.place(&GREATEST, vec![max]);
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
            form.figure(&RADIUS, length, Range::Positive, vec![radius]);
        }
        Shape::Sphere { at, radius } => {
            form.place(&CENTRE, vec![at]);
            form.figure(&RADIUS, length, Range::Positive, vec![radius]);
        }
        Shape::Mesh { file, mesh, .. } => {
            form.fact(&FILE, file);
            let (least, greatest) = mesh.bounds();
            let size = (greatest - least).to_array();
            let shown = size.map(|mm| Length::from_mm(mm).show(form.units()));
            form.fact(&EXTENT, &shown.join(" \u{d7} "));
        }
    }
}
