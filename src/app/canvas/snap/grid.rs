//! The lines of the grid that is drawn.

use glam::DVec2;

use super::SnapRequest;
use super::cause::Cause;
use super::offer::{Form, Key, Kind, Offer, Offers, rank};
use super::plane::Line;
use crate::app::canvas::layout::grid_step_mm;
use crate::units::Length;

/// The grid is everywhere: it catches only close by, points.
const PULL: f64 = 4.0;
/// Half the mark on a grid line, points.
const MARK: f64 = 14.0;

pub(super) fn offer(request: &SnapRequest<'_>, offers: &mut Offers<'_>) {
    let Some(step) = grid_step_mm(request.points_per_mm, request.unit) else { return };
    for axis in 0..2 {
        let value = (offers.wanted[axis] / step).round() * step;
        let form = Form::Line(Line::of_equal(axis, value));
        offers.add(Offer { key: Key::Grid(axis), form, pull: PULL, rank: rank(Kind::Grid) });
    }
}

pub(super) fn cause(request: &SnapRequest<'_>, axis: usize, at: DVec2) -> Option<Cause> {
    let step = grid_step_mm(request.points_per_mm, request.unit)?;
    let half = DVec2::AXES[1 - axis] * request.mm(MARK);
    let plane = request.plane();
    Some(Cause {
        kind: Kind::Grid,
        words: format!("on the {} grid", Length::from_mm(step).show(request.unit)),
        guides: vec![[plane.point(at - half), plane.point(at + half)]],
        target: None,
        key: Key::Grid(axis),
    })
}
