//! The end fittings of a routing against obstacles and each other.

use super::pieces::{Fitting, Piece};
use super::room::Rooms;
use super::{Against, Clash, EndAt, Part, RoutingFittings, TightNut};
use crate::engine::clearance::ClearanceIndex;
use crate::engine::lay::{Drawn, ends_of};
use crate::geom::{Cylinder, Placed};
use crate::memo::Memo;
use crate::model::Side;

/// Less deep is touching, mm.
const TOUCHING_MM: f64 = 0.1;
/// A port whose seat is so near to an obstacle's surface, or inside, is on it whatever the bay says, mm.
const ON_MM: f64 = 1.0;

/// The end fittings of a routing, two for each run, and what was found of each with obstacles of a version.
#[derive(Debug, Clone, Default)]
pub(in crate::engine) struct FittingsMemo(Vec<Memo<(Fitting, u64), Found>>);

/// What one fitting finds with the obstacles.
#[derive(Debug, Clone)]
struct Found {
    clashes: Vec<Clash>,
    rooms: Option<Rooms>,
}

impl FittingsMemo {
    /// What the end fittings of a routing find.
    pub(in crate::engine) fn of_routing(
        &mut self,
        index: &ClearanceIndex,
        drawn: &Drawn<'_>,
    ) -> RoutingFittings {
        let memo = &mut self.0;
        memo.resize_with(2 * drawn.runs.len(), Memo::default);
        for (place, (run, solved)) in drawn.routing.runs.iter().zip(drawn.runs).enumerate() {
            let slots = &mut memo[2 * place..2 * place + 2];
            let Ok(solved) = solved else {
                slots.iter_mut().for_each(Memo::forget);
                continue;
            };
            let ends = ends_of(drawn.bay, run, solved);
            for ((slot, side), end) in slots.iter_mut().zip([Side::A, Side::B]).zip(ends) {
                let fitting = Fitting::of(drawn.bay, run, side, solved, end.on);
                slot.of((fitting, index.version()), |(fitting, _)| {
                    against_obstacles(index, EndAt { run: place, side }, fitting)
                });
            }
        }
        let ends = memo.iter().enumerate();
        let ends = ends.filter_map(|(slot, memo)| {
            let ((fitting, _), found) = memo.get()?;
            Some((end_at(slot), fitting, found))
        });
        found_of(&ends.collect::<Vec<_>>())
    }
}

fn found_of(ends: &[(EndAt, &Fitting, &Found)]) -> RoutingFittings {
    let mut found = RoutingFittings::default();
    let mut rooms: Vec<Option<Rooms>> = ends.iter().map(|(.., alone)| alone.rooms).collect();
    for (i, (end, one, alone)) in ends.iter().enumerate() {
        found.clashes.extend(&alone.clashes);
        for (j, (other, two, _)) in ends.iter().enumerate().skip(i + 1) {
            if one.bounds.distance(&two.bounds) > 0.0 || one.seat.distance(two.seat) < ON_MM {
                continue;
            }
            found.clashes.extend(between((*end, one), (*other, two)));
            crowd(&mut rooms[i], one, (*other, two));
            crowd(&mut rooms[j], two, (*end, one));
        }
    }
    for ((end, fitting, _), rooms) in ends.iter().zip(rooms) {
        found.tight.extend(tight(*end, fitting, rooms, &found.clashes));
    }
    found
}

fn end_at(slot: usize) -> EndAt {
    let side = if slot.is_multiple_of(2) { Side::A } else { Side::B };
    EndAt { run: slot / 2, side }
}

fn against_obstacles(index: &ClearanceIndex, end: EndAt, fitting: &Fitting) -> Found {
    let mut clashes = Vec::new();
    let mut rooms = fitting.nut.as_ref().map(Rooms::free);
    index.each_in(&fitting.bounds, |place, obstacle| {
        let is_on = fitting.on == Some(place) || obstacle.distance(fitting.seat).0 <= ON_MM;
        let pieces = fitting.parts.iter().filter(|piece| !(is_on && piece.is_on_base));
        let cuts = pieces.filter_map(|piece| {
            let depth_mm = deep(piece.cylinder.depth_in_obstacle(obstacle))?;
            let is_sure = deep(sure_depth(piece, obstacle)).is_some();
            let (against, point) = (Against::Obstacle(place), piece.cylinder.middle());
            Some(Clash { end, part: piece.part, against, depth_mm, is_sure, point })
        });
        clashes.extend(deepest(cuts));
        if let (Some(rooms), Some(nut), false) = (&mut rooms, &fitting.nut, is_on) {
            rooms.beside_obstacle(nut, place, obstacle);
        }
    });
    // The tree's order is its own.
    clashes.sort_by_key(|clash| match clash.against {
        Against::Obstacle(place) => place,
        Against::Fitting(..) => usize::MAX,
    });
    Found { clashes, rooms }
}

fn sure_depth(piece: &Piece, obstacle: &Placed) -> Option<f64> {
    piece.sure().depth_in_obstacle(obstacle)
}

fn deep(depth_mm: Option<f64>) -> Option<f64> {
    depth_mm.filter(|depth| *depth > TOUCHING_MM)
}

/// Where two fittings cut deepest into each other.
fn between((end, one): (EndAt, &Fitting), (other, two): (EndAt, &Fitting)) -> Option<Clash> {
    let pairs = one.parts.iter().flat_map(|a| two.parts.iter().map(move |b| (a, b)));
    deepest(pairs.filter_map(|(a, b)| {
        let depth = |one: &Cylinder, two: &Cylinder| deep(one.depth_in(two));
        let depth_mm = depth(&a.cylinder, &b.cylinder)?;
        let is_sure = depth(&a.sure(), &b.sure()).is_some();
        let (against, point) = (Against::Fitting(other, b.part), a.cylinder.middle());
        Some(Clash { end, part: a.part, against, depth_mm, is_sure, point })
    }))
}

/// What is sure before what is not, then by depth.
fn deepest(cuts: impl Iterator<Item = Clash>) -> Option<Clash> {
    cuts.max_by(|a, b| a.is_sure.cmp(&b.is_sure).then(a.depth_mm.total_cmp(&b.depth_mm)))
}

fn crowd(rooms: &mut Option<Rooms>, own: &Fitting, (other, fitting): (EndAt, &Fitting)) {
    if let (Some(rooms), Some(nut)) = (rooms, &own.nut) {
        for piece in &fitting.parts {
            rooms.beside_piece(nut, Against::Fitting(other, piece.part), piece);
        }
    }
}

/// Not of a nut that cuts into something: that is said already.
fn tight(
    end: EndAt,
    fitting: &Fitting,
    rooms: Option<Rooms>,
    clashes: &[Clash],
) -> Option<TightNut> {
    let nut = fitting.nut.as_ref()?;
    let best = rooms?.best();
    let is_nut_of = |clash: &Clash| {
        (clash.end == end && clash.part == Part::Nut)
            || clash.against == Against::Fitting(end, Part::Nut)
    };
    if clashes.iter().any(is_nut_of) {
        return None;
    }
    Some(TightNut {
        end,
        against: best.against?,
        room_mm: best.room_mm,
        needed_mm: nut.needed_mm,
        flats_mm: nut.flats_mm,
        point: nut.middle(),
    })
}
