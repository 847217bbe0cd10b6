//! One coordinate of another thing: the same X, Y or Z as a port, a corner, a clamp, a side or the middle
//! of a solid.

use glam::{DVec2, DVec3};

use super::cause::{Cause, Kind};
use super::offer::{Feature, Form, Key, Mark, Offer, Offers, rank};
use super::plane::Line;
use super::{LET_GO, REACH, SnapRequest};
use crate::app::canvas::camera::Axis;
use crate::app::canvas::scene::{PortMark, SolidMark};
use crate::app::canvas::thing::Thing;
use crate::app::words;
use crate::model::Shape;

/// Things this near along the guide catch with the full reach, points.
const NEAR: f64 = 150.0;
/// Things this far catch with the least one.
const FAR: f64 = 900.0;
/// Things farther than this are left out: they are off the screen.
const OUT: f64 = 2000.0;
/// The least reach, points.
const LEAST_PULL: f64 = 5.0;

pub(super) fn offer(request: &SnapRequest<'_>, offers: &mut Offers<'_>) {
    let view = request.view;
    for (i, port) in request.scene.ports.iter().enumerate() {
        at_point(request, offers, Mark::Port(i), view.project(port.at));
    }
    for (hose, mark) in request.scene.hoses.iter().enumerate() {
        for (via, step) in mark.vias.iter().enumerate() {
            at_point(request, offers, Mark::Via { hose, via }, view.project(step.at));
        }
    }
    for (i, solid) in request.scene.solids.iter().enumerate() {
        at_solid(request, offers, i, solid);
    }
}

fn at_point(request: &SnapRequest<'_>, offers: &mut Offers<'_>, mark: Mark, at: DVec2) {
    for axis in 0..2 {
        equal(request, offers, (axis, mark), at[axis], [at[1 - axis]; 2]);
    }
}

fn at_solid(request: &SnapRequest<'_>, offers: &mut Offers<'_>, index: usize, solid: &SolidMark) {
    let (lo, hi) = solid.shape.bounds();
    let (lo, hi) = (request.view.project(lo), request.view.project(hi));
    for axis in 0..2 {
        let across = [lo[1 - axis], hi[1 - axis]];
        let sides = [
            (Feature::Middle, f64::midpoint(lo[axis], hi[axis])),
            (Feature::Least, lo[axis]),
            (Feature::Greatest, hi[axis]),
        ];
        for (feature, value) in sides {
            equal(request, offers, (axis, Mark::Solid(index, feature)), value, across);
        }
    }
    if let Shape::Cylinder { from, to, .. } = &solid.shape {
        for (end, middle) in [from, to].into_iter().enumerate() {
            let mark = Mark::Solid(index, Feature::End(end));
            at_point(request, offers, mark, request.view.project(*middle));
        }
    }
}

/// Offers one coordinate; `across` is what the thing takes up of the other.
fn equal(
    request: &SnapRequest<'_>,
    offers: &mut Offers<'_>,
    (axis, mark): (usize, Mark),
    value: f64,
    across: [f64; 2],
) {
    let scale = request.points_per_mm;
    let other = offers.wanted[1 - axis];
    let off = (other - other.max(across[0]).min(across[1])).abs() * scale;
    let near = (value - offers.wanted[axis]).abs() * scale <= REACH + LET_GO;
    if !near || off > OUT || is_moving(request, mark) {
        return;
    }
    let far = ((off - NEAR) / (FAR - NEAR)).clamp(0.0, 1.0);
    offers.add(Offer {
        key: Key::Align(axis, mark),
        form: Form::Line(Line::of_equal(axis, value)),
        pull: REACH + far * (LEAST_PULL - REACH),
        rank: rank(Kind::Align) + 0.2 * far,
    });
}

pub(super) fn is_moving_port(request: &SnapRequest<'_>, mark: &PortMark) -> bool {
    request.moving.iter().any(|thing| matches!(thing, Thing::Port(id) if *id == mark.id))
}

fn is_moving(request: &SnapRequest<'_>, mark: Mark) -> bool {
    match mark {
        Mark::Port(port) => is_moving_port(request, &request.scene.ports[port]),
        Mark::Via { hose, via } => {
            let hose = &request.scene.hoses[hose];
            request.moving.iter().any(|thing| match thing {
                Thing::Via { run, via: moved } => *run == hose.run && *moved == hose.vias[via].via,
                _ => false,
            })
        }
        Mark::Solid(solid, _) => {
            let solid = &request.scene.solids[solid];
            request.moving.iter().any(|thing| matches!(thing, Thing::Solid(id) if *id == solid.id))
        }
    }
}

pub(super) fn cause(
    request: &SnapRequest<'_>,
    axis: usize,
    mark: Mark,
    at: DVec2,
) -> Option<Cause> {
    let along = request.view.axes()[axis];
    let place = request.plane().point(at);
    let (name, target, from) = target(request, along, mark, place)?;
    Some(Cause {
        kind: Kind::Align,
        words: format!("{} {name}", in_line(along)),
        guides: vec![[from, place]],
        target,
        key: Key::Align(axis, mark),
    })
}

/// "Level" is said of heights only.
pub(super) fn in_line(axis: Axis) -> &'static str {
    if axis == 2 { "level with" } else { "in line with" }
}

/// What the mark is called, which thing it is, and where its guide begins.
fn target(
    request: &SnapRequest<'_>,
    along: Axis,
    mark: Mark,
    place: DVec3,
) -> Option<(String, Option<Thing>, DVec3)> {
    match mark {
        Mark::Port(port) => {
            let port = request.scene.ports.get(port)?;
            Some((words::short(&port.name), Some(Thing::Port(port.id.clone())), port.at))
        }
        Mark::Via { hose, via } => {
            let hose = request.scene.hoses.get(hose)?;
            let via = hose.vias.get(via)?;
            let name = format!("{} of {}", via.name.to_lowercase(), words::short(&hose.name));
            Some((name, Some(Thing::Via { run: hose.run.clone(), via: via.via }), via.at))
        }
        Mark::Solid(index, feature) => {
            let solid = request.scene.solids.get(index)?;
            let name = format!("{} of {}", part(along, feature), words::short(&solid.name));
            Some((
                name,
                Some(Thing::Solid(solid.id.clone())),
                guide_start(&solid.shape, along, feature, place),
            ))
        }
    }
}

/// What a builder calls a side: X is forward, Y to the left, Z up.
fn part(axis: Axis, feature: Feature) -> &'static str {
    const SIDES: [[&str; 2]; 3] =
        [["the rear", "the front"], ["the right side", "the left side"], ["the foot", "the top"]];
    match feature {
        Feature::Middle => "the middle",
        Feature::Least => SIDES[axis][0],
        Feature::Greatest => SIDES[axis][1],
        Feature::End(_) => "the end",
    }
}

/// On the part of the solid, nearest to where the thing stands.
fn guide_start(shape: &Shape, along: Axis, feature: Feature, place: DVec3) -> DVec3 {
    if let (Shape::Cylinder { from, to, .. }, Feature::End(end)) = (shape, feature) {
        return if end == 0 { *from } else { *to };
    }
    let (lo, hi) = shape.bounds();
    let mut start = place.max(lo).min(hi);
    start[along] = match feature {
        Feature::Least => lo[along],
        Feature::Greatest => hi[along],
        _ => f64::midpoint(lo[along], hi[along]),
    };
    start
}
