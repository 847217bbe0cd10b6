//! Rounded figures, chosen so that the wire stays by the route: a beam search from end A. Each figure is one
//! of its neighbours on the scale, the next straight counts with the bend that leads into it.

use glam::DVec3;

use super::drawn::{DrawnBend, Route};
use super::{Step, TableBend, WireStart};

/// So many beginnings of a table are followed at once.
const BEAM: usize = 48;
/// A straight shorter than this says little of where to aim, mm.
const AIM_MM: f64 = 30.0;

/// The bends and the straight after the last.
pub(super) fn figures(route: &Route, step: Step) -> (Vec<TableBend>, f64) {
    let mut beam = vec![Begun { wire: route.start, bends: Vec::new(), off: 0.0, ahead: 0.0 }];
    for (place, bend) in route.bends.iter().enumerate() {
        let next = route.bends.get(place + 1).map_or(route.end, |next| next.into.at);
        let mut more: Vec<Begun> = Vec::with_capacity(beam.len() * 36);
        for begun in &beam {
            let wanted = Wanted { bend, next, step, is_first: place == 0 };
            wanted.candidates(begun, |one| more.push(begun.with(one, bend, next)));
        }
        more.sort_by(|a, b| a.total().total_cmp(&b.total()));
        more.truncate(BEAM);
        beam = more;
    }
    let ended = beam.into_iter().flat_map(|begun| {
        let exact = (route.end - begun.wire.at).dot(begun.wire.direction);
        beside(exact, step.mm, 0.0).map(move |tail| {
            let off = begun.off + cost((begun.wire.moved(tail).at - route.end).length());
            (off, begun.bends.clone(), tail)
        })
    });
    let best = ended.min_by(|a, b| a.0.total_cmp(&b.0));
    best.map_or_else(|| (Vec::new(), 0.0), |(_, bends, tail)| (bends, tail))
}

/// A wire that is bent so far.
struct Begun {
    wire: WireStart,
    bends: Vec<TableBend>,
    /// What it strays, as a sum of costs.
    off: f64,
    /// The same at the end of the next straight.
    ahead: f64,
}

/// The farthest place is to decide, the others a little.
fn cost(off_mm: f64) -> f64 {
    off_mm.powi(6)
}

/// How far `at` is beside a line.
fn aside(at: DVec3, on: DVec3, direction: DVec3) -> f64 {
    let off = at - on;
    (off - direction * off.dot(direction)).length()
}

impl Begun {
    fn total(&self) -> f64 {
        self.off + self.ahead
    }

    fn with(&self, one: TableBend, drawn: &DrawnBend, next: DVec3) -> Self {
        let from = self.wire.moved(one.straight_mm).turned(one.turn_deg);
        let angle = one.bend_deg.to_radians();
        let (_, middle) = from.bent(angle / 2.0, one.radius_mm);
        let (_, wire) = from.bent(angle, one.radius_mm);
        let (_, drawn_middle) = drawn.into.bent(drawn.angle / 2.0, drawn.radius);
        let off = cost(aside(from.at, drawn.into.at, drawn.into.direction))
            + cost(aside(middle.at, drawn_middle.at, drawn_middle.direction))
            + cost(aside(wire.at, drawn.out.at, drawn.out.direction));
        let ahead = cost(aside(next, wire.at, wire.direction));
        let mut bends = self.bends.clone();
        bends.push(one);
        Self { wire, bends, off: self.off + off, ahead }
    }
}

/// One bend to be rounded.
struct Wanted<'a> {
    bend: &'a DrawnBend,
    /// Where the straight after it ends.
    next: DVec3,
    step: Step,
    is_first: bool,
}

impl Wanted<'_> {
    /// Every choice of neighbours about what would lead to the end of the next straight.
    fn candidates(&self, begun: &Begun, mut add: impl FnMut(TableBend)) {
        let Self { bend, step, .. } = self;
        let wire = &begun.wire;
        let straight = (bend.into.at - wire.at).dot(wire.direction);
        let (turn, angle) = self.aim(wire, bend.into.at);
        // A route that turns right back leaves the turn to itself.
        let turns: &[f64] =
            if self.is_first { &[0.0] } else { &around(turn, step.deg, f64::NEG_INFINITY) };
        let radii =
            if bend.radius > 0.0 { beside(bend.radius, step.mm, step.mm) } else { [0.0; 2] };
        for straight_mm in beside(straight, step.mm, 0.0) {
            for turn in turns {
                for bend_deg in around(angle, step.deg, step.deg) {
                    for radius_mm in radii {
                        let turn_deg = wrapped(*turn);
                        add(TableBend { straight_mm, turn_deg, bend_deg, radius_mm });
                    }
                }
            }
        }
    }

    /// Turn and bend that would lead a wire, bent as drawn, to the end of the next straight, degrees.
    fn aim(&self, wire: &WireStart, from: DVec3) -> (f64, f64) {
        let bend = self.bend;
        let along = bend.out.direction;
        let target = self.next + along * (AIM_MM - (self.next - bend.out.at).dot(along)).max(0.0);
        let begin = wire.at + wire.direction * (from - wire.at).dot(wire.direction);
        let end = begin + (bend.out.at - bend.into.at);
        let way = (target - end).normalize_or(along);
        let across = way - wire.direction * wire.direction.dot(way);
        let turn = wire.direction.dot(wire.side.cross(across)).atan2(wire.side.dot(across));
        (turn.to_degrees(), wire.direction.angle_between(way).to_degrees())
    }
}

/// Degrees in (−180, 180].
fn wrapped(deg: f64) -> f64 {
    let turned = deg.rem_euclid(360.0);
    if turned > 180.0 { turned - 360.0 } else { turned }
}

/// The steps below and above, at least `least`.
fn beside(value: f64, step: f64, least: f64) -> [f64; 2] {
    let count = value / step;
    [count.floor(), count.ceil()].map(|count| (count * step).max(least))
}

/// The nearest step and those beside it, at least `least`.
fn around(value: f64, step: f64, least: f64) -> [f64; 3] {
    let count = (value / step).round();
    [count, count - 1.0, count + 1.0].map(|count| (count * step).max(least))
}
