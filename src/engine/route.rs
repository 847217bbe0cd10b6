//! From a run to its polyline: exits, leads, corners, clamps (contract §3), with what stays
//! straight and the radius wanted at each corner.

use glam::DVec3;

use crate::geom::{EndFrame, unit_or_x};
use crate::model::{Run, Via};
use crate::units::EPS_MM;

use super::resolve::{ResolvedEnd, ResolvedHose};
use super::solution::BendPlace;

/// How many outside diameters a hose stays straight beside a socket (FAA-H-8083-30A: "at least two
/// hose diameters", published).
pub const STRAIGHT_DIAMETERS: f64 = 2.0;

/// What a route is laid from.
pub(super) struct Laying<'a> {
    pub(super) run: &'a Run,
    pub(super) hose: &'a ResolvedHose,
    pub(super) from: (&'a ResolvedEnd, &'a EndFrame),
    pub(super) to: (&'a ResolvedEnd, &'a EndFrame),
}

impl Laying<'_> {
    /// Hose that stays straight from an exit on: the socket and two diameters.
    pub(super) fn straight_at(&self, end: &ResolvedEnd) -> f64 {
        end.socket_mm + STRAIGHT_DIAMETERS * self.hose.outside_mm
    }

    /// The radius wanted where a corner does not say.
    pub(super) fn wanted(&self) -> f64 {
        self.run.radius_mm.unwrap_or(self.hose.radius_limit_mm)
    }

    /// Half the length a clamp grips.
    pub(super) fn half_grip(&self, grip_mm: Option<f64>) -> f64 {
        grip_mm.map_or(self.hose.outside_mm, |grip| grip / 2.0)
    }
}

/// The polyline of a run before it is measured; entry `i` of `known` and `held` is about the stretch
/// from point `i` to point `i + 1`.
#[derive(Debug, Clone, Default)]
pub(super) struct Route {
    pub(super) points: Vec<DVec3>,
    /// What makes each point; none for the two exits.
    pub(super) places: Vec<Option<BendPlace>>,
    pub(super) wanted: Vec<f64>,
    pub(super) known: Vec<Option<DVec3>>,
    pub(super) held: Vec<f64>,
    /// Places in `Run::via` of the corners left out because they coincide with their neighbour.
    pub(super) coincident: Vec<u32>,
}

impl Route {
    /// Lays the polyline `E_A, C_A, …, C_B, E_B` with these leads; what was in it is gone.
    pub(super) fn lay(&mut self, laying: &Laying<'_>, straights: &Straights) {
        let wanted = laying.wanted();
        let (end_a, a) = laying.from;
        let (end_b, b) = laying.to;
        self.clear();
        self.point(a.exit, None, 0.0);
        self.stretch(Some(a.direction), laying.straight_at(end_a));
        self.point(a.exit + straights.a * a.direction, Some(BendPlace::StraightA), wanted);
        self.stretch(None, 0.0);
        for (i, via) in laying.run.via.iter().enumerate() {
            match via {
                Via::Corner(corner) => {
                    let radius = corner.radius_mm.unwrap_or(wanted);
                    self.point(corner.at, Some(BendPlace::Corner(i as u32)), radius);
                }
                Via::Clamp(clamp) => {
                    let along = unit_or_x(clamp.along);
                    let reach = straights.clamp(i) * along;
                    self.point(clamp.at - reach, Some(BendPlace::BeforeClamp(i as u32)), wanted);
                    let grip = 2.0 * laying.half_grip(clamp.grip_mm);
                    self.stretch(Some(along), grip);
                    self.point(clamp.at + reach, Some(BendPlace::AfterClamp(i as u32)), wanted);
                }
            }
            self.stretch(None, 0.0);
        }
        self.point(b.exit + straights.b * b.direction, Some(BendPlace::StraightB), wanted);
        self.stretch(Some(-b.direction), laying.straight_at(end_b));
        self.point(b.exit, None, 0.0);
    }

    fn clear(&mut self) {
        self.points.clear();
        self.places.clear();
        self.wanted.clear();
        self.known.clear();
        self.held.clear();
        self.coincident.clear();
    }

    fn point(&mut self, at: DVec3, place: Option<BendPlace>, wanted: f64) {
        self.points.push(at);
        self.places.push(place);
        self.wanted.push(wanted);
    }

    fn stretch(&mut self, known: Option<DVec3>, held: f64) {
        self.known.push(known);
        self.held.push(held);
    }

    /// Leaves out every corner that coincides with its neighbour: a stretch of no length and no
    /// direction of its own joins two corners that are one.
    pub(super) fn merge_coincident(&mut self) {
        let mut i = 0;
        while i + 1 < self.points.len() {
            let joined = self.known[i].is_none()
                && self.points[i].distance_squared(self.points[i + 1]) <= EPS_MM * EPS_MM;
            if !joined {
                i += 1;
                continue;
            }
            // Keep the point that belongs to an end or a clamp; of two alike, the first.
            let gone = match (self.places[i], self.places[i + 1]) {
                (Some(BendPlace::Corner(_)), Some(place)) if !is_corner(place) => i,
                _ => i + 1,
            };
            if let Some(BendPlace::Corner(via)) = self.places[gone] {
                self.coincident.push(via);
            }
            let radius = self.wanted[i].min(self.wanted[i + 1]);
            self.points.remove(gone);
            self.places.remove(gone);
            self.wanted.remove(gone);
            self.wanted[i] = radius;
            self.known.remove(i);
            self.held.remove(i);
        }
    }
}

fn is_corner(place: BendPlace) -> bool {
    matches!(place, BendPlace::Corner(_))
}

/// The distance from each exit, and from the middle of each clamp, to its corner.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Straights {
    pub(super) a: f64,
    pub(super) b: f64,
    /// By place in `Run::via`; those of corners are not read. Empty where no clamp needs one.
    pub(super) clamps: Vec<f64>,
}

impl Straights {
    pub(super) fn clamp(&self, via: usize) -> f64 {
        self.clamps.get(via).copied().unwrap_or(0.0)
    }
}
