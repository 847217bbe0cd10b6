//! Where a thing lands while it is moved or placed, and why. Pure and in f64: no pixel, no colour, no
//! window.
//!
//! A [`SnapRequest`] says where the pointer wants the thing in the plane of one view; [`snap`] answers
//! with a [`Snapped`]: the place, and a [`Cause`] for every coordinate that something decided, with words
//! and guide lines to be seen by. The coordinate that the view does not show is never changed.
//!
//! # What decides
//! Each snapper, one a file, offers lines and points within reach of the pointer. Reach is in points of
//! the screen, so it does not depend on the zoom. An offer is worth the more, the nearer it is for its
//! reach; of offers equally near, the first of this list wins:
//!
//! 1. [`Kind::Tangent`]: the route runs straight on from the stretch, end or clamp beside it
//! 2. [`Kind::Square`]: the stretch beside it runs along an axis, or square or at 45° to the one beyond
//! 3. [`Kind::PortAxis`]: on the axis of a port, or square to it at its seat
//! 4. [`Kind::Align`]: one coordinate of another thing
//! 5. [`Kind::CutLength`]: the hose comes out at a whole length
//! 6. [`Kind::Grid`]: a line of the grid that is drawn
//!
//! What holds only as seen in this view comes after the same kind where it holds in the bay. The best
//! offer takes one coordinate (a point takes both); the best of those that cross it takes the other. A
//! coordinate that nothing takes lands on whole steps of the bay's unit ([`step_mm`]); one that was not
//! moved by half a step stays as it was. A coordinate that the user typed is never moved.
//!
//! # Calm
//! With the answer before as [`SnapRequest::previous`], what held then holds on: it is worth
//! [`HOLD`] points more and is let go [`RELEASE`] point later. A pointer that trembles by half a point does
//! not make the thing jump to and fro between lines. The place of a whole cut length may move faster than
//! the pointer, where the length hardly changes on its way: it may be lost again by a tremble.

mod align;
mod beside;
mod cause;
mod choose;
mod cut_length;
mod grid;
mod offer;
mod plane;
mod port_axis;
mod square;
mod tangent;
mod third;
mod trial;

pub use beside::{Neighbour, NeighbourKind, RouteBeside};
pub use cause::Cause;
pub use offer::Kind;
pub use plane::third_axis;
pub use third::{ThirdCoordinate, third_coordinate};
pub use trial::CutLengthTrial;

use glam::{DVec2, DVec3};

use super::camera::View;
use super::scene::Scene;
use super::thing::Thing;
use crate::units::LengthUnit;
use offer::Offers;
use plane::Plane;

/// How near the strongest causes catch, screen points.
pub const REACH: f64 = 8.0;
/// What held before is worth so many points more.
pub const HOLD: f64 = 2.0;
/// What held before is let go so many points later.
pub const RELEASE: f64 = 1.0;

/// Where the pointer wants a thing, and what is known of it.
pub struct SnapRequest<'a> {
    /// What there is to snap to.
    pub scene: &'a Scene,
    /// The view in which the pointer is.
    pub view: View,
    /// Its scale: screen points a millimetre, more than 0.
    pub points_per_mm: f64,
    /// The unit of grid and steps.
    pub unit: LengthUnit,
    /// Where the pointer wants the thing, in the plane of the view, mm.
    pub raw: DVec2,
    /// The coordinate that the view does not show, mm.
    pub third: f64,
    /// Where a thing that is moved was, in the plane of the view; none for a new one.
    pub from: Option<DVec2>,
    /// Where the pointer set out from: whole cut lengths are looked for on its way.
    pub set_out: Option<DVec2>,
    /// Half the extent of what is moved, about its place: its sides line up too.
    pub half: DVec2,
    /// What moves along: no targets.
    pub moving: &'a [Thing],
    /// For corners and clamps: what is before and after them on their hose.
    pub route: Option<&'a RouteBeside>,
    /// The cut length of the hose if the thing stood there, mm; asked at most
    /// [`MOST_TRIALS`] times. See [`CutLengthTrial`].
    pub cut_length: Option<&'a dyn Fn(DVec3) -> Option<f64>>,
    /// The coordinates that the user has typed, right and up in the view.
    pub fixed: [Option<f64>; 2],
    /// The answer before, of the same drag.
    pub previous: Option<&'a Snapped>,
}

/// How often [`SnapRequest::cut_length`] is asked at most.
pub const MOST_TRIALS: u32 = 40;

impl<'a> SnapRequest<'a> {
    /// A thing that was at `from` is wanted at `raw`. The rest is left out and may be set.
    pub fn moving(
        scene: &'a Scene,
        (view, points_per_mm): (View, f64),
        from: DVec3,
        raw: DVec2,
    ) -> Self {
        let third = from[plane::third_axis(view)];
        let place = (view, points_per_mm);
        let from = view.project(from);
        Self { from: Some(from), set_out: Some(from), ..Self::placing(scene, place, third, raw) }
    }

    /// A new thing is wanted at `raw`, with this third coordinate. The rest is left out and may be set.
    pub fn placing(
        scene: &'a Scene,
        (view, points_per_mm): (View, f64),
        third: f64,
        raw: DVec2,
    ) -> Self {
        Self {
            scene,
            view,
            points_per_mm,
            unit: scene.unit,
            raw,
            third,
            from: None,
            set_out: None,
            half: DVec2::ZERO,
            moving: &[],
            route: None,
            cut_length: None,
            fixed: [None; 2],
            previous: None,
        }
    }

    fn plane(&self) -> Plane {
        Plane { view: self.view, third: self.third }
    }

    /// Screen points in mm of the bay.
    fn mm(&self, points: f64) -> f64 {
        points / self.points_per_mm
    }

    fn is_sound(&self) -> bool {
        self.raw.is_finite()
            && self.third.is_finite()
            && self.points_per_mm.is_finite()
            && self.points_per_mm > 0.0
    }
}

/// Where the thing lands.
#[derive(Debug, Clone, PartialEq)]
pub struct Snapped {
    /// Its place.
    pub place: DVec3,
    /// What decided it: at most one for each coordinate of the view. Empty where it landed on whole
    /// steps.
    pub causes: Vec<Cause>,
}

impl Snapped {
    /// Where a thing stands that is not snapped to anything.
    pub fn free(place: DVec3) -> Self {
        Self { place, causes: Vec::new() }
    }

    /// The causes in words, each once: "along the axis of Pump, cut 24 in".
    pub fn words(&self) -> String {
        self.lines().join(", ")
    }

    /// The same, cause by cause.
    pub fn lines(&self) -> Vec<&str> {
        let mut found: Vec<&str> = Vec::new();
        for cause in &self.causes {
            if !found.contains(&cause.words.as_str()) {
                found.push(&cause.words);
            }
        }
        found
    }
}

/// Where the thing lands. A request that is not finite is answered with where it was, or the origin.
pub fn snap(request: &SnapRequest<'_>) -> Snapped {
    if !request.is_sound() {
        let was = request.from.filter(|p| p.is_finite()).unwrap_or(DVec2::ZERO);
        let third = if request.third.is_finite() { request.third } else { 0.0 };
        return Snapped::free(Plane { third, ..request.plane() }.point(was));
    }
    let mut offers = Offers::new(request);
    tangent::offer(request, &mut offers);
    square::offer(request, &mut offers);
    port_axis::offer(request, &mut offers);
    align::offer(request, &mut offers);
    grid::offer(request, &mut offers);
    choose::choose(request, &offers)
}

/// What a place is rounded to that nothing else decides: what a builder measures to.
pub fn step_mm(unit: LengthUnit) -> f64 {
    unit.bench_step_mm()
}

/// Where a coordinate lands that nothing decides: on whole steps of the unit; one that was not moved by
/// half a step stays as it was.
fn landed(request: &SnapRequest<'_>, axis: usize, wanted: f64) -> f64 {
    let step = step_mm(request.unit);
    match request.from.map(|from| from[axis]) {
        Some(old) if (wanted - old).abs() < step / 2.0 => old,
        _ => (wanted / step).round() * step,
    }
}

#[cfg(test)]
mod fixture;
#[cfg(test)]
mod properties;
#[cfg(test)]
mod tests;
