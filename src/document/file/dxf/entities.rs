//! The entities of a drawing to polylines in its plane (looked at along −Z).

use std::collections::{BTreeMap, BTreeSet, HashMap};

use dxf::entities::{Entity, EntityType, Insert, LwPolyline, Polyline};
use dxf::{Block, Drawing, Point, Vector};
use glam::{DAffine3, DMat3, DQuat, DVec2, DVec3, dvec2, dvec3};

use super::OutlineError;
use super::curves::{Spline, after, bulged, ellipse};

/// Coordinates above this are refused, as those of the bay are.
const FARTHEST: f64 = 1e9;

/// Points above this are refused.
const MOST_POINTS: usize = 2_000_000;

/// Blocks in blocks beyond this are left out: they would contain themselves.
const DEEPEST: usize = 16;

/// Copies of one block in rows and columns beyond this are refused.
const MOST_COPIES: usize = 10_000;

type Counted = Vec<(String, usize)>;

pub(super) fn flatten(
    drawing: &Drawing,
    accuracy: f64,
) -> Result<(Vec<Vec<DVec2>>, Counted), OutlineError> {
    let hidden = drawing.layers().filter(|layer| !layer.is_layer_on).map(|layer| &*layer.name);
    let mut pen = Pen {
        blocks: drawing.blocks().map(|block| (&*block.name, block)).collect(),
        hidden: hidden.collect(),
        accuracy,
        lines: Vec::new(),
        points: 0,
        visits: 0,
        left_out: BTreeMap::new(),
    };
    for entity in drawing.entities() {
        pen.entity(entity, &DAffine3::IDENTITY, 0)?;
    }
    Ok((pen.lines, pen.left_out.into_iter().collect()))
}

struct Pen<'a> {
    blocks: HashMap<&'a str, &'a Block>,
    hidden: BTreeSet<&'a str>,
    accuracy: f64,
    lines: Vec<Vec<DVec2>>,
    points: usize,
    visits: usize,
    left_out: BTreeMap<String, usize>,
}

impl<'a> Pen<'a> {
    fn entity(
        &mut self,
        entity: &'a Entity,
        place: &DAffine3,
        depth: usize,
    ) -> Result<(), OutlineError> {
        let common = &entity.common;
        if common.is_in_paper_space || !common.is_visible || self.hidden.contains(&*common.layer) {
            return Ok(());
        }
        self.visits += 1;
        if self.visits > MOST_POINTS {
            return Err(too_many());
        }
        let accuracy = self.accuracy / scale_of(place);
        match &entity.specific {
            EntityType::Line(line) => self.draw(&[point(&line.p1), point(&line.p2)], place),
            EntityType::Circle(circle) => {
                let [x, y, _] = axes(&circle.normal);
                let centre = in_axes(&circle.normal, point(&circle.center));
                let half = [x * circle.radius, y * circle.radius];
                let turn = std::f64::consts::TAU;
                self.draw(&ellipse(centre, half, 0.0, turn, accuracy), place)
            }
            EntityType::Arc(arc) => {
                let [x, y, _] = axes(&arc.normal);
                let centre = in_axes(&arc.normal, point(&arc.center));
                let half = [x * arc.radius, y * arc.radius];
                let from = arc.start_angle.to_radians();
                let to = after(from, arc.end_angle.to_radians());
                self.draw(&ellipse(centre, half, from, to, accuracy), place)
            }
            EntityType::Ellipse(oval) => {
                let major = vector(&oval.major_axis);
                let minor = axes(&oval.normal)[2].cross(major) * oval.minor_axis_ratio;
                let to = after(oval.start_parameter, oval.end_parameter);
                let half = [major, minor];
                let line = ellipse(point(&oval.center), half, oval.start_parameter, to, accuracy);
                self.draw(&line, place)
            }
            EntityType::LwPolyline(line) => {
                self.draw(&lw_polyline(line, common.elevation, accuracy), place)
            }
            EntityType::Polyline(line) => match polyline(line, accuracy) {
                Some(line) => self.draw(&line, place),
                None => self.leave_out("POLYLINE mesh"),
            },
            EntityType::Spline(spline) => {
                let curve = Spline {
                    degree: usize::try_from(spline.degree_of_curve).unwrap_or_default(),
                    knots: &spline.knot_values,
                    points: spline.control_points.iter().map(point).collect(),
                    weights: &spline.weight_values,
                };
                match curve.flatten(accuracy) {
                    Some(line) => self.draw(&line, place),
                    None => self.leave_out("SPLINE without control points"),
                }
            }
            EntityType::Insert(insert) => self.insert(insert, place, depth),
            other => self.leave_out(&name(other)),
        }
    }

    fn insert(
        &mut self,
        insert: &Insert,
        place: &DAffine3,
        depth: usize,
    ) -> Result<(), OutlineError> {
        let block = self.blocks.get(&*insert.name).copied();
        let (Some(block), true) = (block, depth < DEEPEST) else {
            return self.leave_out("INSERT of no block");
        };
        let count = |count: i16| usize::try_from(count).unwrap_or_default().max(1);
        let (columns, rows) = (count(insert.column_count), count(insert.row_count));
        if columns * rows > MOST_COPIES {
            return Err(too_many());
        }
        let [x, y, z] = axes(&insert.extrusion_direction);
        let frame = DAffine3::from_mat3(DMat3::from_cols(x, y, z));
        let turn = DQuat::from_rotation_z(insert.rotation.to_radians());
        let scale = dvec3(insert.x_scale_factor, insert.y_scale_factor, insert.z_scale_factor);
        for (column, row) in (0..columns).flat_map(|c| (0..rows).map(move |r| (c, r))) {
            let step =
                dvec3(column as f64 * insert.column_spacing, row as f64 * insert.row_spacing, 0.0);
            let at = point(&insert.location) + turn * step;
            let here = *place
                * frame
                * DAffine3::from_scale_rotation_translation(scale, turn, at)
                * DAffine3::from_translation(-point(&block.base_point));
            for entity in &block.entities {
                self.entity(entity, &here, depth + 1)?;
            }
        }
        Ok(())
    }

    fn draw(&mut self, line: &[DVec3], place: &DAffine3) -> Result<(), OutlineError> {
        let flat = line.iter().map(|p| place.transform_point3(*p).truncate());
        let flat: Vec<DVec2> = flat.collect();
        if flat.len() < 2 || !flat.iter().all(|p| p.abs().max_element() <= FARTHEST) {
            return self.leave_out("damaged line");
        }
        self.points += flat.len();
        if self.points > MOST_POINTS {
            return Err(too_many());
        }
        self.lines.push(flat);
        Ok(())
    }

    #[allow(clippy::unnecessary_wraps, reason = "the other arms of the match can fail")]
    fn leave_out(&mut self, what: &str) -> Result<(), OutlineError> {
        *self.left_out.entry(what.to_owned()).or_default() += 1;
        Ok(())
    }
}

fn too_many() -> OutlineError {
    OutlineError::TooLarge(format!("{MOST_POINTS} points"))
}

/// How much a place enlarges at most.
fn scale_of(place: &DAffine3) -> f64 {
    let m = place.matrix3;
    let most = m.x_axis.length().max(m.y_axis.length()).max(m.z_axis.length());
    if most.is_finite() && most > 0.0 { most } else { 1.0 }
}

fn lw_polyline(line: &LwPolyline, height: f64, accuracy: f64) -> Vec<DVec3> {
    let vertices = line.vertices.iter().map(|v| (dvec2(v.x, v.y), v.bulge));
    let flat = with_bulges(&vertices.collect::<Vec<_>>(), line.is_closed(), accuracy);

    flat.into_iter().map(|p| in_axes(&line.extrusion_direction, p.extend(height))).collect()
}

/// None for meshes, which are no lines.
fn polyline(line: &Polyline, accuracy: f64) -> Option<Vec<DVec3>> {
    if line.is_3d_polygon_mesh() || line.is_polyface_mesh() {
        return None;
    }
    let vertices = line.vertices().filter(|v| !v.is_spline_frame_control_point());
    if line.is_3d_polyline() {
        let mut points: Vec<DVec3> = vertices.map(|v| point(&v.location)).collect();
        if line.is_closed() {
            points.extend(points.first().copied());
        }
        return Some(points);
    }
    let vertices = vertices.map(|v| (dvec2(v.location.x, v.location.y), v.bulge));
    let flat = with_bulges(&vertices.collect::<Vec<_>>(), line.is_closed(), accuracy);
    let height = line.location.z;
    Some(flat.into_iter().map(|p| in_axes(&line.normal, p.extend(height))).collect())
}

fn with_bulges(vertices: &[(DVec2, f64)], closed: bool, accuracy: f64) -> Vec<DVec2> {
    let Some((first, _)) = vertices.first() else { return Vec::new() };
    let mut points = vec![*first];
    let count = if closed { vertices.len() } else { vertices.len() - 1 };
    for i in 0..count {
        let ((a, bulge), (b, _)) = (vertices[i], vertices[(i + 1) % vertices.len()]);
        points.extend(bulged(a, b, bulge, accuracy));
    }
    points
}

fn point(p: &Point) -> DVec3 {
    dvec3(p.x, p.y, p.z)
}

fn vector(v: &Vector) -> DVec3 {
    dvec3(v.x, v.y, v.z)
}

/// The axes of the plane that an entity was drawn in, from its extrusion direction: the arbitrary
/// axis algorithm (DXF reference, "Object Coordinate Systems").
fn axes(normal: &Vector) -> [DVec3; 3] {
    const NEAR_Z: f64 = 1.0 / 64.0;
    let z = vector(normal).try_normalize().unwrap_or(DVec3::Z);
    let seed = if z.x.abs() < NEAR_Z && z.y.abs() < NEAR_Z { DVec3::Y } else { DVec3::Z };
    let x = seed.cross(z).normalize_or(DVec3::X);
    [x, z.cross(x), z]
}

fn in_axes(normal: &Vector, p: DVec3) -> DVec3 {
    let [x, y, z] = axes(normal);
    x * p.x + y * p.y + z * p.z
}

/// The word of the file for what is not read.
fn name(entity: &EntityType) -> String {
    if matches!(entity, EntityType::ModelPoint(_)) {
        return "POINT".to_owned();
    }
    // `Text(Text { … })`: the name of the variant is as good as that of the file.
    let told = format!("{entity:?}");
    told.split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default().to_uppercase()
}
