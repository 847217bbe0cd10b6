//! An end fitting as cylinders.

use glam::DVec3;

use super::Part;
use crate::engine::end_kind;
use crate::engine::solution::{EndSolution, RunSolution};
use crate::geom::{Bounds, Cylinder, sin_cos_deg};
use crate::model::catalogue::nut_hex::{
    across_corners_mm, nut_flats_mm, spanner_radius_mm, spanner_thickness_mm,
};
use crate::model::catalogue::tube_outside_mm;
use crate::model::{Bay, Run, Side};

/// An end fitting.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Fitting {
    pub(super) seat: DVec3,
    /// The obstacle that its port is screwed into.
    pub(super) on: Option<usize>,
    pub(super) nut: Option<Nut>,
    pub(super) parts: Vec<Piece>,
    /// Around all of it, and the spanner.
    pub(super) bounds: Bounds,
}

/// A part as a cylinder.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Piece {
    pub(super) part: Part,
    pub(super) cylinder: Cylinder,
    /// The least that its radius can be.
    pub(super) sure_radius: f64,
    /// Whether it stands on what the port is screwed into.
    pub(super) is_on_base: bool,
}

/// The nut and the spanner on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Nut {
    pub(super) flats_mm: f64,
    pub(super) corner_mm: f64,
    pub(super) needed_mm: f64,
    /// The middle of the head, at the seat's end of the nut, half way, and at the other end.
    heads: [DVec3; 3],
    along: DVec3,
    half_head_mm: f64,
}

impl Nut {
    /// The head of a spanner in one of its three places, so far out.
    pub(super) fn head(&self, place: usize, radius: f64) -> Cylinder {
        let (middle, half) = (self.heads[place], self.along * self.half_head_mm);
        Cylinder { from: middle - half, to: middle + half, radius }
    }

    pub(super) fn middle(&self) -> DVec3 {
        self.heads[1]
    }
}

impl Piece {
    /// The part where only what is sure of it stands.
    pub(super) fn sure(&self) -> Cylinder {
        Cylinder { radius: self.sure_radius.min(self.cylinder.radius), ..self.cylinder }
    }
}

impl Fitting {
    /// The fitting on one side of a run, `on` the obstacle of its port.
    pub(super) fn of(
        bay: &Bay,
        run: &Run,
        side: Side,
        solved: &RunSolution,
        on: Option<usize>,
    ) -> Self {
        let end = match side {
            Side::A => &solved.from,
            Side::B => &solved.to,
        };
        let frame = &end.frame;
        let flats = flats_mm(bay, run, side);
        let legs = legs(end);
        // A nut is taken to be as long as it is wide across flats (typical), up to the knee.
        let length = flats.map(|flats| flats.min(legs[0].distance(legs[1])));
        let nut =
            flats.zip(length).map(|(flats, length)| nut(frame.seat, frame.toward, flats, length));
        let mut parts = Vec::with_capacity(4);
        if let (Some(nut), Some(length)) = (&nut, length) {
            let to = frame.seat + length * frame.toward;
            let cylinder = Cylinder { from: frame.seat, to, radius: nut.corner_mm };
            let sure_radius = nut.flats_mm / 2.0;
            parts.push(Piece { part: Part::Nut, cylinder, sure_radius, is_on_base: true });
        }
        let radius = tube_outside_mm(run.dash) / 2.0;
        for (place, pair) in legs.windows(2).enumerate() {
            let cylinder = Cylinder { from: pair[0], to: pair[1], radius };
            let is_on_base = place == 0;
            parts.push(Piece { part: Part::Tube, cylinder, sure_radius: radius, is_on_base });
        }
        // A socket goes round the hose, and is about as thick as the nut (typical).
        let hose = solved.hose.outside_mm / 2.0;
        let radius = flats.map_or(hose, |flats| hose.max(flats / 2.0));
        let cylinder = Cylinder { from: frame.exit, to: end.mouth, radius };
        parts.push(Piece { part: Part::Socket, cylinder, sure_radius: hose, is_on_base: false });
        let around = parts.iter().map(|piece| piece.cylinder.bounds());
        let heads = nut.iter().flat_map(|nut| (0..3).map(|place| nut.head(place, nut.needed_mm)));
        let heads = heads.map(|head| head.bounds());
        let bounds = around.chain(heads).fold(Bounds::NOTHING, |all, next| all.with(&next));
        Self { seat: frame.seat, on, nut, parts, bounds }
    }
}

/// The nut across flats: by the stock, else by the table.
fn flats_mm(bay: &Bay, run: &Run, side: Side) -> Option<f64> {
    let end = run.end(side);
    let size = end.end.as_deref().and_then(|id| end_kind(bay, id)?.size(run.dash, end.angle_deg));
    size.and_then(|size| size.nut_hex_mm).or_else(|| nut_flats_mm(run.dash)).filter(|mm| *mm > 0.0)
}

fn nut(seat: DVec3, toward: DVec3, flats: f64, length: f64) -> Nut {
    let thickness = spanner_thickness_mm(flats).min(length);
    let at = |share: f64| seat + (thickness / 2.0 + share * (length - thickness)) * toward;
    Nut {
        flats_mm: flats,
        corner_mm: across_corners_mm(flats) / 2.0,
        needed_mm: spanner_radius_mm(flats),
        heads: [at(0.0), at(0.5), at(1.0)],
        along: toward,
        half_head_mm: thickness / 2.0,
    }
}

/// From the seat along the port, and from where that meets the hose's axis to the cut end; straight across
/// where the two do not meet ahead of both.
fn legs(end: &EndSolution) -> Vec<DVec3> {
    let (sin, cos) = sin_cos_deg(end.end.angle_deg);
    let frame = &end.frame;
    if sin > 1e-6 {
        let from_exit = end.end.across_mm / sin;
        let from_seat = end.end.along_mm - from_exit * cos;
        if from_exit > 0.0 && from_seat > 0.0 {
            return vec![frame.seat, frame.seat + from_seat * frame.toward, frame.exit];
        }
    }
    vec![frame.seat, frame.exit]
}
