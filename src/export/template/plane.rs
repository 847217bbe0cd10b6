//! The plane that a flat route lies in.

use glam::{DVec2, DVec3};

use super::FLAT_WITHIN_MM;
use crate::drawing::View;
use crate::engine::RunSolution;
use crate::geom::{CentreLine, flatness};

/// How far a chord may stray from its arc, mm.
pub(super) const ACCURACY_MM: f64 = 0.01;

/// A direction to look from, and how the paper is held.
pub(super) struct Facing {
    /// What is seen.
    pub(super) name: String,
    /// To the right on paper, a unit vector in the bay.
    across: DVec3,
    /// Up on paper.
    up: DVec3,
}

impl Facing {
    /// A place in the bay on paper, mm, y down, from the bay's origin.
    pub(super) fn flat(&self, p: DVec3) -> DVec2 {
        DVec2::new(self.across.dot(p), -self.up.dot(p))
    }

    /// How near the eye a place is.
    pub(super) fn nearness(&self, p: DVec3) -> f64 {
        self.across.cross(self.up).dot(p)
    }

    /// Length of the centre line as it is seen from here.
    pub(super) fn shown_mm(&self, line: &CentreLine) -> f64 {
        let points = line.sampled(ACCURACY_MM);
        let (mut seen, mut whole) = (0.0, 0.0);
        for pair in points.windows(2) {
            seen += self.flat(pair[0]).distance(self.flat(pair[1]));
            whole += pair[0].distance(pair[1]);
        }
        // What the chords cut off is cut off both, alike.
        if whole > 0.0 { line.length() * seen / whole } else { 0.0 }
    }

    /// The same, with the paper turned: `turn` (a unit vector) of the paper as it was goes up.
    fn turned(self, turn: DVec2) -> Self {
        let up = self.across * turn.x - self.up * turn.y;
        let across = up.cross(self.across.cross(self.up));
        Self { across, up, ..self }
    }
}

/// The plane of a flat route; none of one in space.
pub(super) fn facing(run: &RunSolution) -> Option<Facing> {
    let points = run.centre_line.sampled(ACCURACY_MM);
    let flat = flatness(&points);
    let seats = [run.from.frame.seat, run.to.frame.seat];
    let with_seats: Vec<DVec3> = points.iter().copied().chain(seats).collect();
    if flat.off > FLAT_WITHIN_MM {
        return None;
    }
    let along = (run.to.frame.exit - run.from.frame.exit).normalize_or(DVec3::X);
    // A straight hose lies in many planes: best in that of its elbows, where they have one.
    let normal = flat.normal.or_else(|| {
        let whole = flatness(&with_seats);
        whole.normal.filter(|_| whole.off <= FLAT_WITHIN_MM)
    });
    let nearest = View::ALL.map(|view| (view, square_to(eye(view), normal, along)));
    let (view, normal) = nearest.into_iter().fold(nearest[0], |best, next| {
        if eye(next.0).dot(next.1) > eye(best.0).dot(best.1) + 1e-9 { next } else { best }
    });
    let up = if normal.dot(DVec3::Z).abs() > 0.9 { DVec3::Y } else { DVec3::Z };
    let across = up.cross(normal).normalize_or(DVec3::X);
    let name = if eye(view).dot(normal) > 1.0 - 1e-9 {
        format!("flat, seen in {}", view.name())
    } else {
        format!("flat, seen square on, nearest to the {} view", view.word())
    };
    let facing = Facing { name, across, up: normal.cross(across) };
    if run.centreline_mm - facing.shown_mm(&run.centre_line) > FLAT_WITHIN_MM {
        return None;
    }
    Some(upright(facing, &points, &with_seats))
}

/// From where a view is seen.
fn eye(view: View) -> DVec3 {
    let on = |axis: DVec3| view.nearness(axis);
    DVec3::new(on(DVec3::X), on(DVec3::Y), on(DVec3::Z))
}

/// The normal towards the eye; of a straight route the one of its many that looks at it most.
fn square_to(eye: DVec3, normal: Option<DVec3>, along: DVec3) -> DVec3 {
    match normal {
        Some(normal) if normal.dot(eye) < 0.0 => -normal,
        Some(normal) => normal,
        None => (eye - along * along.dot(eye)).normalize_or(along.any_orthonormal_vector()),
    }
}

/// Turns the paper so that route and fittings take the least room, long side up the page, A at the top.
fn upright(facing: Facing, hose: &[DVec3], all: &[DVec3]) -> Facing {
    let ends = match (hose.first(), hose.last()) {
        (Some(first), Some(last)) => (facing.flat(*first), facing.flat(*last)),
        _ => return facing,
    };
    let flat: Vec<DVec2> = all.iter().map(|p| facing.flat(*p)).collect();
    let direct = (ends.0 - ends.1).normalize_or(DVec2::NEG_Y);
    let by_degrees = (0..180).map(|deg| DVec2::from_angle(f64::from(deg).to_radians()));
    let mut best = (f64::INFINITY, direct);
    for way in std::iter::once(direct).chain(by_degrees) {
        let [long, wide] = [way, way.perp()].map(|axis| span(&flat, axis));
        // A degree more or less is no gain where the area is the same to a hair.
        let area = (long + 40.0) * (wide + 40.0);
        if area < best.0 - 1.0 {
            best = (area, if long < wide { way.perp() } else { way });
        }
    }
    let way = if best.1.dot(direct) < 0.0 { -best.1 } else { best.1 };
    facing.turned(way)
}

fn span(points: &[DVec2], axis: DVec2) -> f64 {
    let along = points.iter().map(|p| p.dot(axis));
    let (low, high) = along
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)));
    (high - low).max(0.0)
}
