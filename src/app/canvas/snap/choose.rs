//! Which offers are taken: the best one, and the best of those that cross it.

use glam::DVec2;

use super::cause::Cause;
use super::offer::{Form, Key, Kind, Offer, Offers, rank};
use super::plane::Line;
use super::{SnapRequest, Snapped, align, cut_length, grid, landed, port_axis, square, tangent};

/// A place with the offers that led to it.
struct Landing {
    at: DVec2,
    taken: Vec<Key>,
}

pub(super) fn choose(request: &SnapRequest<'_>, offers: &Offers<'_>) -> Snapped {
    let landing = land(request, offers);
    let mut at = landing.at;
    for axis in 0..2 {
        if let Some(value) = request.fixed[axis] {
            at[axis] = value;
        }
    }
    let causes = landing.taken.iter().filter_map(|key| cause(request, *key, at));
    let mut causes: Vec<Cause> = causes.collect();
    // In one order whichever is nearer just now: words that change places cannot be read.
    causes.sort_by_key(|cause| (cause.kind, cause.key.place()));
    Snapped { place: request.plane().point(at), causes }
}

fn land(request: &SnapRequest<'_>, offers: &Offers<'_>) -> Landing {
    let wanted = offers.wanted;
    let typed = match request.fixed {
        [Some(_), Some(_)] => return Landing { at: wanted, taken: Vec::new() },
        [Some(x), None] => Some(Line::of_equal(0, x)),
        [None, Some(y)] => Some(Line::of_equal(1, y)),
        [None, None] => None,
    };
    if let Some(line) = typed {
        return along(request, offers, line, wanted, Vec::new());
    }
    if rests(request, wanted, &[]) {
        return Landing { at: wanted, taken: Vec::new() };
    }
    let Some((offer, at)) = first(request, offers) else {
        let at = DVec2::new(landed(request, 0, wanted.x), landed(request, 1, wanted.y));
        return Landing { at, taken: Vec::new() };
    };
    match offer.form {
        Form::Point(_) => Landing { at, taken: vec![offer.key] },
        Form::Line(line) => along(request, offers, line, at, vec![offer.key]),
    }
}

/// The best offer of all.
fn first(request: &SnapRequest<'_>, offers: &Offers<'_>) -> Option<(Offer, DVec2)> {
    let wanted = offers.wanted;
    let whole = cut_length::on_the_way(request, wanted).map(|(at, key)| whole_length(at, key));
    best(offers.all.iter().chain(&whole).filter_map(|offer| {
        let at = match offer.form {
            Form::Point(point) => point,
            Form::Line(line) => line.nearest(wanted)?,
        };
        Some((*offer, at, offers.worth(offer, at.distance(wanted))?))
    }))
}

/// The best offer that crosses a line taken already, seen from the place `from` on it.
fn along(
    request: &SnapRequest<'_>,
    offers: &Offers<'_>,
    line: Line,
    from: DVec2,
    mut taken: Vec<Key>,
) -> Landing {
    if rests(request, from, &taken) {
        return Landing { at: from, taken };
    }
    let whole = cut_length::along(request, from, line.along).map(|(at, key)| whole_length(at, key));
    let crossing = best(offers.all.iter().chain(&whole).filter_map(|offer| {
        let at = match offer.form {
            Form::Point(point) => (line.distance(point) <= 1e-9).then_some(point)?,
            Form::Line(other) => line.crossing(other)?,
        };
        Some((*offer, at, offers.worth(offer, at.distance(from))?))
    }));
    let at = match crossing {
        Some((offer, at)) => {
            // Where an axis pierces the plane is more than where it is seen.
            taken.retain(|key| !key.is_seen_of(offer.key));
            taken.push(offer.key);
            at
        }
        None => step_along(request, line, from),
    };
    Landing { at, taken }
}

fn whole_length(at: DVec2, key: Key) -> Offer {
    Offer { key, form: Form::Point(at), pull: cut_length::PULL, rank: rank(Kind::CutLength) }
}

/// The first of the best.
fn best(found: impl Iterator<Item = (Offer, DVec2, f64)>) -> Option<(Offer, DVec2)> {
    let best = found.min_by(|a, b| a.2.total_cmp(&b.2))?;
    Some((best.0, best.1))
}

/// Whether the pointer stands exactly where the thing came to rest before, on whole steps, with the same
/// causes: it rests there still.
fn rests(request: &SnapRequest<'_>, at: DVec2, taken: &[Key]) -> bool {
    request.previous.is_some_and(|previous| {
        let was = request.plane().flat(previous.place);
        previous.causes.len() == taken.len()
            && previous.causes.iter().all(|cause| taken.contains(&cause.key))
            && was.distance(at) <= 1e-9 * (1.0 + at.length())
    })
}

/// On a line, to whole steps of the coordinate that changes most along it.
fn step_along(request: &SnapRequest<'_>, line: Line, from: DVec2) -> DVec2 {
    let axis = usize::from(line.along.y.abs() > line.along.x.abs());
    let value = landed(request, axis, from[axis]);
    line.crossing(Line::of_equal(axis, value)).unwrap_or(from)
}

/// What is told of an offer that was taken and led to `at`.
fn cause(request: &SnapRequest<'_>, key: Key, at: DVec2) -> Option<Cause> {
    match key {
        Key::Tangent { .. } | Key::OwnAxis { .. } => tangent::cause(request, key, at),
        Key::Square(_) | Key::Diagonal(..) | Key::AlongAxis(..) => square::cause(request, key, at),
        Key::PortAxis { .. } | Key::PortSeat(_) => port_axis::cause(request, key, at),
        Key::Align(axis, mark, own) => align::cause(request, axis, (mark, own), at),
        Key::CutLength { .. } => cut_length::cause(request, key),
        Key::Grid(axis) => grid::cause(request, axis, at),
    }
}
