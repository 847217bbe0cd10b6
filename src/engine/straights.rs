//! Straights that the bay leaves out: the smallest at which the wanted radius fits, or where none does,
//! the one with the largest radius that fits (contract §3).

use glam::DVec3;

use crate::geom::{Fillet, stretch_scale, unit_or_x};
use crate::model::Via;

use super::route::{Laying, Route, Straights};
use super::solution::BendPlace;

/// A full scale, within rounding.
const FITS: f64 = 1.0 - 1e-12;
/// Straights that depend on each other settle to this, mm.
const SETTLED_MM: f64 = 1e-10;
/// Rounds in which they may settle; each closes in by a constant factor.
const ROUNDS: usize = 100;
/// Rounds that may search, which costs more.
const SEARCH_ROUNDS: usize = 6;
/// Places looked at in one search.
const SAMPLES: u32 = 256;

/// One straight to be found: where it begins, the way it goes, and the points of the route it moves.
struct Unknown {
    origin: DVec3,
    /// Straight hose it has to hold before a bend may begin.
    straight: f64,
    /// Each corner it moves: place among the route's points, direction from the origin, and the
    /// neighbour of the corner on the far side.
    corners: Vec<(usize, DVec3, usize)>,
    which: Which,
}

#[derive(Clone, Copy)]
enum Which {
    A,
    B,
    Clamp(usize),
}

/// The straights of a run: as given, and the rest found.
/// `route` is scratch; what was in it is gone.
pub(super) fn settle(laying: &Laying<'_>, route: &mut Route) -> Straights {
    let mut straights = first_guess(laying);
    if all_given(laying) {
        return straights;
    }
    route.lay(laying, &straights);
    let unknowns = unknowns(laying, route);
    for round in 0..ROUNDS {
        let mut moved = 0.0_f64;
        for unknown in &unknowns {
            let straight = best_straight(unknown, route, round < SEARCH_ROUNDS);
            let Some(straight) = straight else { continue };
            let slot = match unknown.which {
                Which::A => &mut straights.a,
                Which::B => &mut straights.b,
                Which::Clamp(via) => &mut straights.clamps[via],
            };
            moved = moved.max((straight - *slot).abs());
            *slot = straight;
            unknown.place(route, straight);
        }
        if moved <= SETTLED_MM {
            break;
        }
    }
    straights
}

fn all_given(laying: &Laying<'_>) -> bool {
    let given = |via: &Via| !matches!(via, Via::Clamp(clamp) if clamp.straight_mm.is_none());
    let run = laying.run;
    run.from.straight_mm.is_some() && run.to.straight_mm.is_some() && run.via.iter().all(given)
}

/// What is given; for the rest the straight hose that is needed anyway.
fn first_guess(laying: &Laying<'_>) -> Straights {
    let (end_a, a) = laying.from;
    let (end_b, b) = laying.to;
    let run = laying.run;
    // Two ends that look at each other over a short way must not reach past one another.
    let half_way = a.exit.distance(b.exit) / 2.0;
    let guess = |straight: f64| straight.min(half_way);
    let has_clamp = run.via.iter().any(|via| matches!(via, Via::Clamp(_)));
    let clamps = run
        .via
        .iter()
        .filter(|_| has_clamp)
        .map(|via| match via {
            Via::Corner(_) => 0.0,
            Via::Clamp(c) => c.straight_mm.unwrap_or_else(|| laying.half_grip(c.grip_mm)),
        })
        .collect();
    Straights {
        a: run.from.straight_mm.unwrap_or_else(|| guess(laying.straight_at(end_a))),
        b: run.to.straight_mm.unwrap_or_else(|| guess(laying.straight_at(end_b))),
        clamps,
    }
}

fn unknowns(laying: &Laying<'_>, route: &Route) -> Vec<Unknown> {
    let mut found = Vec::new();
    let (end_a, a) = laying.from;
    let (end_b, b) = laying.to;
    let last = route.points.len() - 1;
    if laying.run.from.straight_mm.is_none() {
        found.push(Unknown {
            origin: a.exit,
            straight: laying.straight_at(end_a),
            corners: vec![(1, a.direction, 2)],
            which: Which::A,
        });
    }
    for (via, clamp) in laying.run.via.iter().enumerate() {
        let Via::Clamp(clamp) = clamp else { continue };
        let before = route
            .places
            .iter()
            .position(|place| *place == Some(BendPlace::BeforeClamp(via as u32)));
        if let (None, Some(before)) = (clamp.straight_mm, before) {
            let along = unit_or_x(clamp.along);
            found.push(Unknown {
                origin: clamp.at,
                straight: laying.half_grip(clamp.grip_mm),
                corners: vec![(before, -along, before - 1), (before + 1, along, before + 2)],
                which: Which::Clamp(via),
            });
        }
    }
    if laying.run.to.straight_mm.is_none() {
        found.push(Unknown {
            origin: b.exit,
            straight: laying.straight_at(end_b),
            corners: vec![(last - 1, b.direction, last - 2)],
            which: Which::B,
        });
    }
    found
}

impl Unknown {
    fn place(&self, route: &mut Route, straight: f64) {
        for (point, direction, _) in &self.corners {
            route.points[*point] = self.origin + straight * *direction;
        }
    }

    /// Share of the wanted radius that fits at its corners with this straight.
    fn fit(&self, route: &mut Route, straight: f64) -> f64 {
        self.place(route, straight);
        self.corners.iter().map(|(point, _, _)| scale_at(route, *point)).fold(1.0, f64::min)
    }
}

/// The straight of one unknown with everything else as it stands: in closed form where that fits, by a
/// search where it does not. None where only a search could answer and none is wanted.
fn best_straight(unknown: &Unknown, route: &mut Route, may_search: bool) -> Option<f64> {
    let direct = unknown
        .corners
        .iter()
        .map(|(point, direction, next)| {
            let next = route.points[*next] - unknown.origin;
            tangent_straight(*direction, unknown.straight, route.wanted[*point], next)
        })
        .try_fold(0.0_f64, |most, straight| straight.map(|straight| most.max(straight)));
    if let Some(straight) = direct
        && unknown.fit(route, straight) >= FITS
    {
        return Some(straight);
    }
    may_search.then(|| search(unknown, route, direct.unwrap_or(unknown.straight)))
}

/// The smallest straight along unit vector `direction` at which an arc of `radius` that begins no
/// sooner than `straight` leads to the point `next` (seen from the origin of the straight): the arc
/// begins right at `straight`, and a tangent of its circle goes through `next`. None where `next` is
/// inside the circle or the turn would be a half turn and more.
fn tangent_straight(direction: DVec3, straight: f64, radius: f64, next: DVec3) -> Option<f64> {
    let ahead = next.dot(direction);
    let beside = (next - ahead * direction).length();
    if beside <= 1e-12 * ahead.abs() {
        // In line: nothing bends. A short way leaves no more than its own length.
        return (ahead >= 0.0).then_some(ahead.min(straight));
    }
    let (x, y) = (ahead - straight, beside - radius);
    let tangent = (x * x + y * y - radius * radius).max(-1.0);
    if tangent < 0.0 {
        return None;
    }
    let turn = (y.atan2(x) + radius.atan2(tangent.sqrt())).rem_euclid(std::f64::consts::TAU);
    let half = turn / 2.0;
    (turn < std::f64::consts::PI - 1e-6).then(|| straight + radius * half.tan())
}

/// Looks for the smallest straight that fits from `from` on, or the one that fits best.
fn search(unknown: &Unknown, route: &mut Route, from: f64) -> f64 {
    let reach = unknown
        .corners
        .iter()
        .map(|(point, _, next)| {
            route.points[*next].distance(unknown.origin) + 2.0 * route.wanted[*point]
        })
        .fold(1.0, f64::max);
    let low = from.min(unknown.straight);
    let step = reach / f64::from(SAMPLES);
    let (mut best, mut best_fit) = (low, f64::NEG_INFINITY);
    for k in 0..=SAMPLES {
        let straight = low + step * f64::from(k);
        let fit = unknown.fit(route, straight);
        if fit >= FITS {
            return first_fit(unknown, route, (straight - step).max(low), straight);
        }
        if fit > best_fit {
            (best, best_fit) = (straight, fit);
        }
    }
    refine(unknown, route, (best - step).max(low), best + step)
}

/// Bisection: `fits` fits, `tight` does not (or is the same).
fn first_fit(unknown: &Unknown, route: &mut Route, mut tight: f64, mut fits: f64) -> f64 {
    for _ in 0..60 {
        let middle = f64::midpoint(tight, fits);
        if unknown.fit(route, middle) >= FITS {
            fits = middle;
        } else {
            tight = middle;
        }
    }
    fits
}

/// Golden-section search for the best fit between two leads.
fn refine(unknown: &Unknown, route: &mut Route, mut low: f64, mut high: f64) -> f64 {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    for _ in 0..60 {
        let third = (high - low) * (1.0 - GOLDEN);
        let (near, far) = (low + third, high - third);
        if unknown.fit(route, near) >= unknown.fit(route, far) {
            high = far;
        } else {
            low = near;
        }
    }
    let straight = f64::midpoint(low, high);
    if unknown.fit(route, straight) >= FITS {
        first_fit(unknown, route, low, straight)
    } else {
        straight
    }
}

/// Share of the wanted radius that fits at one point, from its two stretches and its neighbours.
fn scale_at(route: &Route, point: usize) -> f64 {
    let own = tangent(route, point);
    if own <= 0.0 {
        return 1.0;
    }
    let room = |stretch: usize| {
        route.points[stretch].distance(route.points[stretch + 1]) - route.held[stretch]
    };
    let before = stretch_scale(room(point - 1), own + tangent(route, point - 1));
    let after = stretch_scale(room(point), own + tangent(route, point + 1));
    before.min(after)
}

/// Tangent length at the radius wanted; nothing at the exits.
fn tangent(route: &Route, point: usize) -> f64 {
    if point == 0 || point + 1 >= route.points.len() {
        return 0.0;
    }
    let before = direction(route, point - 1);
    Fillet::wanted_between(before, direction(route, point), route.wanted[point]).tangent
}

fn direction(route: &Route, stretch: usize) -> DVec3 {
    route.known[stretch].unwrap_or_else(|| {
        (route.points[stretch + 1] - route.points[stretch]).normalize_or(DVec3::X)
    })
}
