//! One coordinate of another thing: the same X, Y or Z as a port, a corner, a clamp, a side or the middle
//! of an obstacle.

use glam::{DVec2, DVec3};

use super::cause::Cause;
use super::offer::{Feature, Form, Key, Kind, Mark, Offer, Offers, Own, rank};
use super::plane::Line;
use super::{REACH, RELEASE, SnapRequest};
use crate::app::canvas::camera::Axis;
use crate::app::canvas::scene::{ObstacleMark, PortMark};
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
    for (i, obstacle) in request.scene.obstacles.iter().enumerate() {
        at_obstacle(request, offers, i, obstacle);
    }
}

fn at_point(request: &SnapRequest<'_>, offers: &mut Offers<'_>, mark: Mark, at: DVec2) {
    for axis in 0..2 {
        equal(request, offers, (axis, mark), at[axis], [at[1 - axis]; 2]);
    }
}

fn at_obstacle(
    request: &SnapRequest<'_>,
    offers: &mut Offers<'_>,
    index: usize,
    obstacle: &ObstacleMark,
) {
    let (lo, hi) = obstacle.shape.bounds();
    let (lo, hi) = (request.view.project(lo), request.view.project(hi));
    for axis in 0..2 {
        let across = [lo[1 - axis], hi[1 - axis]];
        let sides = [
            (Feature::Middle, f64::midpoint(lo[axis], hi[axis])),
            (Feature::Least, lo[axis]),
            (Feature::Greatest, hi[axis]),
        ];
        for (feature, value) in sides {
            equal(request, offers, (axis, Mark::Obstacle(index, feature)), value, across);
        }
    }
    if let Shape::Cylinder { from, to, .. } = &obstacle.shape {
        for (end, middle) in [from, to].into_iter().enumerate() {
            let mark = Mark::Obstacle(index, Feature::End(end));
            at_point(request, offers, mark, request.view.project(*middle));
        }
    }
}

/// Where a part of what is moved is from its place.
fn shift(request: &SnapRequest<'_>, axis: usize, own: Own) -> f64 {
    match own {
        Own::Middle => 0.0,
        Own::Least => -request.half[axis],
        Own::Greatest => request.half[axis],
    }
}

/// Offers one coordinate, for each part of what is moved; `across` is what the thing takes up of the other.
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
    let parts = if request.half[axis] > 0.0 { 3 } else { 1 };
    for own in &[Own::Middle, Own::Least, Own::Greatest][..parts] {
        let at = value - shift(request, axis, *own);
        let near = (at - offers.wanted[axis]).abs() * scale <= REACH + RELEASE;
        if !near || off > OUT || is_moving(request, mark) {
            continue;
        }
        let far = ((off - NEAR) / (FAR - NEAR)).clamp(0.0, 1.0);
        offers.add(Offer {
            key: Key::Align(axis, mark, *own),
            form: Form::Line(Line::of_equal(axis, at)),
            pull: REACH + far * (LEAST_PULL - REACH),
            rank: rank(Kind::Align) + 0.2 * far,
        });
    }
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
        Mark::Obstacle(obstacle, _) => {
            let obstacle = &request.scene.obstacles[obstacle];
            request
                .moving
                .iter()
                .any(|thing| matches!(thing, Thing::Obstacle(id) if *id == obstacle.id))
        }
    }
}

pub(super) fn cause(
    request: &SnapRequest<'_>,
    axis: usize,
    (mark, own): (Mark, Own),
    at: DVec2,
) -> Option<Cause> {
    let along = request.view.axes()[axis];
    let mut place = request.plane().point(at);
    place[along] += shift(request, axis, own);
    let (name, target, from) = target(request, along, mark, place)?;
    let in_line = in_line(along);
    Some(Cause {
        kind: Kind::Align,
        words: match own {
            Own::Middle => format!("{in_line} {name}"),
            Own::Least => format!("its {} {in_line} {name}", SIDES[along][0]),
            Own::Greatest => format!("its {} {in_line} {name}", SIDES[along][1]),
        },
        guides: vec![[from, place]],
        target,
        key: Key::Align(axis, mark, own),
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
        Mark::Obstacle(index, feature) => {
            let obstacle = request.scene.obstacles.get(index)?;
            let name = format!("the {} of {}", part(along, feature), words::short(&obstacle.name));
            Some((
                name,
                Some(Thing::Obstacle(obstacle.id.clone())),
                guide_start(&obstacle.shape, along, feature, place),
            ))
        }
    }
}

/// What a builder calls a side: X is forward, Y to the left, Z up.
const SIDES: [[&str; 2]; 3] = [["rear", "front"], ["right side", "left side"], ["foot", "top"]];

fn part(axis: Axis, feature: Feature) -> &'static str {
    match feature {
        Feature::Middle => "middle",
        Feature::Least => SIDES[axis][0],
        Feature::Greatest => SIDES[axis][1],
        Feature::End(_) => "end",
    }
}

/// On the part of the obstacle, nearest to where the thing stands.
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
