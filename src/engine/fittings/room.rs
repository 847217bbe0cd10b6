//! Room for a spanner's head about a nut.

use super::Against;
use super::pieces::{Nut, Piece};
use crate::geom::{Cylinder, Placed};

/// What room the head has in each of its three places, and what bounds it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Rooms([Room; 3]);

/// Room from the axis, at most what is needed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Room {
    pub(super) room_mm: f64,
    pub(super) against: Option<Against>,
}

impl Rooms {
    /// All that is needed.
    pub(super) fn free(nut: &Nut) -> Self {
        Self([Room { room_mm: nut.needed_mm, against: None }; 3])
    }

    /// Less for an obstacle.
    pub(super) fn beside_obstacle(&mut self, nut: &Nut, place: usize, obstacle: &Placed) {
        self.beside(nut, Against::Obstacle(place), |head| head.meets_obstacle(obstacle));
    }

    /// Less for a part of another fitting.
    pub(super) fn beside_piece(&mut self, nut: &Nut, against: Against, piece: &Piece) {
        self.beside(nut, against, |head| head.meets(&piece.cylinder));
    }

    fn beside(&mut self, nut: &Nut, against: Against, meets: impl Fn(&Cylinder) -> bool) {
        for (place, room) in self.0.iter_mut().enumerate() {
            if let Some(room_mm) = room_of(nut, place, room.room_mm, &meets) {
                *room = Room { room_mm, against: Some(against) };
            }
        }
    }

    /// Where a spanner has most.
    pub(super) fn best(&self) -> Room {
        let [first, others @ ..] = self.0;
        others.into_iter().fold(first, |a, b| if b.room_mm > a.room_mm { b } else { a })
    }
}

/// The greatest radius below `most` that meets nothing, to a hundredth of a millimetre; none where `most`
/// does not.
fn room_of(nut: &Nut, place: usize, most: f64, meets: &impl Fn(&Cylinder) -> bool) -> Option<f64> {
    let meets_at = |radius: f64| radius > 0.0 && meets(&nut.head(place, radius));
    if !meets_at(most) {
        return None;
    }
    let (mut free, mut taken) = (0.0, most);
    while taken - free > 0.01 {
        let middle = free.midpoint(taken);
        if meets_at(middle) { taken = middle } else { free = middle }
    }
    Some(free)
}
